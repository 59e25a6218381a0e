/** How far from the trunk a tree, or what is cut off it, comes down. */

import { add, type Interval, interval } from '../base/interval.ts';
import type { Quantity } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Placed, Prescription, StemOrLimb, Tree } from '../facts/types.ts';

/** What was written, in the inside unit; anything at all where nothing was. */
export const readingOf = (quantity: Placed<Quantity> | undefined, settings: Settings): Interval =>
  quantity ? valuesOf(quantity.value, settings) : { low: 0, high: Number.POSITIVE_INFINITY };

/** Whether somebody read it; what nobody wrote or saw is as grave as the worst that it may be. */
export const isRead = (quantity: Placed<Quantity> | undefined): boolean =>
  quantity !== undefined && quantity.value.form !== 'unseen';

/** The top of a part above ground, from its height or from where it begins and its length. */
function topOf({ height, from, length }: StemOrLimb, settings: Settings): Interval | undefined {
  if (height) return readingOf(height, settings);
  return from && length ? add(readingOf(from, settings), readingOf(length, settings)) : undefined;
}

/** Height of what is felled, in m: of the parts to remove where they are named, else of the tree. */
export function heightFelled(tree: Tree, { remove }: Prescription, settings: Settings): Interval {
  const whole = readingOf(tree.height, settings);
  if (remove.length === 0) return whole;
  const tops = remove.map(({ value }) => {
    const part = tree.parts.find(({ name }) => name.value === value);
    return (part && topOf(part, settings)) ?? whole;
  });
  return interval(Math.max(...tops.map(({ low }) => low)), Math.max(...tops.map(({ high }) => high)));
}

/** Half of the crown spread, in m. */
export function crownRadius({ crownSpread }: Tree, settings: Settings): Interval {
  const { low, high } = readingOf(crownSpread, settings);
  return interval(low / 2, high / 2);
}

/** Felled in one, or taken down in pieces: the takedown says so, or a stated piece. */
export const comesDownWhole = ({ kind, piece, takedown }: Prescription): boolean =>
  kind.value === 'fell' && (takedown ? takedown.how === 'whole' : piece === undefined);

/** Length of the longest piece, in m: as stated, up to the height where only its mass is; else the top cut off. */
function longestPiece(tree: Tree, prescription: Prescription, settings: Settings): Interval {
  const { piece, height } = prescription;
  if (piece?.length) return readingOf(piece.length, settings);
  if (piece) return interval(0, heightFelled(tree, prescription, settings).high);
  if (!height) return interval(0, 0);
  const from = readingOf(height.from, settings);
  const to = readingOf(height.to, settings);
  return interval(Math.max(0, from.low - to.high), Math.max(0, from.high - to.low));
}

/** The radius, in m, to keep clear of people: how far wood falls, times the limit where the tree falls in one. */
export function clearRadius(tree: Tree, prescription: Prescription, settings: Settings): Interval {
  const { low, high } = fallReach(tree, prescription, settings);
  const factor = comesDownWhole(prescription) ? settings.limit('exclusion-ratio').value : 1;
  // A ratio of nothing asks for nothing, however tall the tree may be.
  return factor > 0 ? interval(low * factor, high * factor) : interval(0, 0);
}

/**
 * Distance from the trunk, in m, that falling wood reaches: the height of what is felled in one; else the crown
 * radius, or the length of the longest piece where that is more.
 */
export function fallReach(tree: Tree, prescription: Prescription, settings: Settings): Interval {
  if (comesDownWhole(prescription)) return heightFelled(tree, prescription, settings);
  // Few crowns are wider than twice their height, so that stands in for a spread that nobody stated.
  const crown = tree.crownSpread
    ? crownRadius(tree, settings)
    : interval(0, readingOf(tree.height, settings).high);
  const piece = longestPiece(tree, prescription, settings);
  return interval(Math.max(crown.low, piece.low), Math.max(crown.high, piece.high));
}
