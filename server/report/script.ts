/** The script of the page: sorting and filtering of tables. Progressive enhancement. */

export const SCRIPT = `
for (const table of document.querySelectorAll('table.sortable')) {
  const body = table.tBodies[0];
  const keyOf = cell => {
    const keyed = cell.querySelector('[data-key]');
    return keyed ? Number(keyed.dataset.key) : cell.textContent.trim();
  };
  const compare = (a, b) => typeof a === 'number' && typeof b === 'number'
    ? a - b : String(a).localeCompare(String(b), 'en', { numeric: true });
  [...table.tHead.rows[0].cells].forEach((head, column) => {
    const button = document.createElement('button');
    button.type = 'button';
    button.textContent = head.textContent;
    head.replaceChildren(button);
    button.addEventListener('click', () => {
      const turn = head.getAttribute('aria-sort') === 'ascending' ? -1 : 1;
      for (const other of table.tHead.rows[0].cells) other.removeAttribute('aria-sort');
      head.setAttribute('aria-sort', turn === 1 ? 'ascending' : 'descending');
      body.append(...[...body.rows].map(row => [keyOf(row.cells[column]), row])
        .sort((a, b) => turn * compare(a[0], b[0])).map(([, row]) => row));
    });
  });
}
for (const place of document.querySelectorAll('.filtered')) {
  const rows = [...place.querySelectorAll('tbody tr')].map(row => [row.textContent.toLowerCase(), row]);
  const label = document.createElement('label');
  label.textContent = 'Show trees that hold ';
  const input = document.createElement('input');
  input.type = 'search';
  label.append(input);
  const said = document.createElement('output');
  const show = () => {
    const words = input.value.toLowerCase().split(/\\s+/);
    let shown = 0;
    for (const [text, row] of rows) {
      row.hidden = !words.every(word => text.includes(word));
      if (!row.hidden) shown++;
    }
    said.textContent = shown + ' of ' + rows.length + ' trees';
  };
  input.addEventListener('input', show);
  const bar = document.createElement('p');
  bar.className = 'filter';
  bar.append(label, said);
  place.prepend(bar);
  show();
}
`;
