/** One thing of a tree changed, as inventories change: read less exactly, lost, in another unit, in another order. */

import type { Finding } from '../../server/rules/check.ts';
import { groupOf } from './program.ts';
import {
  type Block,
  isReading,
  kindOf,
  lineOfHead,
  mapReadings,
  type OrdinaryTree,
  type Reading,
  type ReadingAt,
  readingsIn,
  withoutBlock,
  withoutLine,
  withReading,
} from './record.ts';
import { MEASURES } from './signs.ts';

export interface Change {
  /** For people: `diameter of defect A cavity, > 12 in`. */
  readonly what: string;
  readonly tree: OrdinaryTree;
  /** Lines of the text before the change that are gone after it. */
  readonly gone: readonly number[];
}

const SAYS_NOTHING = 'unseen';

const third = (value: number, share: number) => Math.max(0, Math.round(value * share * 2) / 2);

/** Everything that holds all values of the reading and more. */
function wider({ form, value, to = value, unit }: Reading): readonly (Reading | typeof SAYS_NOTHING)[] {
  const low = Math.min(third(value, 2 / 3), value * 0.85);
  const high = Math.max(third(to, 4 / 3), to * 1.15);
  switch (form) {
    case 'above':
      return [{ form, value: low, unit }, SAYS_NOTHING];
    case 'below':
      return [{ form, value: high, unit }, SAYS_NOTHING];
    default:
      return [
        { form: 'range', value: low, to: high, unit },
        { form: 'above', value: low, unit },
        { form: 'below', value: high, unit },
        SAYS_NOTHING,
      ];
  }
}

const nameOf = (tree: OrdinaryTree, { block, line }: Pick<ReadingAt, 'block' | 'line'>): string => {
  const { head, lines } = tree.blocks[block]!;
  return `${lines[line]!.word} of ${head}`;
};

/** Each reading in turn, wider in each way. */
export const widened = (tree: OrdinaryTree): readonly Change[] =>
  readingsIn(tree).flatMap(at =>
    wider(at.reading).map(
      (by): Change => ({
        what: `${nameOf(tree, at)} ${isReading(by) ? by.form : by}`,
        tree: withReading(tree, at, by),
        gone: [],
      }),
    ),
  );

/** By head, the fields that are evidence; a lean, heaving soil or death is a sign itself and goes with its line. */
const EVIDENCE: Readonly<Record<string, ReadonlySet<string>>> = {
  tree: new Set(['species', 'dbh', 'height', 'crown', 'age', 'vigor']),
  defect: new Set([...MEASURES, 'on', 'bark']),
  pull: new Set(['force', 'rope', 'inclination']),
  target: new Set(['distance', 'occupied']),
  stem: new Set(['from', 'diameter', 'height']),
  limb: new Set(['from', 'diameter', 'length']),
  prescription: new Set(['piece', 'anchor']),
  support: new Set(['rated', 'breaking']),
};

/** Each record of evidence taken out in turn: readings, what is known of targets, the species, ratings. */
export const withoutEvidence = (tree: OrdinaryTree): readonly Change[] =>
  tree.blocks.flatMap((block, at): readonly Change[] => {
    const head = lineOfHead(tree, at);
    const kind = kindOf(block);
    if (kind === 'risk') {
      const gone = Array.from({ length: block.lines.length + 1 }, (_, i) => head + i);
      return [{ what: 'risk', tree: withoutBlock(tree, at), gone }];
    }
    return block.lines.flatMap(({ word, tokens }, line): readonly Change[] =>
      EVIDENCE[kind]?.has(word) && !(word === 'vigor' && tokens.includes('dead'))
        ? [
            {
              what: nameOf(tree, { block: at, line }),
              tree: withoutLine(tree, at, line),
              gone: [head + 1 + line],
            },
          ]
        : [],
    );
  });

/** Exactly the same lengths, feet and inches as metres and centimetres, or metres as centimetres and millimetres. */
const OTHER_UNIT: Readonly<Record<string, readonly [unit: string, factor: number]>> = {
  in: ['cm', 2.54],
  ft: ['m', 0.3048],
  cm: ['mm', 10],
  m: ['cm', 100],
};

export const inOtherUnits = (tree: OrdinaryTree): OrdinaryTree =>
  mapReadings(tree, reading => {
    const [unit, factor] = OTHER_UNIT[reading.unit] ?? [reading.unit, 1];
    const { value, to } = reading;
    return { ...reading, unit, value: value * factor, ...(to === undefined ? {} : { to: to * factor }) };
  });

/** Blocks that count as seen by the inspection above them stay below it. */
const isInspection = (block: Block) => kindOf(block) === 'inspection';

/** Blocks between two inspections, and the lines of each block, in the opposite order. */
export function inOtherOrder(tree: OrdinaryTree): OrdinaryTree {
  const [own, ...rest] = tree.blocks;
  const runs: Block[][] = [[]];
  for (const block of rest) {
    if (isInspection(block)) runs.push([block], []);
    else runs.at(-1)!.push(block);
  }
  const blocks = [own!, ...runs.flatMap(run => run.toReversed())];
  return { ...tree, blocks: blocks.map(block => ({ ...block, lines: block.lines.toReversed() })) };
}

/** Findings that say of something that nobody judged, or wrote it down. */
const SAYS_SO =
  /not-judged|unjudged|unmeasured|unseen|unstated|missing|incomplete|unknown|without|not-recorded/;

/** Findings that set two records against each other are about both of them. */
const COMPARES =
  /^(?:readings-contradict|dose-mismatch|implausible-size|growth-backwards|decay-backwards|thumb-disagrees|accept-stale)$/;

/** Whether a finding is about what was taken out, and may go with it. */
export const isAbout = (
  { rule, line, related = [] }: Finding,
  { what, gone }: Pick<Change, 'what' | 'gone'>,
): boolean =>
  COMPARES.test(rule) ||
  // How high it is decides whether the ground was near enough.
  (rule === 'ground-only' && what.startsWith('on of')) ||
  // A hollow without an opening on record counts as closed.
  (rule === 'strength-loss' && what.startsWith('opening of')) ||
  // Without one of them there is no figure of the stem that the sizes of the tree could leave open.
  (rule === 'not-judged' && /^(?:species|dbh|height|crown) of tree/.test(what)) ||
  (what === 'risk' && [line, ...related.map(one => one.line)].some(at => gone.includes(at)));

const isOf = (one: Finding, other: Finding) => one.rule === other.rule && one.subject === other.subject;

/**
 * Whether what was found is still told after a change: by the same rule, by another of its group about the same part, or
 * by a finding that has come and says that something is not judged or not on record.
 */
export const isStillTold = (
  finding: Finding,
  before: readonly Finding[],
  after: readonly Finding[],
): boolean =>
  after.some(
    one =>
      isOf(one, finding) ||
      // That a reduction falls short is told of the hollow itself where nobody can say any more what it does.
      (finding.rule === 'stress-ratio-after' && one.rule === 'strength-loss') ||
      // Of doses in one season, each alone is reported before their sum.
      (finding.rule === 'season-dose' && one.rule === 'season-dose') ||
      // How soon a wall comes down to its limit is no question where it may be there already.
      (finding.rule === 'wall-reading-late' &&
        one.rule === 'strength-loss' &&
        one.subject === finding.subject) ||
      (one.subject === finding.subject && one.level !== 'note' && groupOf(one) === groupOf(finding)) ||
      (SAYS_SO.test(one.rule) && !before.some(known => isOf(known, one))),
  ) || after.some(({ rule }) => /not-judged|unjudged/.test(rule));
