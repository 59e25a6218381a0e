/** Reads values out of the lines of a block; every span becomes relative to the block. */

import { HEADS } from '../../grammar/fields.ts';
import type { SpeciesName } from '../../grammar/species.ts';
import { type Block, type BlockLine, type BlockSection, placedLine } from '../../grammar/syntax.ts';
import type { Span } from '../../grammar/text.ts';
import type { Quantity } from '../base/quantity.ts';
import type { GeoPosition, Photo, Placed, Repeated, Vantage, Window } from './types.ts';

/** What a damaged head fails to say. */
export const UNREAD = '?';

/** A fact while it is put together. */
export type Draft<T> = { -readonly [K in keyof T]: undefined extends T[K] ? T[K] | undefined : T[K] };

/**
 * The same with every member named, stated or not: what there are many of is alike then to whoever reads it, which
 * spares a check of ten thousand trees in one file a tenth of its time.
 */
export type Whole<T> = { -readonly [K in keyof T]-?: undefined extends T[K] ? T[K] | undefined : T[K] };

/** A block on its way to facts. */
export interface Reading {
  readonly block: Block;
  readonly repeated: Repeated[];
}

type Value = BlockLine['values'][number];
type ValueOf<Type extends Value['type']> = Extract<Value, { readonly type: Type }>;

/** A line from its first word to its last, without indentation and comment. */
export const contentOf = (line: BlockLine): Span => ({ start: startOf(line), end: endOf(line) });

export function startOf({ start, syntax }: BlockLine): number {
  const { items, text } = syntax;
  return start + (items.length > 0 ? items[0]!.start : text.length - text.trimStart().length);
}

export function endOf({ start, syntax }: BlockLine): number {
  const { items, text } = syntax;
  if (items.length > 0) return start + items[items.length - 1]!.end;
  // A line of spaces ends where it starts.
  return start + (text.trim() === '' ? text.length : text.trimEnd().length);
}

/** Stands for every list that stays empty; never added to. */
export const NONE: readonly never[] = [];

/** The list with one more: most lists of a tree have one member or none, and get no room for more. */
export function append<T>(list: readonly T[], added: T): readonly T[] {
  if (list.length === 0) return [added];
  (list as T[]).push(added);
  return list;
}

export const headLine = (reading: Reading, section: BlockSection): BlockLine =>
  placedLine(reading.block, section.head);

/** The notes of a section; undefined where it has none, as most have not. */
export function notesOf({ block }: Reading, section: BlockSection): readonly Placed<string>[] | undefined {
  let notes: readonly Placed<string>[] = NONE;
  for (const index of section.fields) {
    const line = block.lines[index]!;
    if (line.word === 'note' && !line.mistake) notes = append(notes, word(placedLine(block, index), 'text')!);
  }
  return notes.length > 0 ? notes : undefined;
}

/** The field lines of a section that count: understood, and not there before where the field stands once. */
export function fieldLines(reading: Reading, section: BlockSection): readonly BlockLine[] {
  if (section.fields.length === 0) return NONE;
  const { block } = reading;
  // Of nearly all sections every line counts. A list of their number: one that grows has room to spare.
  const lines = new Array<BlockLine>(section.fields.length);
  for (let i = 0; i < lines.length; i++) lines[i] = placedLine(block, section.fields[i]!);
  if (lines.every(countsAtOnce)) return lines;
  const counting: BlockLine[] = [];
  for (const line of lines) {
    if (line.mistake) continue;
    const first = sameWord(counting, line.word!);
    if (first && !HEADS.get(section.word)!.fields.get(line.word!)?.many)
      reading.repeated.push({
        word: line.word!,
        start: startOf(line),
        end: endOf(line),
        first: contentOf(first),
      });
    else counting.push(line);
  }
  return counting;
}

/** Understood, and the first one of its word. */
const countsAtOnce = ({ word, mistake }: BlockLine, index: number, lines: readonly BlockLine[]): boolean =>
  !mistake && !sameWord(lines, word!, index);

