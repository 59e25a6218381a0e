/** A prescription as what it makes of the crown. */

import { exact, type Interval } from '../base/interval.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Prescription, Tree } from '../facts/types.ts';
import type { Crown } from '../mechanics/crown.ts';
import type { CrownChange } from '../mechanics/reduction.ts';

/** Heights above ground and spreads, m. */
export interface CrownReduction {
  readonly crown: Crown<Interval>;
  readonly change: CrownChange<Interval>;
}

/**
 * The crown before, with what a prescription changes of it; what it says of the crown before goes over what the
 * tree says. Undefined where nothing is changed, where base or top of the crown is not written down, and where
 * the readings leave no crown or add to it.
 */
export function crownReduction(
  tree: Tree,
  { height, spread, base }: Prescription,
  settings: Settings,
): CrownReduction | undefined {
  if (!height && !spread && !base) return undefined;
  const before = {
    base: base?.from ?? tree.crownBase,
    top: height?.from ?? tree.height,
    spread: spread?.from ?? tree.crownSpread,
  };
  if (!before.base || !before.top) return undefined;
  const top = valuesOf(before.top.value, settings);
  const crown = {
    base: upTo(valuesOf(before.base.value, settings), top.high),
    top,
    // A spread that nobody wrote down is one that nobody changes, and has no part in any ratio.
    spread: before.spread ? valuesOf(before.spread.value, settings) : exact(1),
  };
  const change = {
    ...(base ? { base: upTo(valuesOf(base.to.value, settings), top.high) } : {}),
    ...(height ? { top: valuesOf(height.to.value, settings) } : {}),
    ...(spread ? { spread: valuesOf(spread.to.value, settings) } : {}),
  };
  const shrinks =
    (change.top?.low ?? 0) <= crown.top.high &&
    (change.base?.high ?? Number.POSITIVE_INFINITY) >= crown.base.low &&
    (change.spread?.low ?? 0) <= crown.spread.high;
  const ends = Number.isFinite(crown.top.high) && Number.isFinite(crown.spread.high);
  if (!shrinks || !ends || !(crown.spread.low > 0)) return undefined;
  const after = {
    ...change,
    ...(change.top ? { top: upTo(change.top, crown.top.high) } : {}),
    ...(change.spread ? { spread: upTo(change.spread, crown.spread.high) } : {}),
  };
  return ifCrownsStand({ crown, change: after });
}

/** Undefined where what there was, or what is left of it, is no crown at any reading. */
function ifCrownsStand(reduction: CrownReduction): CrownReduction | undefined {
  const { crown, change } = reduction;
  const { base = crown.base, top = crown.top, spread = crown.spread } = change;
  const stands = crown.base.low < crown.top.high && base.low < top.high && spread.low > 0;
  return stands ? reduction : undefined;
}

/**
 * What several prescriptions make of the crown once all are done: the lowest top, the highest base and the least
 * spread, from the greatest crown that any of them begins with. Undefined where one of them, or all together, leave
 * no crown.
 */
export function jointReduction(
  tree: Tree,
  prescriptions: readonly Prescription[],
  settings: Settings,
): CrownReduction | undefined {
  const all = prescriptions.map(prescription => crownReduction(tree, prescription, settings));
  return all.reduce((one, other) => one && other && ifCrownsStand(both(one, other)));
}

function both(one: CrownReduction, other: CrownReduction): CrownReduction {
  const least = (a: Interval | undefined, b: Interval | undefined) =>
    a && b ? { low: Math.min(a.low, b.low), high: Math.min(a.high, b.high) } : (a ?? b);
  const greatest = (a: Interval | undefined, b: Interval | undefined) =>
    a && b ? { low: Math.max(a.low, b.low), high: Math.max(a.high, b.high) } : (a ?? b);
  const [a, b] = [one.change, other.change];
  const change = {
    base: greatest(a.base, b.base),
    top: least(a.top, b.top),
    spread: least(a.spread, b.spread),
  };
  return {
    crown: {
      base: least(one.crown.base, other.crown.base)!,
      top: greatest(one.crown.top, other.crown.top)!,
      spread: greatest(one.crown.spread, other.crown.spread)!,
    },
    change: {
      ...(change.base ? { base: change.base } : {}),
      ...(change.top ? { top: change.top } : {}),
      ...(change.spread ? { spread: change.spread } : {}),
    },
  };
}

/** A reading without an end ends where a reduction does: it adds nothing. */
const upTo = ({ low, high }: Interval, most: number): Interval => ({
  low: Math.min(low, most),
  high: Math.min(high, most),
});
