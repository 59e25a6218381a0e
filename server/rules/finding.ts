/** What is found, as it is shown: of a mistake of the notation, and of what a rule says. */

import { counted } from '../base/words.ts';
import type { Accept } from '../facts/types.ts';
import type { FileSnapshot, PlacedFact } from '../facts/workspace.ts';
import { locate, type Place } from './place.ts';
import type { Remark } from './remarks.ts';
import type { Advice, Grade, Level, Related } from './rule.ts';

export interface Finding extends Place {
  /** Name of the rule; for a mistake of the notation its code, for a rule that failed `internal-error`. */
  readonly rule: string;
  readonly level: Level;
  readonly grade: Grade | 'syntax';
  readonly file: string;
  /** Tag of the tree. */
  readonly tree?: string;
  readonly subject: string;
  readonly message: string;
  readonly remedy: string;
  readonly caution?: string;
  /** The exception on record that covers it; `until` is a day number. */
  readonly accepted?: { readonly by: string; readonly until: number; readonly because: string };
  /** Replacement for `start` to `end` that would fix it. */
  readonly fix?: string;
  /** What the remedy tells to write; spans are relative to the block that the finding lies in. */
  readonly advice?: readonly Advice[];
  readonly related?: readonly {
    readonly file: string;
    readonly line: number;
    readonly column: number;
    readonly message: string;
  }[];
}

type Draft = { -readonly [K in keyof Finding]: Finding[K] };

/** Mistakes of one block that are told one by one: a text that is no inventory has one in each of its lines. */
const MOST_MISTAKES = 1000;

/** What is wrong with the lines of the i-th block. */
export function addMistakes(findings: Finding[], file: FileSnapshot, i: number): void {
  const stated = file.stated[i]!;
  const { fact, mistaken, mistakenAt } = stated;
  const told = Math.min(mistaken.length, MOST_MISTAKES);
  for (let m = 0; m < told; m++) {
    const mistake = mistaken[m]!.mistake!;
    const start = file.starts[i]! + mistaken[m]!.start;
    const line = file.firstLines[i]! + mistakenAt[m]! + 1;
    const draft: Draft = {
      start: start + mistake.start,
      end: start + mistake.end,
      line,
      column: mistake.start + 1,
      // A mistake ends in its line.
      endLine: line,
      endColumn: mistake.end + 1,
      rule: mistake.code,
      level: 'error',
      grade: 'syntax',
      file: file.path,
      subject: mistake.code,
      message: mistake.message,
      remedy: mistake.remedy,
    };
    if (fact?.kind === 'tree') draft.tree = fact.tag.value;
    if (mistake.fix !== undefined) draft.fix = mistake.fix;
    findings.push(draft);
  }
  const more = mistaken.length - told;
  if (more > 0) {
    const last = findings.at(-1) as Draft;
    last.message += ` Below it, ${counted(more, 'more line')} up to the next head of the file ${more === 1 ? 'has a mistake' : 'have mistakes'}.`;
  }
}

/** What a rule says about a fact, in its place. */
export function findingOf({ rule, level, report, caution, accept }: Remark, placed: PlacedFact): Finding {
  const { at, grade, subject, message, remedy, fix, advice, related } = report;
  const place = locate(placed, at.start, at.end);
  const draft: Draft = {
    start: place.start,
    end: place.end,
    line: place.line,
    column: place.column,
    endLine: place.endLine,
    endColumn: place.endColumn,
    rule,
    level,
    grade,
    file: placed.path,
    subject,
    message,
    remedy,
  };
  if (placed.fact.kind === 'tree') draft.tree = placed.fact.tag.value;
  if (caution !== undefined) draft.caution = caution;
  if (accept) draft.accepted = accepted(accept);
  if (fix !== undefined) draft.fix = fix;
  if (advice !== undefined && advice.length > 0) draft.advice = advice;
  if (related) draft.related = related.map(one => relatedPlace(one, placed));
  return draft;
}

/** Of an exception that holds, which states all three. */
const accepted = ({ by, until, because }: Accept): NonNullable<Finding['accepted']> => ({
  by: by!.value,
  until: until!.value,
  because: because!.value,
});

function relatedPlace(related: Related, here: PlacedFact): NonNullable<Finding['related']>[number] {
  const placed = related.in ?? here;
  const { line, column } = locate(placed, related.start, related.end);
  return { file: placed.path, line, column, message: related.message };
}

/** The same in a block that an edit above moved. */
export const moved = (finding: Finding, by: number, byLines: number): Finding => {
  const { start, end, line, endLine, related } = finding;
  return {
    ...finding,
    start: start + by,
    end: end + by,
    line: line + byLines,
    endLine: endLine + byLines,
    // What is said about one tree points into its own block.
    ...(related ? { related: related.map(one => ({ ...one, line: one.line + byLines })) } : {}),
  };
};

export const byPlace = (a: Finding, b: Finding): number =>
  a.start - b.start || a.end - b.end || (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0);
