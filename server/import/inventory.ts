/**
 * Rows and a mapping → the text of an inventory. No row is lost and no cell: what is not a sound value is kept
 * beside its tree as a comment with the reason, what the mapping has no meaning for as a note.
 */

import { parseBlock } from '../../grammar/blocks.ts';
import { tidy } from '../../grammar/tidy.ts';
import { speciesTable } from '../practice/index.ts';
import { type Mapping, MappingError, showMeaning } from './mapping.ts';
import { isSize, type LengthUnit, type Meaning, type Size } from './meanings.ts';
import { decimalComma, readSize, type SizeRead, saysNothing, showSize } from './sizes.ts';
import type { Row, Table } from './table.ts';

/** A cell that did not become a fact. */
export interface Leftover {
  /** Line of the table, 1-based. */
  readonly line: number;
  readonly column: string;
  readonly value: string;
  readonly reason: string;
}

export interface Inventory {
  readonly text: string;
  readonly trees: number;
  readonly leftovers: readonly Leftover[];
}

/**
 * Above these sizes a value is a slip, not a record tree. From memory, rounded up from the greatest known: the
 * tallest tree 116 m (Sequoia sempervirens), the stoutest trunk some 14 m (Taxodium mucronatum at Tule, by
 * tape), spreads of single crowns about 60 m (Samanea, Ficus on one trunk).
 */
const GREATEST: Readonly<Record<Size, { readonly metres: number; readonly said: string }>> = {
  dbh: { metres: 15, said: 'no trunk is that thick' },
  girth: { metres: 15 * Math.PI, said: 'no trunk is that thick' },
  height: { metres: 120, said: 'no tree is that tall' },
  crown: { metres: 80, said: 'no crown is that wide' },
  'crown-base': { metres: 120, said: 'no tree is that tall' },
};

const METRES: Readonly<Record<LengthUnit, number>> = { in: 0.0254, ft: 0.3048, mm: 0.001, cm: 0.01, m: 1 };
const metres = (size: SizeRead, unit: LengthUnit) => size.high * METRES[size.unit ?? unit];

const speciesByCommonName = new Map<string, string | undefined>();
for (const { botanical, common } of speciesTable) {
  const key = common.toLowerCase();
  speciesByCommonName.set(key, speciesByCommonName.has(key) ? undefined : botanical);
}

/** Quotation marks are written twice; line breaks and other controls can't stand in a line. */
const oneLine = (text: string) => text.replace(/[\s\u0000-\u001F\u007F\uFFFD]+/g, ' ').trim();
const quoted = (text: string) => `"${oneLine(text).replaceAll('"', '""')}"`;

/** Longest stretch of text in one note; a longer cell goes on in the next. */
const NOTE_LENGTH = 2000;

function notes(text: string): string[] {
  const letters = [...oneLine(text)];
  const parts: string[] = [];
  for (let from = 0; from < letters.length; from += NOTE_LENGTH) {
    parts.push(`note ${quoted(letters.slice(from, from + NOTE_LENGTH).join(''))}`);
  }
  return parts;
}

/** Whether the notation reads a line of a tree as it stands. */
const isSound = (line: string) => parseBlock(`tree 1\n${line}`).lines[1]?.mistake === undefined;

interface Column {
  readonly name: string;
  readonly index: number;
  readonly meaning: Meaning;
  readonly comma: boolean;
}

/** Throws MappingError where the mapping names a column that the table does not have. */
export function importTable(table: Table, mapping: Mapping, source: string): Inventory {
  const stranger = [...mapping.keys()].find(column => !table.columns.includes(column));
  if (stranger !== undefined) {
    throw new MappingError(
      `The table has no column "${stranger}"; it has ${table.columns.map(name => `"${name}"`).join(', ')}.`,
    );
  }
  const columns = table.columns.map(
    (name, index): Column => ({
      name,
      index,
      meaning: mapping.get(name) ?? { kind: 'note' },
      comma: decimalComma(table, index),
    }),
  );
  const tags = tagsOf(table, columns);
  const leftovers: Leftover[] = [];
  const trees = table.rows.map((row, index) => treeText(row, columns, tags[index]!, leftovers));
  const read = columns.map(({ name, meaning }) => `${oneLine(name)} as ${showMeaning(meaning)}`).join(', ');
  const head = [
    `# From ${oneLine(source)}: ${table.rows.length} ${table.rows.length === 1 ? 'row' : 'rows'}.`,
    `# Read: ${read}.`,
  ].join('\n');
  return { text: tidy([head, ...trees].join('\n\n')).text, trees: trees.length, leftovers };
}

