/**
 * Fixes that change or add records: another window for the work, a nest check or follow-up to fill in, an
 * exception with its reason. What only a person can know is left out, so that the notation asks for it.
 */

import { addMonths, formatDate } from '../../grammar/dates.ts';
import { placedLine } from '../../grammar/syntax.ts';
import { lineEnd } from '../../grammar/text.ts';
import { freeFollowUp } from '../assess/evidence.ts';
import { factAt } from '../facts/file.ts';
import type { Tree } from '../facts/types.ts';
import type { FileSnapshot, PlacedFact } from '../facts/workspace.ts';
import type { Finding } from '../rules/check.ts';
import { ruleNamed } from '../rules/registry.ts';
import { adviceEdits } from './advice.ts';
import { lastFilled } from './cursor.ts';
import type { Fix } from './fixes.ts';
import type { Edit, Snapshot } from './snapshot.ts';

export function recordFixes(snapshot: Snapshot, file: FileSnapshot, finding: Finding): readonly Fix[] {
  const placed = factAt(file, finding.start);
  if (!placed || !isTree(placed) || finding.grade === 'syntax' || finding.accepted) return [];
  const look = Object.hasOwn(LOOKS, finding.rule) ? LOOKS[finding.rule] : undefined;
  return [
    ...adviceFixes(file, placed, finding),
    ...checkFix(snapshot, file, placed, finding),
    ...(look === undefined ? [] : [followUp(file, placed, finding, look)]),
    ...acceptFix(snapshot, file, placed, finding),
  ];
}

const isTree = (placed: PlacedFact): placed is PlacedFact<Tree> => placed.fact.kind === 'tree';

/** What the remedy tells to write, where it is no reading that somebody has to take. */
const adviceFixes = (file: FileSnapshot, placed: PlacedFact, finding: Finding): readonly Fix[] =>
  (finding.advice ?? [])
    .filter(({ kind }) => kind === 'plan')
    .map(advice => ({
      title: advice.title ?? `Write ${advice.lines.join(', ')}`,
      edits: adviceEdits(file, placed, advice),
      finding,
      preferred: false,
    }));

/** Rules whose findings another look can settle, and which one. */
const LOOKS: Readonly<Record<string, string>> = {
  'ground-only': 'climbing inspection',
  'inspection-before-storm': 're-inspection',
  'inspection-old': 're-inspection',
  'interior-unseen': 'climbing inspection',
  'joined-unproved': 'climbing inspection',
  'readings-contradict': 'probe',
  'reinspection-overdue': 're-inspection',
  'section-unmeasured': 'climbing inspection',
  'strength-loss-cubic': 'climbing inspection',
  'strength-loss-opening': 'climbing inspection',
  'strength-loss-quartic': 'climbing inspection',
  'strength-loss-section': 'climbing inspection',
  'suspected-only': 'climbing inspection',
  'wall-ratio': 'climbing inspection',
};

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

function followUp(file: FileSnapshot, placed: PlacedFact<Tree>, finding: Finding, look: string): Fix {
  const { fact: tree } = placed;
  const isDefect = tree.defects.some(({ id }) => id.value === finding.subject);
  const lines = [
    `follow-up ${freeFollowUp(tree)} ${look}`,
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
