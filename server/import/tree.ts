/** One row of a table → the lines of one tree. */

import { speciesTable } from '../practice/index.ts';
import { textOfCell } from './inert.ts';
import {
  isSize,
  isWrittenMeaning,
  LENGTH_METRES,
  type LengthUnit,
  type Meaning,
  type Size,
} from './meanings.ts';
import { isSound, notationSizes, writtenLine } from './notation.ts';
import { readSize, type SizeRead, saysNothing, showSize } from './sizes.ts';
import type { Row } from './table.ts';
import type { Tag } from './tags.ts';

export interface Column {
  readonly name: string;
  readonly index: number;
  readonly meaning: Meaning;
  /** Whether it writes 12,5 for twelve and a half. */
  readonly comma: boolean;
}

/** A cell that did not become a fact. */
export interface Leftover {
  /** Line of the table, 1-based. */
  readonly line: number;
  readonly column: string;
  readonly value: string;
  readonly reason: string;
}

/** Text without line breaks and other control characters, which can't stand in a line. */
export const oneLine = (text: string): string => text.replace(/[\s\0-\x1F\x7F\uFFFD]+/g, ' ').trim();
/** Quotation marks inside are written twice. */
const quoted = (text: string) => `"${oneLine(text).replaceAll('"', '""')}"`;

/** Degrees without exponent, which the notation does not have; below a hundred millionth they are 0. */
const inDecimals = (degrees: number): string =>
  String(degrees).includes('e') ? degrees.toFixed(8) : String(degrees);

/** Longest stretch of text in one note; a longer cell goes on in the next. */
const NOTE_LENGTH = 2000;

/**
 * Above these sizes (m) a value is a slip, not a record tree. From memory, rounded up from the greatest known:
 * the tallest tree 116 m (Sequoia sempervirens), the stoutest trunk some 14 m (Taxodium mucronatum at Tule, by
 * tape), spreads of crowns on one trunk about 60 m (Samanea saman).
 */
const GREATEST: Readonly<Record<Size, { readonly metres: number; readonly said: string }>> = {
  dbh: { metres: 15, said: 'no trunk is that thick' },
  girth: { metres: 15 * Math.PI, said: 'no trunk is that thick' },
  height: { metres: 120, said: 'no tree is that tall' },
  crown: { metres: 80, said: 'no crown is that wide' },
  'crown-base': { metres: 120, said: 'no tree is that tall' },
};

/** Botanical names by common name, where only one species of the table bears it. */
const speciesByCommonName = new Map<string, string | undefined>();
for (const { botanical, common } of speciesTable) {
  const key = common.toLowerCase();
  speciesByCommonName.set(key, speciesByCommonName.has(key) ? undefined : botanical);
}

export interface TreeText {
  /** The head, then comments, then facts. */
  readonly lines: readonly string[];
  readonly leftovers: readonly Leftover[];
}

/** @param columns in the order in which a tree has its fields */
export function treeOf(row: Row, columns: readonly Column[], tag: Tag): TreeText {
  const reader = new RowReader(row, columns);
  const title = reader.read(tag);
  const comments = reader.leftovers.map(
    ({ column, value, reason }) => `# ${oneLine(column)} ${quoted(value)} left out: ${reason}`,
  );
  const empty =
    reader.empty.length > 0 ? [`# Empty in the table: ${reader.empty.map(oneLine).join(', ')}`] : [];
  // Comments stand below the head: at the end they would seem to belong to the next tree.
  return {
    lines: [title, ...[...comments, ...empty, ...reader.facts].map(line => `  ${line}`)],
    leftovers: reader.leftovers,
  };
}

class RowReader {
  readonly facts: string[] = [];
  readonly leftovers: Leftover[] = [];
  /** Names of columns that have a meaning and are empty here. */
  readonly empty: string[] = [];

  constructor(
    private readonly row: Row,
    private readonly columns: readonly Column[],
  ) {}

  /** Reads the whole row. Returns the line of the head. */
  read(tag: Tag): string {
    let title = `tree ${tag.tag}`;
    for (const column of this.columns) {
      const { kind } = column.meaning;
      const value = this.cell(column);
      if (kind === 'repeated') continue;
      if (value === '') {
        if (kind !== 'note') this.empty.push(column.name);
      } else if (kind === 'tag') {
        if (tag.reason !== undefined) this.leave(column, tag.reason);
      } else if (kind === 'note') {
        this.note(column);
      } else if (saysNothing(this.row.cells[column.index]!) && !isSize(kind)) {
        this.leave(column, 'it says that there is no value');
      } else if (kind === 'name') {
        title += ` ${quoted(value)}`;
      } else {
        this.fact(column, kind);
      }
    }
    return title;
  }

