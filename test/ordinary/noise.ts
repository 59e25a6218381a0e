/**
 * How much a check says of an inventory, and how much of it nobody needs. What counts as noise has a name, and its name
 * says why: whoever reads the finding has read it already, or can do nothing with it.
 */

import { parseDate } from '../../server/base/dates.ts';
import { treeOn } from '../../server/facts/state.ts';
import type { Tree } from '../../server/facts/types.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { checkFile, type Finding } from '../../server/rules/check.ts';
import { ruleNamed } from '../../server/rules/registry.ts';
import type { SampleFile } from '../samples/sample-files.ts';

interface Told {
  readonly finding: Finding;
  /** Why nobody needs it; undefined where somebody does. */
  readonly noise: string | undefined;
}

export interface Heard {
  readonly trees: number;
  /** Without what is accepted, which asks for nothing. */
  readonly told: readonly Told[];
}

const TODAY = parseDate('2026-06-01')!;

/** Findings on one tree: what is accepted, which has been read by somebody, then the gravest first. */
interface Around {
  readonly tree: Tree;
  readonly found: readonly Finding[];
}

type Reason = (finding: Finding, around: Around) => boolean;

const LEVELS = ['error', 'warning', 'note'] as const;
const rank = ({ level, accepted }: Finding) => (accepted ? -1 : LEVELS.indexOf(level));
const byGravity = (a: Finding, b: Finding) => rank(a) - rank(b);

/** All of these but the first, which tells the cause. */
const isAgain = (finding: Finding, same: readonly Finding[]): boolean =>
  same.length > 1 && same.includes(finding) && same[0] !== finding;

const among =
  (...rules: readonly string[]) =>
  ({ rule }: Finding): boolean =>
    rules.includes(rule);

const isAnsweredAtTheFork = ({ prescriptions }: Tree, stem: string): boolean =>
  prescriptions.some(
    ({ kind, remove, withdrawn }) =>
      !withdrawn &&
      (kind.value === 'cable' ||
        (kind.value === 'fell' && remove.length === 0) ||
        remove.some(({ value }) => value === stem)),
  );

const REASONS: Readonly<Record<string, Reason>> = {
  'one part by several formulas': (finding, { found, tree }) =>
    tree.defects.some(({ id }) => id.value === finding.subject) &&
    isAgain(
      finding,
      found.filter(one => ruleNamed(one.rule)?.group === 'structure' && one.subject === finding.subject),
    ),
  'one hollow, again for the openings that lead into it': ({ subject, rule }, { found, tree }) =>
    tree.defects.some(({ id }) => id.value === subject) &&
    found.some(
      one => one.rule === rule && one.subject !== subject && one.subject.split('-').includes(subject),
    ) &&
    tree.joined.some(({ defects }) => defects.some(({ value }) => value === subject)),
  'a hollow that nobody looked into, by another rule': ({ rule, subject }, { found }) =>
    rule === 'strength-loss-section' &&
    found.some(one => one.rule === 'interior-unseen' && one.subject === subject),
  'one reduction that falls short, by several figures': (finding, { found }) =>
    isAgain(
      finding,
      found.filter(
        one =>
          among('stress-ratio-after', 'offset-beyond-season', 'reduction-short-of-offset')(one) &&
          one.subject === finding.subject,
      ),
    ),
  'one moving root plate by two of its signs': (finding, { found }) =>
    isAgain(finding, found.filter(among('lean-new', 'soil-heaving'))),
  'a fork for which a cable or removal is prescribed': ({ rule, subject }, { tree }) =>
    (rule === 'codominant-ratio' || rule === 'included-bark-union') && isAnsweredAtTheFork(tree, subject),
  'occupancy of what is always there': ({ rule, subject }, { tree }) =>
    rule === 'target-without-occupancy' &&
    tree.targets.some(
      ({ name, kind }) => name.value === subject && (kind?.value === 'building' || kind?.value === 'utility'),
    ),
  'one visit, asked for by several rules': (finding, { found }) =>
    isAgain(
      finding,
      found.filter(among('inspection-before-storm', 'reinspection-overdue', 'inspection-old')),
    ),
  'a rating asked for a wire or a building of a tree that comes down': ({ rule, subject }, { tree }) =>
    rule === 'rating-missing' &&
    tree.prescriptions.some(({ kind, remove }) => kind.value === 'fell' && remove.length === 0) &&
    tree.targets.some(({ name, kind }) => name.value === subject && kind?.value === 'utility'),
  'work or a check of the past that nothing will change': ({ rule, subject }, { tree }) =>
    ((rule === 'season-dose' || rule === 'cut-diameter') &&
      tree.works.some(({ date }) => parseDate(subject) === date.value)) ||
    (rule === 'nest-check-coarse' &&
      tree.prescriptions.length > 0 &&
      tree.prescriptions.every(({ id }) =>
        tree.works.some(({ prescription }) => prescription.value === id.value),
      )),
  'height over diameter of a sound young tree': ({ rule, level }, { tree }) =>
    rule === 'slenderness' &&
    level === 'note' &&
    tree.defects.length === 0 &&
    (tree.age?.value === 'young' || tree.age?.value === 'semi-mature'),
};

const reasonsOfNoise: readonly string[] = Object.keys(REASONS);

export function heard(files: readonly SampleFile[]): Heard {
  const workspace = buildWorkspace(files.map(({ path, text }) => readFile(path, text)));
  const told: Told[] = [];
  let trees = 0;
  for (const file of workspace.files.values()) {
    const found = checkFile(workspace, file, TODAY).toSorted(byGravity);
    for (const { fact } of file.trees) {
      const tree = treeOn(fact, TODAY);
      trees++;
      const here = found.filter(one => one.tree === tree.tag.value);
      for (const finding of here) {
        if (finding.accepted) continue;
        const noise = reasonsOfNoise.find(reason => REASONS[reason]!(finding, { tree, found: here }));
        told.push({ finding, noise });
      }
    }
    for (const finding of found) if (finding.tree === undefined) told.push({ finding, noise: undefined });
  }
  return { trees, told };
}

/** For people: findings per rule and how many of them are noise, then why. */
export function noiseTable({ trees, told }: Heard): string {
  const count = (list: readonly Told[], of: (one: Told) => string | undefined) => {
    const counts = new Map<string, Told[]>();
    for (const one of list) {
      const key = of(one);
      if (key !== undefined) counts.set(key, [...(counts.get(key) ?? []), one]);
    }
    return [...counts].sort(([, a], [, b]) => b.length - a.length);
  };
  const noisy = (list: readonly Told[]) => list.filter(({ noise }) => noise).length;
  return [
    `${told.length} findings on ${trees} trees, ${(told.length / trees).toFixed(2)} per tree; ${noisy(told)} are noise`,
    ...count(told, ({ finding }) => finding.rule).map(
      ([rule, list]) => `${String(list.length).padStart(4)} ${String(noisy(list)).padStart(4)}  ${rule}`,
    ),
    ...count(told, ({ noise }) => noise).map(
      ([reason, list]) =>
        `${String(list.length).padStart(4)}  ${reason}: ${list.map(({ finding }) => `${finding.tree} ${finding.rule}`).join(', ')}`,
    ),
  ].join('\n');
}
