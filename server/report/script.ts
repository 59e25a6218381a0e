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
  const spots = new Map([...place.querySelectorAll('.spot')].map(spot => [spot.getAttribute('href').slice(1), spot]));
  const bar = document.createElement('p');
  bar.className = 'filter';
  const labelled = (text, control) => {
    const label = document.createElement('label');
    label.textContent = text + ' ';
    label.append(control);
    bar.append(label);
    control.addEventListener('input', () => show());
    return control;
  };
  const input = document.createElement('input');
  input.type = 'search';
  labelled('Show trees that contain', input);
  const choices = [...place.querySelectorAll('th[data-choose]')].flatMap(head => {
    const column = head.cellIndex;
    const texts = new Map(rows.map(([, row]) => [row.cells[column].textContent.trim(), row.cells[column].querySelector('[data-key]')?.dataset.key ?? 0]));
    if (texts.size < 2) return [];
    const select = document.createElement('select');
    select.append(new Option('all', ''));
    for (const [text] of [...texts].filter(([text]) => text !== '').sort((a, b) => a[1] - b[1] || a[0].localeCompare(b[0])))
      select.append(new Option(text, text));
    labelled(head.textContent.trim(), select);
    return [[column, select]];
  });
  const said = document.createElement('output');
  bar.append(said);
  const show = () => {
    const words = input.value.toLowerCase().split(/\\s+/);
    let shown = 0;
    for (const [text, row] of rows) {
      row.hidden = !words.every(word => text.includes(word)) ||
        choices.some(([column, { value }]) => value !== '' && row.cells[column].textContent.trim() !== value);
      spots.get(row.id)?.classList.toggle('out', row.hidden);
      if (!row.hidden) shown++;
    }
    said.textContent = shown + ' of ' + rows.length + ' trees';
  };
  for (const [, row] of rows) {
    row.addEventListener('pointerenter', () => spots.get(row.id)?.classList.add('here'));
    row.addEventListener('pointerleave', () => spots.get(row.id)?.classList.remove('here'));
  }
  place.prepend(bar);
  show();
}
`;
