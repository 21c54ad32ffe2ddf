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

/* A book of assessments: sorted by a column, and searched. Without this script the table is whole
   and in the order of its files; in print it always shows all. */
(() => {
  const table = document.getElementById('book'), search = document.getElementById('search');
  if (!table || !search) return;
  const bar = search.content.firstElementChild.cloneNode(true);
  table.parentElement.before(bar);
  const input = bar.querySelector('input'), said = bar.querySelector('output');
  const groups = [...table.tBodies];
  const heads = [...table.tHead.rows[0].cells];

  const show = () => {
    const words = input.value.toLowerCase().split(' ').filter(Boolean);
    let shown = 0;
    for (const group of groups) {
      const text = group.textContent.toLowerCase();
      shown += !(group.hidden = !words.every(word => text.includes(word)));
    }
    said.textContent = said.dataset.words.replace('{n}', shown).replace('{m}', groups.length);
  };

  const key = (group, column) => {
    const cell = group.rows[0].cells[column];
    return cell.dataset.n === undefined ? cell.textContent.trim() : Number(cell.dataset.n || -1);
  };
  const compare = (a, b) => typeof a === 'number' ? a - b : a.localeCompare(b);
  const sort = column => {
    const down = heads[column].getAttribute('aria-sort') === 'ascending' ||
      (heads[column].className === 'n' && !heads[column].hasAttribute('aria-sort'));
    heads.forEach(head => head.removeAttribute('aria-sort'));
    heads[column].setAttribute('aria-sort', down ? 'descending' : 'ascending');
    groups.sort((a, b) => (down ? -1 : 1) * compare(key(a, column), key(b, column)));
    table.append(...groups);
  };

  heads.forEach((head, column) => {
    const label = head.querySelector('.of-head'), button = document.createElement('button');
    button.type = 'button';
    button.title = table.dataset.sort + ' ' + label.textContent;
    button.append(...label.childNodes);
    button.addEventListener('click', () => sort(column));
    label.replaceWith(button);
  });
  input.addEventListener('input', show);
  addEventListener('beforeprint', () => {
    input.value = '';
    show();
  });
  show();
})();
