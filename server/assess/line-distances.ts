/**
 * How near which people, machines and pieces of wood may come to an electric line by the rows of the place, and how
 * near they may get in the work. Both are intervals: what nobody stated ranges over everything possible.
 */

import { add, type Interval, interval, isLess, multiply } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import type { Settings } from '../facts/settings.ts';
import type { Conductor, Prescription, Site, Tree } from '../facts/types.ts';
import { approachDistance } from '../practice/electricity.ts';
import type { ApproachRule, Force, LawRow, LineClass } from '../practice/law/law-row.ts';
import { cited, FORCES, ofKind, type RowOf } from '../practice/law/laws-of.ts';
import { heightFelled, readingOf } from './fall-zone.ts';

/** A table of distances and what it rests on, as a finding cites it. */
export interface Distances {
  readonly rule: ApproachRule;
  readonly force: Force;
  readonly source: string;
}

const distancesOf = (row: RowOf<'approach'>): Distances => ({
  rule: row.rule,
  force: row.force,
  source: cited(row),
});

const allDistances = memo((rows: readonly LawRow[]): readonly Distances[] =>
  ofKind(rows, 'approach').map(distancesOf),
);

/** The rows that ask for a second worker. */
export const secondWorkerRows = memo((rows: readonly LawRow[]): readonly RowOf<'second worker'>[] =>
  ofKind(rows, 'second worker'),
);

/** The distances of people without a qualification: of the place, else of the office, else a stand-in. */
export function everybodys({ approach, region }: Settings): Distances {
  if (approach.from === 'practice')
    return { rule: approach.value, force: 'custom', source: `${approach.citation.short}, ${FORCES.custom}` };
  return distancesOf(region.approach.row as RowOf<'approach'>);
}

/** The distances for people of some class; none where the place has none for it. */
export const distancesFor = (
  { region }: Settings,
  classes: readonly (LineClass | 'machine')[],
): readonly Distances[] => allDistances(region.rows).filter(({ rule }) => classes.includes(rule.who));

/** Between two phases of a three-phase line the voltage is this many times that to ground. */
const PHASES = Math.sqrt(3);

/** The voltage as a table counts it. Where nobody said between what it is, the higher reading is possible. */
function voltsOf({ voltage, reference }: Conductor, rule: ApproachRule, settings: Settings): Interval {
  const { low, high } = readingOf(voltage, settings);
  if (reference?.value === rule.reference) return { low, high };
  if (rule.reference === 'to ground')
    return reference ? interval(low / PHASES, high / PHASES) : { low, high };
  return interval(reference ? low * PHASES : low, high * PHASES);
}

/** The distance by a table over a range of voltages; of an unknown voltage up to the greatest of the table. */
function inTable(volts: Interval, rule: ApproachRule, settings: Settings): Interval {
  const low = approachDistance(volts.low, rule);
  if (volts.high < Number.POSITIVE_INFINITY) return interval(low, approachDistance(volts.high, rule));
  const highest = rule.beyond
    ? approachDistance(Math.max(settings.limit('line-voltage').value, volts.low), rule)
    : rule.steps.at(-1)![1];
  return interval(low, Math.max(low, rule.unknown ?? highest));
}

/** How much longer distances are in thin air; up to the greatest factor at an altitude that nobody stated. */
function altitudeFactor({ altitude: factors }: ApproachRule, site: Site | undefined, settings: Settings) {
  if (!factors) return interval(1, 1);
  const { low, high } = readingOf(site?.altitude, settings);
  const at = (metres: number) => (factors.find(([upTo]) => metres <= upTo) ?? factors.at(-1)!)[1];
  return interval(at(low), at(high));
}

/** The distance that a row demands, m. */
export function requiredBy(
  { rule }: Distances,
  conductor: Conductor,
  settings: Settings,
  site?: Site | undefined,
): Interval {
  const volts = voltsOf(conductor, rule, settings);
  const toOne = inTable(volts, rule, settings);
  const { betweenPhases } = rule;
  const { phases } = conductor;
  if (!betweenPhases || phases?.value === 'one') return multiply(toOne, altitudeFactor(rule, site, settings));
  const toSeveral = inTable(volts, { ...rule, steps: betweenPhases }, settings);
  return multiply(
    interval(phases ? toSeveral.low : toOne.low, toSeveral.high),
    altitudeFactor(rule, site, settings),
  );
}

/** What the owner of the line allows in writing, m. */
export const agreedDistance = ({ agreed }: Conductor, settings: Settings): Interval | undefined =>
  agreed && readingOf(agreed.distance, settings);

/**
 * Level distance of the work from a line above which everything is too near. If it is not stated, the stated distance
 * may lead more or less upward: as far as the tree rises above the line, or the line above the ground.
 */
function levelDistance(
  { distance, aside, height }: Conductor,
  tree: Tree,
  { below }: ApproachRule,
  keep: number,
  settings: Settings,
): Interval {
  const line = readingOf(height, settings);
  const top = readingOf(tree.height, settings).high;
  if (!below && isLess(top, line.low - keep))
    return interval(Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY);
  if (aside) return readingOf(aside, settings);
  const { low, high } = readingOf(distance, settings);
  const upright = Math.max(top - line.low, below ? line.high : keep);
  return interval(low > upright ? Math.sqrt(low ** 2 - upright ** 2) : 0, high);
}

/** Length of what is cut off; up to the height for a felling in pieces of a length that nobody stated. */
function pieceLength(tree: Tree, prescription: Prescription | undefined, settings: Settings): Interval {
  const { piece, kind } = prescription ?? {};
  if (piece?.length) return readingOf(piece.length, settings);
  return piece && (kind?.value === 'fell' || kind?.value === 'monolith')
    ? interval(0, heightFelled(tree, prescription!, settings).high)
    : interval(0, 0);
}

/** How near the work may come, m: a piece swings as far as it is long, and counts in full where the law says so. */
export function workDistance(
  conductor: Conductor,
  tree: Tree,
  prescription: Prescription | undefined,
  { rule }: Distances,
  keep: number,
  settings: Settings,
): Interval {
  const stated =
    rule.shape === 'column'
      ? levelDistance(conductor, tree, rule, keep, settings)
      : readingOf(conductor.distance, settings);
  const piece = pieceLength(tree, prescription, settings);
  if (stated.low === Number.POSITIVE_INFINITY) return stated;
  return add(stated, interval(-piece.high, rule.tree && Number.isFinite(stated.high) ? -piece.low : 0));
}

/** Compares two distances. */
export function compared(stated: Interval, required: Interval): 'exceeds' | 'may exceed' | 'within' {
  if (isLess(stated.high, required.low)) return 'exceeds';
  return isLess(stated.low, required.high) ? 'may exceed' : 'within';
}
