/**
 * Fixes that change or add records: another window for the work, a nest check or follow-up to fill in, an
 * exception with its reason. What only a person can know is left out, so that the notation asks for it.
 */

import { addMonths, formatDate } from '../../grammar/dates.ts';
import { placedLine } from '../../grammar/syntax.ts';
import { lineEnd } from '../../grammar/text.ts';
import { clearDays, closedWindows } from '../assess/clear-days.ts';
import { showDays } from '../assess/days.ts';
import { daysLeft } from '../assess/prescriptions.ts';
import { factAt } from '../facts/file.ts';
import { namesGiven } from '../facts/references.ts';
import type { Tree } from '../facts/types.ts';
import type { FileSnapshot, PlacedFact } from '../facts/workspace.ts';
import { type DaySpan, nextLawfulWindow } from '../practice/index.ts';
import type { Finding } from '../rules/check.ts';
import { ruleNamed } from '../rules/registry.ts';
import { lastFilled } from './cursor.ts';
import type { Fix } from './fixes.ts';
import { type Edit, type Snapshot, settingsOf } from './snapshot.ts';

export function recordFixes(snapshot: Snapshot, file: FileSnapshot, finding: Finding): readonly Fix[] {
  const placed = factAt(file, finding.start);
  if (!placed || !isTree(placed) || finding.grade === 'syntax' || finding.accepted) return [];
  const look = Object.hasOwn(LOOKS, finding.rule) ? LOOKS[finding.rule] : undefined;
  return [
    ...(MOVED.test(finding.rule) ? windowFixes(snapshot, file, placed, finding) : []),
    ...checkFix(snapshot, file, placed, finding),
    ...(look === undefined ? [] : [followUp(file, placed, finding, look)]),
    ...acceptFix(snapshot, file, placed, finding),
  ];
}

const isTree = (placed: PlacedFact): placed is PlacedFact<Tree> => placed.fact.kind === 'tree';

/** Rules whose findings another look can settle, and which one. */
const LOOKS: Readonly<Record<string, string>> = {
  'ground-only': 'climbing inspection',
  'inspection-before-storm': 're-inspection',
  'inspection-old': 're-inspection',
  'joined-unproved': 'climbing inspection',
  'readings-contradict': 'probe',
  'reinspection-overdue': 're-inspection',
  'strength-loss': 'resistance drilling',
  'suspected-only': 'climbing inspection',
};

/** Rules that ask for other days. */
const MOVED = /^(nest-|bat-check-|pruning-season$)/;

/** Rules that ask for a look at nests or bats; a roost that was found stays one whatever the next look finds. */
const CHECKED = /^(nest|bat)-(?!roost)/;

function checkFix(
  { today }: Snapshot,
  file: FileSnapshot,
  placed: PlacedFact<Tree>,
  finding: Finding,
): readonly Fix[] {
  const animal = CHECKED.exec(finding.rule)?.[1];
  if (animal === undefined) return [];
  const check = insertion(file, placed, [`${animal} check ${formatDate(today)} from`, '  by', '  found']);
  return [{ title: `Add a ${animal} check to fill in`, edits: [check], finding, preferred: false }];
}

/**
 * The days of the window that nothing closes to the work, and the first window as long in which nothing does,
 * whichever season the finding is about.
 */
function windowFixes(
  snapshot: Snapshot,
  file: FileSnapshot,
  placed: PlacedFact<Tree>,
  finding: Finding,
): readonly Fix[] {
  const prescription = placed.fact.prescriptions.find(({ id }) => id.value === finding.subject);
  const between = prescription?.between;
  const days = prescription && daysLeft(prescription, snapshot.today);
  if (!between || !days) return [];
  const closed = closedWindows(placed.fact, prescription, settingsOf(snapshot, file.path));
  const moved = nextLawfulWindow(days.from, days.to, closed);
  if (moved?.from === days.from) return [];
  // The stretch holds the days alone, whatever else the finding marks.
  const at = { start: placed.start + between.start, end: placed.start + between.end };
  const fix = (verb: string, to: DaySpan): Fix => ({
    title: `${verb} the work to ${showDays(to)}, clear of the closed seasons`,
    edits: [{ ...at, text: `${formatDate(to.from)}..${formatDate(to.to)}` }],
    finding,
    preferred: false,
  });
  return [
    ...clearDays(days, closed).map(clear => fix('Keep', clear)),
    ...(moved ? [fix('Move', moved)] : []),
  ];
}

function followUp(file: FileSnapshot, placed: PlacedFact<Tree>, finding: Finding, look: string): Fix {
  const { fact: tree } = placed;
  const isDefect = tree.defects.some(({ id }) => id.value === finding.subject);
  const lines = [
    `follow-up ${freeName(tree)} ${look}`,
    ...(isDefect ? [`  of        ${finding.subject}`] : []),
    '  due',
  ];
  return {
    title: `Add a follow-up to fill in: ${look}${isDefect ? ` of ${finding.subject}` : ''}`,
    edits: [insertion(file, placed, lines)],
    finding,
    preferred: false,
  };
}

function freeName(tree: Tree): string {
  const taken = new Set(namesGiven(tree).map(({ name }) => name));
  for (let i = 1; ; i++) if (!taken.has(`F${i}`)) return `F${i}`;
}

/** An exception holds for half a year, unless whoever signs it writes another day. */
const EXCEPTION_MONTHS = 6;

function acceptFix(
  { today }: Snapshot,
  file: FileSnapshot,
  placed: PlacedFact<Tree>,
  finding: Finding,
): readonly Fix[] {
  const { rule, subject, tree } = finding;
  if (!ruleNamed(rule)?.acceptable || tree === undefined) return [];
  // A subject that is no name can't be written; the exception then is for the rule.
  const forSubject = /^[\p{L}\p{N}._/-]+$/u.test(subject) && subject !== tree ? ` for ${subject}` : '';
  const lines = [
    `accept ${rule}${forSubject}`,
    `  until     ${formatDate(addMonths(today, EXCEPTION_MONTHS))}`,
    '  by',
    '  because',
  ];
  return [
    {
      title: `Accept ${rule}${forSubject} on record, with a reason`,
      edits: [insertion(file, placed, lines)],
      finding,
      preferred: false,
    },
  ];
}

/** A head with its fields below the last line of a tree. */
function insertion(file: FileSnapshot, { start, block }: PlacedFact<Tree>, lines: readonly string[]): Edit {
  const end = lineEnd(file.text);
  const last = placedLine(block, lastFilled(block.lines, 0, block.lines.length));
  const at = start + last.start + last.syntax.text.length;
  return { start: at, end: at, text: `${end}${end}${lines.map(line => `  ${line}`).join(end)}` };
}
