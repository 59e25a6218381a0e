/** Whatever an inventory holds, each form that is put out is one of its kind, with nothing hidden in it. */

import { parse } from 'csv-parse/sync';
import ICAL from 'ical.js';
import { SaxesParser } from 'saxes';
import { expect } from 'vitest';
import type { Folder } from '../cli/folder.ts';
import { type Files, fill } from './folders.ts';
import { HIDDEN } from './hostile.ts';

/** Throws at anything that the standard forbids. */
function readXml(text: string): void {
  const parser = new SaxesParser();
  parser.on('error', error => {
    throw error;
  });
  parser.write(text).close();
}

const readLines = (text: string): void => {
  for (const line of text.split('\n').slice(0, -1)) JSON.parse(line);
};

function readTable(text: string): void {
  const rows: readonly string[][] = parse(text);
  for (const cell of rows.slice(1).flat())
    if (!/^-?\d+(\.\d+)?$/.test(cell)) expect(cell).not.toMatch(/^[=+@-]/);
}

/** Command, and what reads its output. Every page, list and table of our own counts as read if nothing is hidden in it. */
const FORMS: readonly (readonly [args: readonly string[], read: (text: string) => unknown])[] = [
  [['check', '--as', 'json'], JSON.parse],
  [['check', '--as', 'sarif'], JSON.parse],
  [['check', '--as', 'junit'], readXml],
  [['check', '--as', 'markdown'], () => {}],
  [['check'], () => {}],
  [['weigh'], () => {}],
  [['weigh', '--as', 'json'], JSON.parse],
  [['history'], () => {}],
  [['history', '--as', 'json'], JSON.parse],
  [['compare', '.', '--since', '2000-01-01'], () => {}],
  [['compare', '.', '--since', '2000-01-01', '--as', 'json'], JSON.parse],
  [['export', '--as', 'csv'], readTable],
  [['export', '--as', 'geojson'], JSON.parse],
  [['export', '--as', 'jsonl'], readLines],
  [['calendar'], text => ICAL.parse(text)],
  [['report'], () => {}],
];

/** A table has no escapes, and an import of it gives back what was said: marks without width stay in it. */
const CONTROL = /[\0-\x08\x0B-\x1F\x7F-\x9F\u2028-\u202E\u2066-\u2069]/;

export async function isWholeInEveryForm(folder: Folder, files: Files): Promise<void> {
  await fill(folder, files);
  for (const [args, read] of FORMS) {
    const { out, err } = await folder.run(...args);
    read(out);
    const shown = out.replaceAll('\r\n', '\n');
    if (args[2] === 'csv') expect(shown).not.toMatch(CONTROL);
    // The word joiners of reviews are ours.
    else expect(args[2] === 'markdown' ? shown.replaceAll('\u2060', '') : shown).not.toMatch(HIDDEN);
    expect(err).not.toMatch(HIDDEN);
  }
}
