/**
 * A mapping gives the meaning of each column: `{"Girth": "dbh in", "Species": "species"}`. It is guessed from the
 * headings and the sizes of the values, then shown to the user to edit.
 */

import { nearest } from '../../grammar/nearest.ts';
import {
  isLengthUnit,
  isPlainMeaning,
  isSize,
  isWrittenMeaning,
  LENGTH_UNITS,
  type LengthUnit,
  MEANINGS,
  type Meaning,
  metresPer,
  PLAIN_MEANINGS,
  SIZES,
  type Size,
  unitOfWord,
  type WrittenMeaning,
} from './meanings.ts';
import { canonical, notationSizes, writtenLine } from './notation.ts';
import { writtenBeside } from './repeated-part.ts';
import { decimalSign, isNoValue, readSize } from './sizes.ts';
import { cellsOf, type Table } from './table.ts';
import { isFormerTag, type TagColumns, tagColumns } from './tag-columns.ts';
import { memoized, oneLine } from './text.ts';

export type Mapping = ReadonlyMap<string, Meaning>;

export interface GuessedMapping {
  /** Unknown columns map to `note`. */
  readonly mapping: Mapping;
  /** One sentence per guess: what to check. */
  readonly warnings: readonly string[];
  readonly tags: TagColumns;
}

/** Uses another column as the tag, or none. Throws MappingError for an unknown column. */
export function withTag(table: Table, mapping: Mapping, column: string | undefined): Mapping {
  const changed = new Map(mapping);
  for (const [other, { kind }] of mapping) if (kind === 'tag') changed.set(other, { kind: 'note' });
  if (column !== undefined) changed.set(columnNamed(table, column), { kind: 'tag' });
  return changed;
}

/** Matched exactly, else ignoring case. */
function columnNamed(table: Table, name: string): string {
  const plain = (text: string) => text.trim().toLowerCase();
  const { columns } = table;
  const found =
    columns.find(column => column === name) ?? columns.find(column => plain(column) === plain(name));
  if (found === undefined) throw noColumn(table, name);
  return found;
}

export const noColumn = ({ columns }: Table, name: string): MappingError =>
  new MappingError(
    `The table has no column "${name}"; it has ${columns.map(column => `"${column}"`).join(', ')}.`,
  );

/** An invalid mapping file: not JSON, an unknown meaning, a missing unit. */
export class MappingError extends Error {}

export const showMeaning = (meaning: Meaning): string =>
  'unit' in meaning ? `${meaning.kind} ${meaning.unit}` : meaning.kind;

/** The mapping as the file that a user edits. */
export const showMapping = (mapping: Mapping): string =>
  `${JSON.stringify(Object.fromEntries([...mapping].map(([column, meaning]) => [column, showMeaning(meaning)])), null, 2)}\n`;

/** Each column with its meaning and its first value, as a table. */
export function mappingWords(table: Table, mapping: Mapping): string {
  const lines = table.columns.map((column, index) => {
    const meaning = mapping.get(column) ?? { kind: 'note' };
    const example = oneLine(cellsOf(table, index).find(cell => cell !== '') ?? '');
    const shown = example.length > LONGEST_EXAMPLE ? `${example.slice(0, LONGEST_EXAMPLE)}…` : example;
    return [oneLine(column), showMeaning(meaning), shown === '' ? '(empty so far)' : shown] as const;
  });
  const [first, second] = [0, 1].map(i => Math.max(...lines.map(line => line[i]!.length)));
  return lines
    .map(([column, meaning, shown]) => `${column.padEnd(first!)}  ${meaning.padEnd(second!)}  ${shown}\n`)
    .join('');
}

const LONGEST_EXAMPLE = 40;

/** Reads a mapping file. Throws MappingError. */
export function readMapping(text: string): Mapping {
  let read: unknown;
  try {
    read = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    throw new MappingError(`The mapping is not valid JSON: ${(error as Error).message}.`);
  }
  if (typeof read !== 'object' || read === null || Array.isArray(read)) {
    throw new MappingError('The mapping has to be one object, as in {"Girth": "dbh in"}.');
  }
  const mapping = new Map<string, Meaning>();
  const columnOf = new Map<string, string>();
  for (const [column, written] of Object.entries(read)) {
    const meaning = readMeaning(column, written);
    const other = columnOf.get(meaning.kind);
    if (other !== undefined && meaning.kind !== 'note' && meaning.kind !== 'repeated') {
      throw new MappingError(
        `"${other}" and "${column}" both mean ${meaning.kind}; only notes may have several columns.`,
      );
    }
    columnOf.set(meaning.kind, column);
    mapping.set(column, meaning);
  }
  return mapping;
}