/** Among the first lines, up to `end`. */
function sameWord(lines: readonly BlockLine[], word: string, end = lines.length): BlockLine | undefined {
  for (let i = 0; i < end; i++) if (lines[i]!.word === word) return lines[i];
  return undefined;
}

function find<Type extends Value['type']>(
  line: BlockLine,
  name: string,
  type: Type,
): ValueOf<Type> | undefined {
  for (const value of line.values)
    if (value.name === name && value.type === type) return value as ValueOf<Type>;
  return undefined;
}

const place = <T>(line: BlockLine, span: Span, value: T): Placed<T> => ({
  value,
  start: line.start + span.start,
  end: line.start + span.end,
});

export function quantity(line: BlockLine, name: string): Placed<Quantity> | undefined {
  const value = find(line, name, 'quantity');
  return value && place(line, value, value.quantity);
}

export function quantities(line: BlockLine, name: string): readonly Placed<Quantity>[] {
  let all: readonly Placed<Quantity>[] = NONE;
  for (const value of line.values) {
    if (value.name === name && value.type === 'quantity')
      all = append(all, place(line, value, value.quantity));
  }
  return all;
}

export function word(line: BlockLine, name: string): Placed<string> | undefined {
  const value = find(line, name, 'text');
  return value && place(line, value, value.text);
}

export function words(line: BlockLine, name: string): readonly Placed<string>[] {
  let all: readonly Placed<string>[] = NONE;
  for (const value of line.values) {
    if (value.name === name && value.type === 'text') all = append(all, place(line, value, value.text));
  }
  return all;
}

/** The name that a head gives; `?` on the head itself where it gives none. */
export const nameOr = (line: BlockLine, name: string): Placed<string> =>
  word(line, name) ?? { value: UNREAD, start: startOf(line), end: endOf(line) };

export const textOf = (line: BlockLine, name: string): string | undefined => find(line, name, 'text')?.text;

/** From where the head of an inspection or a search says that it was made. */
export const vantage = (head: BlockLine): Vantage => (textOf(head, 'from') ?? UNREAD) as Vantage;

/** Whether a fixed word of the form, which gives no value of its own, stands in the line. */
export function says(line: BlockLine, fixed: string): boolean {
  for (const item of line.syntax.items) if (item.kind === 'word' && item.text === fixed) return true;
  return false;
}

export function day(line: BlockLine, name: string): Placed<number> | undefined {
  const value = find(line, name, 'dates');
  return value && place(line, value, value.from);
}

export const dayOf = (line: BlockLine, name: string): number | undefined => find(line, name, 'dates')?.from;

export function window(line: BlockLine, name: string): Window | undefined {
  const value = find(line, name, 'dates');
  return (
    value && { from: value.from, to: value.to, start: line.start + value.start, end: line.start + value.end }
  );
}

export const monthDays = (line: BlockLine, name: string) => find(line, name, 'monthDays');

/** Degrees clockwise from north. */
export const bearing = (line: BlockLine, name: string): number | undefined =>
  find(line, name, 'bearing')?.degrees;

export function species(line: BlockLine, name: string): Placed<SpeciesName> | undefined {
  const value = find(line, name, 'species');
  return value && place(line, value, value.species);
}

export const speciesOf = (line: BlockLine, name: string): SpeciesName | undefined =>
  find(line, name, 'species')?.species;

export function position(line: BlockLine): GeoPosition {
  return {
    start: startOf(line),
    end: endOf(line),
    latitude: find(line, 'latitude', 'quantity')!.quantity.low,
    longitude: find(line, 'longitude', 'quantity')!.quantity.low,
  };
}

export function photo(line: BlockLine): Photo {
  const draft: Draft<Photo> = { start: startOf(line), end: endOf(line), path: textOf(line, 'path')! };
  draft.distance = quantity(line, 'distance');
  draft.focal = quantity(line, 'focal');
  draft.pixels = quantity(line, 'pixels');
  return draft as Photo;
}
