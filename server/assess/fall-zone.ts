/** Distances from the trunk within which a felled tree, or pieces of it, may fall. */

import { add, type Interval, interval } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import type { Quantity } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Placed, Prescription, StemOrLimb, Tree } from '../facts/types.ts';
import type { LawRow } from '../practice/law/law-row.ts';
import { ofKind, type RowOf } from '../practice/law/laws-of.ts';

/** In the internal unit; unbounded if not stated. */
export const readingOf = (quantity: Placed<Quantity> | undefined, settings: Settings): Interval =>
  quantity ? valuesOf(quantity.value, settings) : { low: 0, high: Number.POSITIVE_INFINITY };

/** Whether it was read. If not, the worst case applies. */
export const isRead = (quantity: Placed<Quantity> | undefined): boolean =>
  quantity !== undefined && quantity.value.form !== 'unseen';

/** Height of the top of a part, from its own height, or its start and length. */
function topOf({ height, from, length }: StemOrLimb, settings: Settings): Interval | undefined {
  if (height) return readingOf(height, settings);
  return from && length ? add(readingOf(from, settings), readingOf(length, settings)) : undefined;
}

/** Height of the parts to remove, else of the tree, m. */
export function heightFelled(tree: Tree, { remove }: Prescription, settings: Settings): Interval {
  const whole = readingOf(tree.height, settings);
  if (remove.length === 0) return whole;
  const tops = remove.map(({ value }) => {
    const part = tree.parts.find(({ name }) => name.value === value);
    return (part && topOf(part, settings)) ?? whole;
  });
  return interval(Math.max(...tops.map(({ low }) => low)), Math.max(...tops.map(({ high }) => high)));
}

/** m. */
export function crownRadius({ crownSpread }: Tree, settings: Settings): Interval {
  const { low, high } = readingOf(crownSpread, settings);
  return interval(low / 2, high / 2);
}

/** Guidance on how far beyond the landing zone of pieces others stay. */
export const dropZoneRow = memo((rows: readonly LawRow[]): RowOf<'drop zone'> | undefined =>
  ofKind(rows, 'drop zone').at(-1),
);

/** Felled in one, not taken down in pieces by a stated takedown or piece. */
export const comesDownWhole = ({ kind, piece, takedown }: Prescription): boolean =>
  kind.value === 'fell' && (takedown ? takedown.how === 'whole' : piece === undefined);

/**
 * Length of the longest piece, m: as stated; up to the height if only its mass is, or if a trunk comes down in pieces
 * that nobody described; else the length of the top cut off.
 */
function longestPiece(tree: Tree, prescription: Prescription, settings: Settings): Interval {
  const { piece, height, kind } = prescription;
  if (piece?.length) return readingOf(piece.length, settings);
  if (piece || kind.value === 'fell' || (kind.value === 'monolith' && !height))
    return interval(0, heightFelled(tree, prescription, settings).high);
  if (!height) return interval(0, 0);
  const from = readingOf(height.from, settings);
  const to = readingOf(height.to, settings);
  return interval(Math.max(0, from.low - to.high), Math.max(0, from.high - to.low));
}

/** Radius that everybody but the feller leaves, m: reach of falling wood, times the limit if the tree is felled in one. */
export function clearRadius(tree: Tree, prescription: Prescription, settings: Settings): Interval {
  const { low, high } = fallReach(tree, prescription, settings);
  const factor = comesDownWhole(prescription) ? settings.limit('exclusion-ratio').value : 1;
  // A ratio of zero needs no zone, even for an unbounded height.
  return factor > 0 ? interval(low * factor, high * factor) : interval(0, 0);
}

/**
 * Reach of falling wood from the trunk, m: the height of what is felled in one; otherwise the crown radius or the
 * length of the longest piece, whichever is greater.
 */
export function fallReach(tree: Tree, prescription: Prescription, settings: Settings): Interval {
  if (comesDownWhole(prescription)) return heightFelled(tree, prescription, settings);
  // Few crowns are wider than twice their height, the substitute for an unknown spread.
  const crown = tree.crownSpread
    ? crownRadius(tree, settings)
    : interval(0, readingOf(tree.height, settings).high);
  const piece = longestPiece(tree, prescription, settings);
  return interval(Math.max(crown.low, piece.low), Math.max(crown.high, piece.high));
}
