"""Do the aids for reading do what they say, and does the page do without them?

check_aids.py BROWSER PAGE   PAGE: a full assessment; each problem on a line, status 1 if there is one
"""
import sys

from browser import Browser

ROWS = "[...document.querySelectorAll('[data-band]')].filter(r => !r.closest('[hidden]')).map(r => r.id)"
CHOOSE = """(name, value) => { const c = document.querySelector(`.aids select[name=${name}]`);
  c.value = value; c.dispatchEvent(new Event('change', {bubbles: true})); return c.value === value; }"""


def choose(browser, name, value):
    if not browser.run(f"({CHOOSE})('{name}', '{value}')"):
        raise RuntimeError(f"no {name} \"{value}\" to choose")
    return browser.run(ROWS)


def check(browser, page):
    browser.size(1280, 800)
    browser.open(page)
    every = browser.run(ROWS)
    for name in ("person", "band", "place"):
        options = browser.run(f"[...document.querySelectorAll('.aids select[name={name}] option')].map(o => o.value).filter(v => v)")
        wanted = browser.run(f"[...document.querySelectorAll('[data-band]')].map(r => [r.id, r.dataset.{name} || ''])")
        for option in options:
            shown = choose(browser, name, option)
            should = [row for row, marks in wanted if option in marks.split()]
            if shown != should:
                yield f"{name} {option}: shows {shown[:6]}, not {should[:6]}"
        if not any(len(choose(browser, name, o)) not in (0, len(every)) for o in options):
            yield f"{name}: no choice makes a difference"
        choose(browser, name, "")
    # A link to what is not shown shows it.
    hidden = [row for row in every if row not in choose(browser, "band", "stop")]
    browser.run(f"location.hash = '{hidden[-1]}'; new Promise(done => setTimeout(done, 100))", wait=True)
    if hidden[-1] not in browser.run(ROWS):
        yield f"a link to {hidden[-1]} leads nowhere while only stops are shown"
    choose(browser, "band", "stop")
    browser.run("dispatchEvent(new Event('beforeprint'))")
    if browser.run(ROWS) != every:
        yield "not all is shown in print"
    browser.size(703, 1010, media="print")
    if browser.run("getComputedStyle(document.querySelector('.aids')).display") != "none":
        yield "the aids are printed"
    # Without script: all that is said, and no aids.
    browser.size(1280, 800)
    browser.call("Emulation.setScriptExecutionDisabled", value=True)
    browser.open(page)
    browser.call("Emulation.setScriptExecutionDisabled", value=False)
    if browser.run("!!document.querySelector('.aids')") or browser.run(ROWS) != every:
        yield "without script the page is another"


browser = Browser(sys.argv[1])
try:
    problems = list(check(browser, sys.argv[2]))
finally:
    browser.close()
print(*problems, sep="\n")
sys.exit(bool(problems))
