"""Looks at pages in a browser, at the sizes in which they are read and printed.

check_pages.py BROWSER AXE PAGE...

Each page is opened from its file at the width of a phone, of a laptop, and of the text on
A4 and US Letter paper, as on a screen and as in print. Nothing may overflow the page, no table may be
cut off, nothing may be said on the console, nothing fetched. AXE is axe-core's script, or "-" to
leave that out. Each problem is one line; status 1 if there is one.
"""
import sys

from browser import Browser

# Name, width and height in CSS pixels, small device, medium. Paper less its margins.
SIZES = [("phone", 390, 844, True, "screen"), ("laptop", 1280, 800, False, "screen"),
         ("A4", 703, 1010, False, "print"), ("Letter", 703, 950, False, "print")]

# Elements that stick out of the page, and those whose content sticks out of a box that cuts it off
# or, in print, that could be scrolled: paper does not scroll.
LOOK = """(() => {
  const print = matchMedia('print').matches, wide = document.documentElement.clientWidth + 1;
  const said = [], name = e => e.tagName.toLowerCase() + (e.id ? '#' + e.id : '') +
    (typeof e.className === 'string' && e.className ? '.' + e.className : '');
  const unseen = e => {
    for (let p = e; p; p = p.parentElement) {
      const style = getComputedStyle(p);
      if (style.display === 'none' || style.visibility === 'hidden' || style.clip !== 'auto' || p.matches('.skip')) return true;
    }
    return false;
  };
  const scrolls = e => e.closest('.scroll') && !print;
  if (document.documentElement.scrollWidth > wide) said.push('the page is ' + document.documentElement.scrollWidth + ' px wide');
  for (const e of document.body.querySelectorAll('*:not(svg *)')) {
    if (unseen(e)) continue;
    const box = e.getBoundingClientRect();
    if (!box.width || !box.height) continue;
    if ((box.right > wide || box.left < -1) && !scrolls(e)) said.push(name(e) + ' reaches from ' + Math.round(box.left) + ' to ' + Math.round(box.right));
    const style = getComputedStyle(e);
    if (e.scrollWidth > e.clientWidth + 1 && e.clientWidth && style.overflowX !== 'visible' && !(style.overflowX === 'auto' && !print))
      said.push(name(e) + ' cuts off ' + (e.scrollWidth - e.clientWidth) + ' px');
    if (e.scrollHeight > e.clientHeight + 1 && e.clientHeight && style.overflowY === 'hidden' && !e.matches('.sw'))
      said.push(name(e) + ' cuts off ' + (e.scrollHeight - e.clientHeight) + ' px at its foot');
    if (e.matches('td, th') && e.scrollWidth > e.clientWidth + 2) said.push(name(e) + ' is too narrow for "' + e.textContent.trim().slice(0, 40) + '"');
  }
  return said.slice(0, 8);
})()"""

AXE = """axe.run(document, {resultTypes: ['violations'], runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']})
  .then(r => r.violations.map(v => v.id + ': ' + v.help + ' (' + v.nodes.length + '): ' + v.nodes.slice(0, 3).map(n => n.target.join(' ')).join(', ')))"""


def look(browser, page, size):
    name, width, height, small, medium = size
    browser.size(width, height, small, medium)
    browser.open(page)
    problems = browser.run(LOOK)
    fetched = [a for a in browser.asked if not a.startswith("data:") and not a.endswith("/" + page.split("/")[-1])]
    problems += [f"the console says: {said}" for said in browser.console]
    problems += [f"it asks for {address}" for address in fetched]
    return [f"{page} on {name}: {problem}" for problem in problems]


def listen(browser, page, axe):
    """What axe-core finds, on a laptop."""
    browser.size(*SIZES[1][1:])
    browser.open(page)
    browser.run(axe)
    return [f"{page}: {violation}" for violation in browser.run(AXE, wait=True)]


def main(program, axe_path, pages):
    axe = None if axe_path == "-" else open(axe_path, encoding="utf-8").read()
    browser = Browser(program)
    problems = []
    try:
        for page in pages:
            for size in SIZES:
                problems += look(browser, page, size)
            if axe:
                problems += listen(browser, page, axe)
    finally:
        browser.close()
    print(*problems, sep="\n")
    return bool(problems)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2], sys.argv[3:]))