interface Tag {
  readonly tag: string;
  /** Why it is not the one of the table. */
  readonly reason?: string;
}

/** The table's tags where they are names that occur once; `row-7` (the line of the table) otherwise. */
function tagsOf(table: Table, columns: readonly Column[]): Tag[] {
  const column = columns.find(({ meaning }) => meaning.kind === 'tag');
  if (!column) return table.rows.map((_, index) => ({ tag: String(index + 1) }));
  const wanted = table.rows.map(row => row.cells[column.index]!);
  const own = new Set(wanted);
  const taken = new Set<string>();
  return table.rows.map((row, index) => {
    const value = wanted[index]!;
    const reason = saysNothing(value)
      ? 'the table has no tag here'
      : taken.has(value)
        ? 'the table has this tag several times'
        : parseBlock(`tree ${value}`).lines[0]?.mistake || /[\s#"]/.test(value)
          ? 'a tag is one word of letters, digits and - . _ /'
          : undefined;
    if (reason === undefined) {
      taken.add(value);
      return { tag: value };
    }
    let tag = `row-${row.line}`;
    while (own.has(tag) || taken.has(tag)) tag += '-a';
    taken.add(tag);
    return { tag, reason };
  });
}

/** Order in which the fields of a tree are written. */
const ORDER: readonly Meaning['kind'][] = [
  'tag',
  'name',
  'species',
  'common-name',
  'position',
  'latitude',
  'longitude',
  'dbh',
  'girth',
  'height',
  'crown-base',
  'crown',
  'age',
  'vigor',
  'note',
];

function treeText(row: Row, columns: readonly Column[], tag: Tag, leftovers: Leftover[]): string {
  const lines: string[] = [];
  const cell = (column: Column) => row.cells[column.index]!;
  const leave = (column: Column, reason: string) => {
    leftovers.push({ line: row.line, column: column.name, value: cell(column), reason });
    lines.push(`# ${oneLine(column.name)} ${quoted(cell(column))} left out: ${reason}`);
  };
  /** Writes the line if the notation can read it, else keeps the cell as a comment. */
  const write = (column: Column, line: string, reason: string) => {
    if (isSound(line)) lines.push(line);
    else leave(column, reason);
  };
  const absent: string[] = [];
  const pair = (kind: Meaning['kind']) => columns.find(({ meaning }) => meaning.kind === kind);
  const base = pair('crown-base');
  const spread = pair('crown');
  const size = (column: Column): readonly SizeRead[] | undefined => {
    const { meaning } = column;
    if (!('unit' in meaning)) return undefined;
    const read = readSize(cell(column), column.comma);
    if (read.kind !== 'sizes') {
      leave(column, read.reason);
      return undefined;
    }
    const greatest = GREATEST[meaning.kind];
    if (read.sizes.some(one => metres(one, meaning.unit) > greatest.metres)) {
      leave(column, greatest.said);
      return undefined;
    }
    return read.sizes;
  };
  const single = (column: Column | undefined): string | undefined => {
    if (!column || cell(column) === '' || !('unit' in column.meaning)) return undefined;
    const sizes = size(column);
    if (sizes === undefined) return undefined;
    if (sizes.length === 1) return showSize(sizes[0]!, column.meaning.unit);
    leave(column, 'it holds several sizes where a tree has one');
    return undefined;
  };

  let title = `tree ${tag.tag}`;
  const ordered = [...columns].sort((a, b) => ORDER.indexOf(a.meaning.kind) - ORDER.indexOf(b.meaning.kind));
  for (const column of ordered) {
    const { kind } = column.meaning;
    const value = cell(column);
    if (kind === 'tag') {
      if (tag.reason !== undefined && value !== '') leave(column, tag.reason);
      else if (tag.reason !== undefined) absent.push(column.name);
      continue;
    }
    if (value === '') {
      if (kind !== 'note') absent.push(column.name);
      continue;
    }
    if (kind === 'note') {
      lines.push(...notes(`${column.name}: ${value}`));
      continue;
    }
    if (saysNothing(value) && !isSize(kind)) {
      leave(column, 'it says that there is no value');
      continue;
    }
    switch (kind) {
      case 'name':
        title += ` ${quoted(value)}`;
        break;
      case 'species':
        write(column, `species ${oneLine(value).replace(/[“”"‘’]/g, "'")}`, 'it is no botanical name');
        break;
      case 'common-name': {
        const stated = pair('species');
        const botanical = speciesByCommonName.get(value.toLowerCase());
        if (botanical !== undefined && (!stated || saysNothing(cell(stated)))) {
          lines.push(`species ${botanical} # from the common name`);
        }
        lines.push(...notes(`${column.name}: ${value}`));
        break;
      }
      case 'latitude':
      case 'longitude':
      case 'position':
        writePosition(column);
        break;
      case 'dbh':
      case 'girth': {
        const { unit } = column.meaning as { unit: LengthUnit };
        const sizes = size(column);
        if (sizes)
          write(column, `${kind} ${sizes.map(one => showSize(one, unit)).join(', ')}`, 'it is no size');
        break;
      }
      case 'height': {
        const height = single(column);
        if (height !== undefined) write(column, `height ${height}`, 'it is no size');
        break;
      }
      case 'crown-base':
        writeCrown();
        break;
      case 'crown':
        // With a column for the base both are written there, in one line.
        if (!base || cell(base) === '') writeCrown();
        break;
      default:
        write(column, `${kind} ${value.toLowerCase()}`, `it is no word that the notation has for ${kind}`);
    }
  }

  function writeCrown() {
    const from = single(base);
    const wide = single(spread);
    const parts = [
      ...(from === undefined ? [] : [`from ${from}`]),
      ...(wide === undefined ? [] : [`${wide} wide`]),
    ];
    if (parts.length > 0) lines.push(`crown ${parts.join(', ')}`);
  }

  function writePosition(column: Column) {
    const kind = column.meaning.kind;
    const latitude = pair('latitude');
    const longitude = pair('longitude');
    // The pair is written when the latitude comes by; a lone half is kept as a comment.
    if (kind === 'longitude' && latitude && cell(latitude) !== '') return;
    const number = (of: Column | undefined) =>
      of === undefined ? '' : of.comma ? cell(of).replace(',', '.') : cell(of);
    const both =
      kind === 'position' ? bare(column).split(/\s*[,;]\s*|\s+/) : [number(latitude), number(longitude)];
    const [north, east] = both.map(part => (part === '' ? Number.NaN : Number(part)));
    const reason =
      both.length !== 2 || !Number.isFinite(north) || !Number.isFinite(east)
        ? 'a position is latitude and longitude in decimal degrees'
        : north === 0 && east === 0
          ? '0, 0 stands for a position that is not known'
          : Math.abs(north!) > 90 || Math.abs(east!) > 180
            ? 'no place on earth has this latitude or longitude'
            : undefined;
    if (reason === undefined) {
      write(column, `position ${north}, ${east}`, 'it is no position');
      return;
    }
    leave(column, reason);
    if (kind === 'latitude' && longitude && cell(longitude) !== '') leave(longitude, reason);
  }

  function bare(column: Column) {
    return cell(column).replace(/[()]/g, '').trim();
  }

  if (absent.length > 0) lines.push(`# Empty in the table: ${absent.map(oneLine).join(', ')}`);
  return [title, ...lines.map(line => `  ${line}`)].join('\n');
}
