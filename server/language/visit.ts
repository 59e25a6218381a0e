/** What somebody under a tree takes down: an inspection, a picture, a position, words as spoken. */

import { splitLines } from '../../grammar/text.ts';
import { tidy } from '../../grammar/tidy.ts';
import { formatDate } from '../base/dates.ts';
import { distanceBetween, type LatitudeLongitude } from '../base/distance.ts';
import { folderOf } from '../facts/paths.ts';
import type { Inspection, WrittenTree } from '../facts/types.ts';
import type { DatedWorkspace, FileSnapshot, PlacedFact } from '../facts/workspace.ts';
import type { Question } from '../fix/fix.ts';
import { FROM, FROMS } from '../fix/note-words.ts';
import { adviceEdits, newRecord } from './advice.ts';
import { cursorAt } from './cursor.ts';
import { pathAsWritten, relativeTo } from './photos.ts';
import { degrees } from './picture-records.ts';
import type { Edit } from './snapshot.ts';

export interface TakenDown {
  /** A new inspection, whether or not there is something to write below it. */
  readonly inspection?: true;
  /** The person, by the name of their record. */
  readonly by?: string;
  /** A photograph, relative to the root. */
  readonly picture?: string;
  /** Where the receiver of the device says it is, and by how many meters it may be off. */
  readonly position?: LatitudeLongitude & { readonly within: number };
  /** Field notes. */
  readonly spoken?: string;
  /** By the keys of the questions. */
  readonly answers?: Readonly<Record<string, string>>;
}

export interface Visit {
  /** Tag of the tree; absent if there is none at the place. */
  readonly tree?: string;
  readonly persons: readonly { readonly id: string; readonly name: string }[];
  /** What only the person knows; with their answers the same is asked again. */
  readonly questions: readonly Omit<Question, 'lines'>[];
  /** Lines that stay mistakes, for people. */
  readonly left: readonly string[];
  /** Of the file. */
  readonly edits: readonly Edit[];
}

export type PlacedTree = PlacedFact<WrittenTree>;
export type Written = Pick<Visit, 'questions' | 'left' | 'edits'>;

const NOTHING: Written = { questions: [], left: [], edits: [] };

/** Reads what was spoken: spoken.ts, which few need and is large. */
type ReadSpoken = (
  snapshot: DatedWorkspace,
  file: FileSnapshot,
  placed: PlacedTree | undefined,
  taken: TakenDown,
) => Written;

/** What is written of what was taken down at an offset. */
export function visitAt(
  snapshot: DatedWorkspace,
  file: FileSnapshot,
  offset: number,
  taken: TakenDown = {},
  read?: ReadSpoken,
): Visit {
  const { fact } = cursorAt(file, offset);
  const placed = fact?.fact.kind === 'tree' ? (fact as PlacedTree) : undefined;
  const persons = [...snapshot.workspace.persons.values()].map(person => ({
    id: person.fact.id.value,
    name: person.fact.name.value,
  }));
  const written =
    taken.spoken !== undefined && read
      ? read(snapshot, file, placed, taken)
      : placed
        ? recorded(file, placed, snapshot.today, taken)
        : NOTHING;
  return {
    ...(placed ? { tree: placed.fact.tag.value } : {}),
    persons,
    ...written,
    edits: joined(written.edits),
  };
}

/** What is inserted at one place, as one edit: editors differ in the order of several. */
function joined(edits: readonly Edit[]): readonly Edit[] {
  const all: Edit[] = [];
  for (const edit of edits) {
    const last = all.at(-1);
    if (last && last.start === edit.start && last.end === edit.end)
      all[all.length - 1] = { ...last, text: last.text + edit.text };
    else all.push(edit);
  }
  return all;
}

/** The inspection of the day that new records belong to: the last of the tree. */
export function inspectedOn({ fact }: PlacedTree, day: number): Inspection | undefined {
  const last = fact.inspections.at(-1);
  return last?.date.value === day ? last : undefined;
}

/** Lines of a tree as the formatter prints them, the heads in it without indentation. */
export function formatted(lines: readonly string[]): readonly string[] {
  const { texts } = splitLines(tidy(['tree 1', ...lines, ''].join('\n')).text);
  return texts.slice(1, -1).map(line => line.replace(/^ {2}/, ''));
}

/** A picture, a position, an inspection by itself. */
function recorded(file: FileSnapshot, placed: PlacedTree, today: number, taken: TakenDown): Written {
  const { answers = {}, by, picture, position, inspection } = taken;
  const here = position && positionTaken(file, placed, position, answers[POSITION]);
  if (picture === undefined && !inspection) return here ?? NOTHING;
  const photo =
    picture === undefined ? [] : [`photo ${pathAsWritten(relativeTo(folderOf(file.path), picture))}`];
  const last = inspectedOn(placed, today);
  const from = answers[FROM];
  if (last && !inspection)
    return {
      ...NOTHING,
      edits: adviceEdits(file, placed, { kind: 'reading', under: last.at, lines: photo }),
    };
  if (from === undefined) return { ...NOTHING, questions: [FROM_WHERE] };
  const lines = [
    `inspection ${formatDate(today)} from ${from}`,
    ...(by === undefined ? [] : [`by ${by}`]),
    ...photo,
  ];
  return { ...NOTHING, edits: [newRecord(file, placed, formatted(lines))] };
}

const FROM_WHERE = { key: FROM, asks: 'Where is the tree inspected from?', choices: FROMS };
const POSITION = 'position';

/** The position of a tree that has none, or another one after a yes; either way with the error of the receiver. */
function positionTaken(
  file: FileSnapshot,
  placed: PlacedTree,
  { within, ...position }: NonNullable<TakenDown['position']>,
  answer: string | undefined,
): Written {
  const { position: known, tag } = placed.fact;
  const choices = ['keep the recorded position', 'use the position of this device'];
  const off = `within ${Math.ceil(within)} m`;
  if (known && answer === undefined) {
    const away = Math.round(distanceBetween(known, position));
    const asks = `Tree ${tag.value} has a recorded position ${away} m from that of this device, which is accurate to ${off}.`;
    return { ...NOTHING, questions: [{ key: POSITION, asks, choices }] };
  }
  if (known && answer !== choices[1]) return NOTHING;
  const lines = [
    `position ${degrees(position.latitude)}, ${degrees(position.longitude)}`,
    `note "position by the receiver of a phone or tablet, ${off}"`,
  ];
  const written = formatted(lines).map(line => line.trim());
  return { ...NOTHING, edits: adviceEdits(file, placed, { kind: 'reading', under: tag, lines: written }) };
}
