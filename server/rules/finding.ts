/** What is found, as it is shown: mistakes in the notation, and what rules report. */

import { counted } from '../base/words.ts';
import type { BlockNode, PlacedNode } from '../facts/file.ts';
import type { Accept } from '../facts/types.ts';
import { locate, type Place } from './place.ts';
import type { RawFinding } from './raw-finding.ts';
import type { Advice, Grade, Level } from './rule.ts';

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
  /** The fix is what was meant, beyond doubt. */
  readonly sure?: true;
  /** Replacements among which only the writer can choose. */
  readonly choices?: readonly string[];
  /** What the remedy tells to write; spans are relative to the block that the finding lies in. */
  readonly advice?: readonly Advice[];
  readonly related?: readonly {
    readonly file: string;
    readonly line: number;
    readonly column: number;
    readonly message: string;
  }[];
}

type FindingDraft = { -readonly [K in keyof Finding]: Finding[K] };

/** Maximum number of mistakes reported one by one per block: a text that is no inventory has one in each of its lines. */
const MOST_MISTAKES = 1000;

/** The mistakes in the lines of a block, as if the file began with it. */
export function mistakesIn(node: BlockNode): Finding[] {
  const findings: FindingDraft[] = [];
  if (!node.isDamaged) return findings;
  const { fact, block } = node;
  let more = 0;
  block.lines.forEach(({ mistake }, i) => {
    if (!mistake) return;
    if (findings.length === MOST_MISTAKES) {
      more++;
      return;
    }
    const start = block.starts[i]!;
    const draft: FindingDraft = {
      start: start + mistake.start,
      end: start + mistake.end,
      line: i + 1,
      column: mistake.start + 1,
      // A mistake ends in its line.
      endLine: i + 1,
      endColumn: mistake.end + 1,
      rule: mistake.code,
      level: 'error',
      grade: 'syntax',
      file: '',
      subject: mistake.code,
      message: mistake.message,
      remedy: mistake.remedy,
    };
    if (fact?.kind === 'tree') draft.tree = fact.tag.value;
    if (mistake.fix !== undefined) draft.fix = mistake.fix;
    if (mistake.sure) draft.sure = true;
    if (mistake.choices) draft.choices = mistake.choices;
    findings.push(draft);
  });
  if (more > 0)
    findings.at(-1)!.message +=
      ` Below it, ${counted(more, 'more line')} up to the next head of the file ${more === 1 ? 'has a mistake' : 'have mistakes'}.`;
  return findings;
}

/** What a rule reports about a block, in its place. */
export function findingOf(
  { rule, level, report, caution, accept }: RawFinding,
  placed: Pick<PlacedNode, 'path' | 'start' | 'firstLine' | 'node'>,
): Finding {
  const { at, grade, subject, message, remedy, fix, advice, related } = report;
  const place = locate(placed, at.start, at.end);
  const draft: FindingDraft = {
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
  const { fact } = placed.node;
  if (fact?.kind === 'tree') draft.tree = fact.tag.value;
  if (caution !== undefined) draft.caution = caution;
  if (accept) draft.accepted = accepted(accept);
  if (fix !== undefined) draft.fix = fix;
  if (advice !== undefined && advice.length > 0) draft.advice = advice;
  if (related)
    draft.related = related.map(one => {
      const { line, column } = locate(one.in ?? placed, one.start, one.end);
      return { file: one.in?.path ?? placed.path, line, column, message: one.message };
    });
  return draft;
}

/** Of a valid exception, which states all three. */
const accepted = ({ by, until, because }: Accept): NonNullable<Finding['accepted']> => ({
  by: by!.value,
  until: until!.value,
  because: because!.value,
});

/** A finding about a block by itself, as if the file began with it → in its place. */
export function inPlace(finding: Finding, path: string, start: number, firstLine: number): Finding {
  // A plain copy, changed: with other members in the spread it would take several times as long.
  const placed: FindingDraft = { ...finding };
  placed.file = path;
  placed.start += start;
  placed.end += start;
  placed.line += firstLine;
  placed.endLine += firstLine;
  if (placed.related)
    placed.related = placed.related.map(one => ({ ...one, file: path, line: one.line + firstLine }));
  return placed;
}

export const byPlace = (a: Finding, b: Finding): number =>
  a.start - b.start || a.end - b.end || (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0);
