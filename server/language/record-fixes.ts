/**
 * Fixes that change or add records: another window for the work, a nest check or follow-up to fill in, an
 * exception with its reason. What only a person can know is left out, so that the notation asks for it.
 */

import { addMonths, formatDate } from '../base/dates.ts';
import { factAt } from '../facts/file.ts';
import type { Tree } from '../facts/types.ts';
import type { DatedWorkspace, FileSnapshot, PlacedFact } from '../facts/workspace.ts';
import type { Finding } from '../rules/check.ts';
import { followUp } from '../rules/records-to-fill.ts';
import { ruleNamed } from '../rules/registry.ts';
import { adviceEdits, newRecord } from './advice.ts';
import type { Fix } from './snapshot.ts';

export function recordFixes(snapshot: DatedWorkspace, file: FileSnapshot, finding: Finding): readonly Fix[] {
  const placed = factAt(file, finding.start);
  if (!placed || !isTree(placed) || finding.grade === 'syntax' || finding.accepted) return [];
  const look = Object.hasOwn(LOOKS, finding.rule) ? LOOKS[finding.rule] : undefined;
  return [
    ...adviceFixes(file, placed, finding),
    ...(look === undefined ? [] : [lookPlanned(file, placed, finding, look)]),
    ...acceptFix(snapshot, file, placed, finding),
  ];
}

const isTree = (placed: PlacedFact): placed is PlacedFact<Tree> => placed.fact.kind === 'tree';

/** What the remedy tells to write, where it is no reading that somebody has to take. */
const adviceFixes = (file: FileSnapshot, placed: PlacedFact, finding: Finding): readonly Fix[] =>
  (finding.advice ?? [])
    .filter(({ kind }) => kind !== 'reading')
    .map(advice => ({
      title: advice.title ?? `Write ${advice.lines.join(', ')}`,
      edits: adviceEdits(file, placed, advice),
      finding,
      preferred: false,
    }));

/** Rules whose findings stay until another look was made, and which one. */
const LOOKS: Readonly<Record<string, string>> = {
  'inspection-before-storm': 're-inspection',
  'inspection-old': 're-inspection',
  'joined-unproved': 'climbing inspection',
  'readings-contradict': 'probe',
  'reinspection-overdue': 're-inspection',
  'strength-loss': 'resistance drilling',
  'suspected-only': 'climbing inspection',
};

function lookPlanned(file: FileSnapshot, placed: PlacedFact<Tree>, finding: Finding, look: string): Fix {
  const about = placed.fact.defects.some(({ id }) => id.value === finding.subject) ? [finding.subject] : [];
  const advice = followUp(placed.fact, look, about);
  return {
    title: `${advice.title} (the finding stays until it is made)`,
    edits: adviceEdits(file, placed, advice),
    finding,
    preferred: false,
  };
}

/** An exception is proposed for half a year; the person who signs it may change the date. */
const EXCEPTION_MONTHS = 6;

function acceptFix(
  { today }: DatedWorkspace,
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
      edits: [newRecord(file, placed, lines)],
      finding,
      preferred: false,
    },
  ];
}