function readMeaning(column: string, text: unknown): Meaning {
  const [kind = '', unit, ...more] = typeof text === 'string' ? text.trim().split(/\s+/) : [];
  if (more.length === 0 && isSize(kind)) {
    if (unit !== undefined && isLengthUnit(unit)) return { kind, unit };
    throw new MappingError(
      `"${column}": ${kind} needs one of the units ${LENGTH_UNITS.join(', ')}, as in "${kind} ft".`,
    );
  }
  if (unit === undefined && isPlainMeaning(kind)) return { kind };
  const meanings = [...SIZES, ...PLAIN_MEANINGS];
  const near = nearest(kind, meanings);
  throw new MappingError(
    `"${column}": ${JSON.stringify(text)} is no meaning of a column${near ? `; the nearest is ${near}` : ''}. ` +
      `There are ${meanings.join(', ')}.`,
  );
}

/** The words of a heading, lower case: `TreeHeight_ft` → tree, height, ft. */
const wordsOf = (heading: string): string[] =>
  heading
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .split(/[^\p{L}\p{N}"']+/u)
    .filter(Boolean);

/** The unit that a heading names in brackets or as its last word. */
function unitIn(heading: string): LengthUnit | undefined {
  const bracketed = /[([]\s*([^)\]]+?)\s*[)\]]/.exec(heading)?.[1];
  const unit = bracketed === undefined ? undefined : unitOfWord(bracketed.replace(/\.$/, ''));
  const words = wordsOf(heading);
  return unit ?? (words.length > 1 ? unitOfWord(words[words.length - 1]!) : undefined);
}

/** Meaning of a heading: the one whose keywords cover most of its words, and at least half. */
function kindOf(heading: string): Meaning['kind'] | undefined {
  const bare = wordsOf(heading.replace(/[([][^)\]]*[)\]]/g, ' '));
  const words = bare.length > 1 && unitOfWord(bare[bare.length - 1]!) ? bare.slice(0, -1) : bare;
  const joined = ` ${words.join(' ')} `;
  let best: { kind: Meaning['kind']; words: number } | undefined;
  for (const { kind, headings } of MEANINGS) {
    for (const candidate of headings) {
      const length = candidate.split(' ').length;
      if (length * 2 < words.length || !joined.includes(` ${candidate} `)) continue;
      if (!best || length > best.words) best = { kind, words: length };
    }
  }
  return best?.kind;
}

/**
 * Upper end of the usual median of a column, by unit, from memory: street and garden trees
 * are mostly 4 to 40 in in diameter and 15 to 90 ft tall. Always reported as a guess.
 */
const USUAL: Readonly<Record<Size, readonly (readonly [LengthUnit, number])[]>> = {
  dbh: [
    ['m', 2],
    ['in', 40],
    ['cm', 200],
    ['mm', Number.POSITIVE_INFINITY],
  ],
  girth: [
    ['m', 8],
    ['in', 80],
    ['cm', 700],
    ['mm', Number.POSITIVE_INFINITY],
  ],
  height: [
    ['m', 30],
    ['ft', 200],
    ['cm', Number.POSITIVE_INFINITY],
  ],
  crown: [
    ['m', 16],
    ['ft', 150],
    ['cm', Number.POSITIVE_INFINITY],
  ],
  'crown-base': [
    ['m', 5],
    ['ft', 60],
    ['cm', Number.POSITIVE_INFINITY],
  ],
};

/** Undefined for an empty list. */
function median(values: readonly number[]): number | undefined {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}

/** Upper end of the first reading of each cell, where above 0. */
function readings(table: Table, index: number): number[] {
  const cells = cellsOf(table, index);
  const sign = decimalSign(cells, table.separator);
  return cells.flatMap(cell => {
    const read = readSize(cell, sign);
    return read.kind === 'sizes' && read.sizes[0]!.high > 0 ? [read.sizes[0]!.high] : [];
  });
}

const filledCells = (table: Table, index: number): readonly string[] =>
  cellsOf(table, index).filter(cell => cell !== '');

/** Whether every cell is valid in the notation after this field name. */
function isWritten(table: Table, index: number, kind: WrittenMeaning): boolean {
  const isSound = memoized((cell: string) => canonical(writtenLine(kind, cell)) !== undefined);
  return filledCells(table, index).every(isSound);
}

