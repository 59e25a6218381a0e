/** Paragraphs and columns on a terminal. */

const WIDTH = 96;

/**
 * Breaks a paragraph into lines, never before a percent sign.
 * @param hanging indent of all lines but the first
 * @param width of a line, with its indent
 */
export function wrap(text: string, indent: number, hanging = indent, width = WIDTH): string {
  const lines: string[] = [];
  let line = ' '.repeat(indent);
  let empty = true;
  for (const word of text.trim().split(/\s+(?!%)/)) {
    if (!empty && line.length + 1 + word.length > width) {
      lines.push(line);
      line = ' '.repeat(hanging);
      empty = true;
    }
    // At the start of a line, `::` is a command to some build servers that read the log.
    line += empty ? word.replace(/^::/, ': :') : ` ${word}`;
    empty = false;
  }
  return [...lines, line].join('\n');
}

/** Rows with aligned cells; the last cell of a row is not padded. */
export function columns(rows: readonly (readonly string[])[], indent = 2): string {
  const widths = rows.reduce<number[]>((most, row) => {
    row.forEach((cell, index) => {
      most[index] = Math.max(most[index] ?? 0, cell.length);
    });
    return most;
  }, []);
  return rows
    .map(row =>
      `${' '.repeat(indent)}${row.map((cell, index) => cell.padEnd(widths[index]!)).join('  ')}`.trimEnd(),
    )
    .map(line => `${line}\n`)
    .join('');
}
