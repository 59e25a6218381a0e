/** Crown reductions by prescriptions. */

import { exact, type Interval } from '../base/interval.ts';
import type { Quantity } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Placed, Prescription, Tree } from '../facts/types.ts';
import type { Crown } from '../mechanics/crown.ts';
import type { CrownChange } from '../mechanics/reduction.ts';

/** Heights above ground and spreads, m. */
export interface CrownReduction {
  readonly crown: Crown<Interval>;
  readonly change: CrownChange<Interval>;
}

/**
 * The crown before a prescription, and its change. Dimensions before that the prescription states override those of the
 * tree. Undefined if nothing changes, base or top of the crown is unknown, or the readings leave no crown or add to it.
 */
export function crownReduction(
  tree: Tree,
  { height, spread, base }: Prescription,
  settings: Settings,
): CrownReduction | undefined {
  if (!height && !spread && !base) return undefined;
  const valuesOfPlaced = (quantity: Placed<Quantity> | undefined) =>
    quantity && valuesOf(quantity.value, settings);
  const crownBase = valuesOfPlaced(base?.from ?? tree.crownBase);
  const top = valuesOfPlaced(height?.from ?? tree.height);
  if (!crownBase || !top) return undefined;
  const crown = {
    base: upTo(crownBase, top.high),
    top,
    // An unknown spread is not changed either, so it cancels out of every ratio.
    spread: valuesOfPlaced(spread?.from ?? tree.crownSpread) ?? exact(1),
  };
  const newBase = valuesOfPlaced(base?.to);
  const newTop = valuesOfPlaced(height?.to);
  const newSpread = valuesOfPlaced(spread?.to);
  const isPossible =
    isNoAddition(newTop, crown.top) &&
    isNoAddition(newSpread, crown.spread) &&
    (!newBase || newBase.high >= crown.base.low) &&
    Number.isFinite(crown.top.high) &&
    Number.isFinite(crown.spread.high) &&
    crown.spread.low > 0;
  if (!isPossible) return undefined;
  return ifCrownsPossible({
    crown,
    change: {
      base: newBase && upTo(newBase, crown.top.high),
      top: newTop && upTo(newTop, crown.top.high),
      spread: newSpread && upTo(newSpread, crown.spread.high),
    },
  });
}

const isNoAddition = (after: Interval | undefined, before: Interval): boolean =>
  !after || after.low <= before.high;

/** Undefined if no readings allow a crown before, or after. */
function ifCrownsPossible(reduction: CrownReduction): CrownReduction | undefined {
  const { crown, change } = reduction;
  const { base = crown.base, top = crown.top, spread = crown.spread } = change;
  const isPossible = crown.base.low < crown.top.high && base.low < top.high && spread.low > 0;
  return isPossible ? reduction : undefined;
}

/**
 * The combined effect of several prescriptions: the lowest top, the highest base and the least spread, from the largest
 * crown that any of them starts with. Undefined if one of them, or all together, leave no crown.
 */
export function jointReduction(
  tree: Tree,
  prescriptions: readonly Prescription[],
  settings: Settings,
): CrownReduction | undefined {
  const all = prescriptions.map(prescription => crownReduction(tree, prescription, settings));
  return all.reduce((one, other) => one && other && ifCrownsPossible(combined(one, other)));
}

function combined(one: CrownReduction, other: CrownReduction): CrownReduction {
  const least = (a: Interval | undefined, b: Interval | undefined) =>
    a && b ? { low: Math.min(a.low, b.low), high: Math.min(a.high, b.high) } : (a ?? b);
  const greatest = (a: Interval | undefined, b: Interval | undefined) =>
    a && b ? { low: Math.max(a.low, b.low), high: Math.max(a.high, b.high) } : (a ?? b);
  const [a, b] = [one.change, other.change];
  return {
    crown: {
      base: least(one.crown.base, other.crown.base)!,
      top: greatest(one.crown.top, other.crown.top)!,
      spread: greatest(one.crown.spread, other.crown.spread)!,
    },
    change: {
      base: greatest(a.base, b.base),
      top: least(a.top, b.top),
      spread: least(a.spread, b.spread),
    },
  };
}

/** Clips both ends. */
const upTo = ({ low, high }: Interval, most: number): Interval => ({
  low: Math.min(low, most),
  high: Math.min(high, most),
});