function everyCellHasUnit(table: Table, index: number, kind: Size): boolean {
  const cells = filledCells(table, index);
  const sign = decimalSign(cells, table.separator);
  return cells.every(cell => {
    if (notationSizes(kind, cell)) return true;
    const read = readSize(cell, sign);
    return read.kind === 'sizes' && read.sizes.every(({ unit }) => unit !== undefined);
  });
}

/** Whether a column called species contains epithets: `rubrum`, `x hispanica`, `sp.`. */
const holdsEpithets = (table: Table, index: number): boolean =>
  filledCells(table, index).every(cell => /^(?:[xX×] ?)?\p{Ll}/u.test(cell) || isNoValue(cell));

/** What a column means by its heading and its cells, whatever the other columns mean; `note` where nothing fits. */
function kindFor(
  table: Table,
  index: number,
  kinds: readonly (Meaning['kind'] | undefined)[],
): Meaning['kind'] {
  if (writtenBeside(table.columns[index]!).some(written => table.columns.includes(written)))
    return 'repeated';
  const kind = kinds[index];
  if (kind === undefined) return 'note';
  if (kind === 'species' && kinds.includes('genus') && holdsEpithets(table, index)) return 'epithet';
  if (isWrittenMeaning(kind) && !isWritten(table, index, kind)) return 'note';
  // Separate columns for latitude and longitude are preferred to one that has both.
  if (kind === 'position' && kinds.includes('latitude') && kinds.includes('longitude')) return 'note';
  return kind;
}

/** The unit of a column of sizes: as its heading states it, else a guess, with a warning where cells rely on it. */
function unitFor(
  table: Table,
  index: number,
  kind: Size,
): { readonly unit: LengthUnit; readonly warning?: string } {
  const column = table.columns[index]!;
  const stated = unitIn(column);
  if (stated !== undefined) return { unit: stated };
  const middle = median(readings(table, index));
  const unit = USUAL[kind].find(([, upTo]) => (middle ?? 1) <= upTo)![0];
  if (everyCellHasUnit(table, index, kind)) return { unit };
  const shown = middle === undefined ? '' : ` (the middle one is ${middle})`;
  return {
    unit,
    warning: `Column "${column}" states no unit; ${unit} is a guess from the size of its values${shown}. Check it, and correct the mapping if it is another.`,
  };
}

/**
 * Guesses what the columns mean, from their headings and the cells that were read ahead. The first column of each
 * meaning wins; notes may be several.
 */
export function guessMapping(table: Table): GuessedMapping {
  const mapping = new Map<string, Meaning>();
  const warnings: string[] = [];
  const taken = new Set<Meaning['kind']>();
  const kinds = table.columns.map(column => (isFormerTag(column) ? 'formerly' : kindOf(column)));
  table.columns.forEach((column, index) => {
    const found = kindFor(table, index, kinds);
    const kind = taken.has(found) ? 'note' : found;
    if (kind !== 'note' && kind !== 'repeated') taken.add(kind);
    if (!isSize(kind)) {
      mapping.set(column, { kind });
      return;
    }
    const { unit, warning } = unitFor(table, index, kind);
    mapping.set(column, { kind, unit });
    if (warning !== undefined) warnings.push(warning);
  });
  const tags = tagColumns(table, index => kinds[index] === undefined);
  if (tags.taken !== undefined) mapping.set(tags.taken, { kind: 'tag' });
  return { mapping, warnings: [...warnings, ...girthWarnings(table, mapping)], tags };
}

/** Some tables call the diameter girth, so each circumference gets a warning with the slenderness it implies. */
function girthWarnings(table: Table, mapping: Mapping): string[] {
  const columns = [...mapping].flatMap(([column, meaning]) =>
    'unit' in meaning ? [{ column, ...meaning }] : [],
  );
  const metresOf = (column: string, unit: LengthUnit) => {
    const middle = median(readings(table, table.columns.indexOf(column)));
    return middle === undefined ? undefined : middle * metresPer(unit);
  };
  const tall = columns.find(({ kind }) => kind === 'height');
  const height = tall && metresOf(tall.column, tall.unit);
  return columns
    .filter(({ kind }) => kind === 'girth')
    .map(({ column, unit }) => {
      const girth = metresOf(column, unit);
      const slenderness =
        girth === undefined || height === undefined ? undefined : Math.round((height * Math.PI) / girth);
      const shown =
        slenderness === undefined
          ? ''
          : ` As a circumference it makes the middle tree ${slenderness} times as tall as it is thick.`;
      return (
        `Column "${column}" is read as a circumference; some tables call the diameter so.${shown} ` +
        `Check one tree, and write "dbh ${unit}" in the mapping if it is the diameter.`
      );
    });
}
