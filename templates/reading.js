/* Aids for reading on a screen: findings of one person, one band, one place. Without this script
   the page is whole; in print it is always whole. It asks for nothing and keeps nothing. */
(() => {
  const aids = document.getElementById('aids');
  if (!aids) return;
  const bar = aids.content.firstElementChild.cloneNode(true);
  document.getElementById('content').before(bar);
  const chosen = [...bar.querySelectorAll('select')];
  const said = bar.querySelector('output');
  const rows = [...document.querySelectorAll('[data-band]')];
  const groups = [...document.querySelectorAll('.rule-block, .duties tbody')];
  const heads = [...document.querySelectorAll('.findings > h3')];

  const fits = row => chosen.every(c => !c.value || (row.dataset[c.name] || '').split(' ').includes(c.value));

  /* A head stays while something under it, before the next, stays. */
  const headFits = head => {
    for (let e = head.nextElementSibling; e && e.tagName !== 'H3'; e = e.nextElementSibling)
      if (!e.hidden) return true;
    return false;
  };

  const show = () => {
    let shown = 0;
    for (const row of rows) shown += !(row.hidden = !fits(row));
    for (const group of groups) group.hidden = !group.querySelector('[data-band]:not([hidden])');
    for (const head of heads) head.hidden = !headFits(head);
    said.textContent = said.dataset.words.replace('{n}', shown).replace('{m}', rows.length);
  };
  const showAll = () => {
    for (const c of chosen) c.value = '';
    show();
  };

  bar.addEventListener('change', show);
  bar.querySelector('button').addEventListener('click', showAll);
  addEventListener('beforeprint', showAll);
  /* Whoever follows a link to what is hidden gets to see it. */
  addEventListener('hashchange', () => {
    const target = document.getElementById(decodeURIComponent(location.hash.slice(1)));
    if (!target || !target.closest('[hidden]')) return;
    showAll();
    target.scrollIntoView();
  });
  show();
})();
