/** Texts of some length on a terminal. */

import { inUnit, plainNumber, unitOf } from '../../grammar/quantity.ts';
import type { Citation } from '../practice/index.ts';

const WIDTH = 96;

/** Breaks a paragraph into lines; the first is indented by `indent`, the others by `hanging`. */
export function wrap(text: string, indent: number, hanging = indent): string {
  const lines: string[] = [];
  let line = ' '.repeat(indent);
  let empty = true;
  for (const word of text.trim().split(/\s+/)) {
    if (!empty && line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = ' '.repeat(hanging);
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  return [...lines, line].join('\n');
}

/** Rows with cells below each other; the last cell of a row is as long as it is. */
export function columns(rows: readonly (readonly string[])[]): string {
  const widths = rows.reduce<number[]>((most, row) => {
    row.forEach((cell, index) => {
      most[index] = Math.max(most[index] ?? 0, cell.length);
    });
    return most;
  }, []);
  return rows
    .map(row => `  ${row.map((cell, index) => cell.padEnd(widths[index]!)).join('  ')}`.trimEnd())
    .map(line => `${line}\n`)
    .join('');
}

/** A limit's value for people: `33 %`, `0.3`, `10 ft`. */
export function amount(value: number, symbol: string): string {
  const unit = unitOf(symbol);
  return unit ? inUnit(value, unit, 2) : plainNumber(value, 3);
}

export const sourceText = ({ full, url, confidence }: Citation): string =>
  `${full}${url ? ` ${url}` : ''} (${confidence})`;