  private fact(column: Column, kind: Exclude<Meaning['kind'], 'tag' | 'note' | 'name' | 'repeated'>): void {
    const value = this.cell(column);
    switch (kind) {
      case 'species':
        this.write(column, `species ${oneLine(value).replace(/[“”"‘’]/g, "'")}`, 'it is no botanical name');
        return;
      case 'common-name':
        this.commonName(column);
        return;
      case 'latitude':
      case 'longitude':
        this.coordinates(kind);
        return;
      case 'position': {
        const parts = value
          .replace(/[()]/g, '')
          .trim()
          .split(/\s*[,;]\s*|\s+/);
        this.position([column], parts);
        return;
      }
      case 'dbh':
      case 'girth':
      case 'height': {
        const sizes = this.sizes(column, kind === 'height' ? 1 : Number.POSITIVE_INFINITY);
        if (sizes) this.write(column, `${kind} ${sizes}`, 'it is no size');
        return;
      }
      case 'crown-base':
        this.crown();
        return;
      case 'crown':
        // Where there is a base both are written with it, in one line.
        if (!this.filled('crown-base')) this.crown();
        return;
      default:
        if (isWrittenMeaning(kind)) {
          this.write(column, writtenLine(kind, oneLine(value)), `the notation does not have it for ${kind}`);
          return;
        }
        this.write(
          column,
          `${kind} ${value.toLowerCase()}`,
          `it is no word that the notation has for ${kind}`,
        );
    }
  }

  private cell(column: Column): string {
    return textOfCell(this.row.cells[column.index]!);
  }

  /** The column of this meaning, if its cell is not empty. */
  private filled(kind: Meaning['kind']): Column | undefined {
    return this.columns.find(column => column.meaning.kind === kind && this.cell(column) !== '');
  }

  private leave(column: Column, reason: string): void {
    this.leftovers.push({ line: this.row.line, column: column.name, value: this.cell(column), reason });
  }

  /** Writes the line if the notation can read it, else keeps the cell as a comment. */
  private write(column: Column, line: string, reason: string): void {
    if (isSound(line)) this.facts.push(line);
    else this.leave(column, reason);
  }

  private note(column: Column): void {
    const letters = [...oneLine(`${column.name}: ${this.cell(column)}`)];
    for (let from = 0; from < letters.length; from += NOTE_LENGTH) {
      this.facts.push(`note ${quoted(letters.slice(from, from + NOTE_LENGTH).join(''))}`);
    }
  }

  private commonName(column: Column): void {
    const stated = this.filled('species');
    const botanical = speciesByCommonName.get(this.cell(column).toLowerCase());
    if (botanical !== undefined && (!stated || saysNothing(this.cell(stated)))) {
      this.facts.push(`species ${botanical} # from the common name`);
    }
    this.note(column);
  }

  /** The sizes of a cell as the notation writes them; undefined where they are kept as a comment. */
  private sizes(column: Column, atMost: number): string | undefined {
    const { kind, unit } = column.meaning as { kind: Size; unit: LengthUnit };
    const cell = this.cell(column);
    const { metres: greatest, said } = GREATEST[kind];
    // As the notation writes it, it stays as it is: nothing is gained by computing it anew.
    const written = column.comma ? undefined : notationSizes(kind, cell);
    if (written?.every(metres => metres <= greatest)) return oneLine(cell);
    const read = readSize(cell, column.comma);
    const metres = (size: SizeRead) => size.high * LENGTH_METRES[size.unit ?? unit];
    if (read.kind !== 'sizes') this.leave(column, read.reason);
    else if (read.sizes.length > atMost) this.leave(column, 'it holds several sizes where a tree has one');
    else if (read.sizes.some(size => metres(size) > greatest)) this.leave(column, said);
    else return read.sizes.map(size => showSize(size, unit)).join(', ');
    return undefined;
  }

  private crown(): void {
    const [base, spread] = (['crown-base', 'crown'] as const).map(kind => {
      const column = this.filled(kind);
      return column && this.sizes(column, 1);
    });
    const parts = [...(base ? [`from ${base}`] : []), ...(spread ? [`${spread} wide`] : [])];
    if (parts.length > 0) this.facts.push(`crown ${parts.join(', ')}`);
  }

  /** Both halves are written when the first of them comes by. */
  private coordinates(kind: 'latitude' | 'longitude'): void {
    const latitude = this.filled('latitude');
    const longitude = this.filled('longitude');
    if (kind === 'longitude' && latitude) return;
    const halves = [latitude, longitude].filter(column => column !== undefined);
    this.position(
      halves,
      halves.map(column => (column.comma ? this.cell(column).replace(',', '.') : this.cell(column))),
    );
  }

  private position(columns: readonly Column[], parts: readonly string[]): void {
    const [north = Number.NaN, east = Number.NaN] = parts.map(part =>
      part === '' ? Number.NaN : Number(part),
    );
    const reason =
      parts.length !== 2 || !Number.isFinite(north) || !Number.isFinite(east)
        ? 'a position is latitude and longitude in decimal degrees'
        : north === 0 && east === 0
          ? '0, 0 stands for a position that is not known'
          : Math.abs(north) > 90 || Math.abs(east) > 180
            ? 'no place on earth has this latitude or longitude'
            : undefined;
    const line = `position ${inDecimals(north)}, ${inDecimals(east)}`;
    if (reason === undefined && isSound(line)) this.facts.push(line);
    else for (const column of columns) this.leave(column, reason ?? 'it is no position');
  }
}
