/**
 * Fixes that change or add records: another window for the work, a nest check or follow-up to fill in, an
 * exception with its reason. What only a person can know is left out, so that the notation asks for it.
 */

import { HEADS } from '../../grammar/fields.ts';
import { sectionAt } from '../../grammar/syntax.ts';
import { lastAtMost, lineEnd } from '../../grammar/text.ts';
import { addMonths, formatDate } from '../base/dates.ts';
import { factAt } from '../facts/file.ts';
import type { WrittenTree } from '../facts/types.ts';
import type { DatedWorkspace, FileSnapshot, PlacedFact, Workspace } from '../facts/workspace.ts';
import type { Finding } from '../rules/check.ts';
import { followUp } from '../rules/records-to-fill.ts';
import { ruleNamed } from '../rules/registry.ts';
import { adviceEdits, newRecord } from './advice.ts';
import type { Edit, Fix } from './snapshot.ts';

export function recordFixes(snapshot: DatedWorkspace, file: FileSnapshot, finding: Finding): readonly Fix[] {
  const placed = factAt(file, finding.start);
  if (!placed || finding.grade === 'syntax' || finding.accepted) return [];
  const added = finding.rule === 'unknown-reference' ? nameFixes(snapshot, file, placed, finding) : [];
  if (!isTree(placed)) return [...blankFixes(file, placed, finding), ...added];
  const look = Object.hasOwn(LOOKS, finding.rule) ? LOOKS[finding.rule] : undefined;
  return [
    ...adviceFixes(file, placed, finding),
    ...blankFixes(file, placed, finding),
    ...added,
    ...(look === undefined ? [] : [lookPlanned(file, placed, finding, look)]),
    ...acceptFix(snapshot, file, placed, finding),
  ];
}

const isTree = (placed: PlacedFact): placed is PlacedFact<WrittenTree> => placed.fact.kind === 'tree';

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

/** Fields that a remedy asks for and only a person can fill in, by rule; of those below the tree itself, which. */
const BLANKS: Readonly<Record<string, readonly string[]>> = {
  'accept-incomplete': ['until', 'by', 'because'],
  'conductor-voltage-missing': ['voltage'],
  'cut-diameter': ['species'],
  'dose-unstated': ['dose'],
  'flight-height': ['flown'],
  'follow-up-missing-due': ['due'],
  'follow-up-overdue': ['done'],
  'missing-reason': ['because'],
  'nest-check-coarse': ['height'],
  'permit-missing': ['permit'],
  'rating-incomplete': ['failure', 'impact', 'consequences', 'rating'],
  'replacement-unstated': ['replace'],
  'salvage-unstated': ['logs'],
  'stump-unstated': ['stump'],
  'takedown-unstated': ['takedown'],
  'target-without-distance': ['distance'],
  'target-without-occupancy': ['occupied'],
  'unqualified-person': ['by'],
  'window-unstated': ['between'],
  'wood-under-quarantine': ['wood'],
};
/** Rules whose field is one of the tree, wherever the finding is. */
const OF_THE_TREE: ReadonlySet<string> = new Set(['cut-diameter', 'nest-check-coarse']);

/** The fields that are missing, to be filled in: the notation asks for their values. */
function blankFixes(file: FileSnapshot, placed: PlacedFact, finding: Finding): readonly Fix[] {
  const { block, start } = placed;
  const inBlock = OF_THE_TREE.has(finding.rule) ? 0 : finding.start - start;
  const section = sectionAt(placed, lastAtMost(block.starts, inBlock));
  const fields = section && HEADS.get(section.word)?.fields;
  if (!fields) return [];
  const stated = section.fields.map(index => block.lines[index]!.word);
  const lines = (Object.hasOwn(BLANKS, finding.rule) ? BLANKS[finding.rule]! : []).filter(
    word => fields.has(word) && !stated.includes(word) && finding.remedy.includes(word),
  );
  const at = block.starts[section.head]!;
  return lines.length === 0
    ? []
    : [
        {
          title: `Add ${oneAndAll(lines)} to fill in`,
          edits: adviceEdits(file, placed, { kind: 'to fill in', under: { start: at, end: at }, lines }),
          finding,
          preferred: false,
        },
      ];
}

const oneAndAll = (words: readonly string[]): string => words.join(', ').replace(/, ([^,]*)$/, ' and $1');

/** What a name can be that no head gives, and the lines that give it. */
const HEADS_TO_ADD: Readonly<Record<string, (name: string) => readonly string[]>> = {
  stem: name => [`stem ${name}`],
  limb: name => [`limb ${name}`],
  defect: name => [`defect ${name}`],
  prescription: name => [`prescription ${name}`],
  target: name => [`target "${name.replaceAll('"', '""')}"`, '  distance'],
};

/** Heads for a name that is used and that nothing gives. */
function nameFixes(
  { workspace }: DatedWorkspace,
  file: FileSnapshot,
  placed: PlacedFact,
  finding: Finding,
): readonly Fix[] {
  const kinds = /^No (.+?)(?: of this tree)? is named /.exec(finding.message)?.[1]?.split(/, | or /) ?? [];
  const name = finding.subject;
  return kinds.flatMap((kind): Fix[] => {
    const fix = (edit: Edit, path: string): Fix => ({
      title: `Add the ${kind} ${name}`,
      ...(path === file.path ? {} : { path }),
      edits: [edit],
      finding,
      preferred: false,
    });
    if (kind === 'person' || kind === 'crew') {
      const home = filesOf(workspace, kind)[0] ?? file;
      return [fix(newBlock(home, `${kind} ${name}`), home.path)];
    }
    const lines = HEADS_TO_ADD[kind]?.(name);
    return lines && isTree(placed) ? [fix(newRecord(file, placed, lines), file.path)] : [];
  });
}

/** Files that have persons or crews already. */
const filesOf = ({ files }: Workspace, kind: string): readonly FileSnapshot[] =>
  [...files.values()].filter(({ others }) => others.some(({ fact }) => fact.kind === kind));

function newBlock(file: FileSnapshot, head: string): Edit {
  const end = lineEnd(file.text);
  const at = file.text.trimEnd().length;
  return { start: at, end: at, text: `${at === 0 ? '' : `${end}${end}`}${head}` };
}

/** Rules whose findings stay until another look was made, and which one. */
const LOOKS: Readonly<Record<string, string>> = {
  'decay-backwards': 'probe',
  'inspection-before-storm': 're-inspection',
  'inspection-old': 're-inspection',
  'joined-unproved': 'climbing inspection',
  'readings-contradict': 'probe',
  'reinspection-overdue': 're-inspection',
  'strength-loss': 'resistance drilling',
  'suspected-only': 'climbing inspection',
};

function lookPlanned(
  file: FileSnapshot,
  placed: PlacedFact<WrittenTree>,
  finding: Finding,
  look: string,
): Fix {
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
  placed: PlacedFact<WrittenTree>,
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
