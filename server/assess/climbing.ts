/** Trees that must not be climbed, tied in to or rigged from. */

import { readingOf } from './fall-zone.ts';
import { type Sign, signsOf } from './signs.ts';
import type { SignContext } from './standing.ts';

export interface ClimbingBan {
  readonly sign: Sign;
  /** For the middle of a sentence. */
  readonly reason: string;
  /** Whether it applies to the whole tree; above a defect higher up the stem it does not. */
  readonly isWhole: boolean;
  /** Whether its limit is certainly exceeded. */
  readonly isSure: boolean;
}

/** Height up to which a hollow is at the base of the stem, m. */
const BASE = 2;

export const unsafeToClimb = (context: SignContext): readonly ClimbingBan[] =>
  signsOf(context)
    .filter(forbidsClimbing)
    .map(sign => {
      const { kind, name, why, part, standing, defect } = sign;
      return {
        sign,
        reason: kind === 'vigor' ? 'the tree is dead' : `${name} (${why})`,
        isSure: standing !== 'may exceed',
        isWhole:
          part !== 'stem' ||
          standing === 'moving' ||
          !(readingOf(defect?.height, context.settings).low > BASE),
      };
    });

function forbidsClimbing({ kind, part, standing }: Sign): boolean {
  if (kind === 'vigor') return true;
  if (standing === 'moving') return part === 'roots and ground' || part === 'stem';
  return (
    (standing === 'exceeds' || standing === 'may exceed') && (part === 'roots and ground' || part === 'stem')
  );
}
