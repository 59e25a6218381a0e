/** Trees that nobody may climb, tie in to or rig from. */

import { type Sign, type SignContext, signsOf } from './signs.ts';

/** Why, each for the middle of a sentence; none where nothing that is recorded speaks against climbing. */
export const unsafeToClimb = (context: SignContext): readonly string[] =>
  signsOf(context)
    .filter(forbidsClimbing)
    .map(({ kind, name, why }) => (kind === 'vigor' ? 'the tree is dead' : `${name} (${why})`));

function forbidsClimbing({ kind, part, standing }: Sign): boolean {
  if (kind === 'vigor') return true;
  if (standing === 'moving') return part === 'roots and ground' || part === 'stem';
  return standing === 'exceeds' && (part === 'roots and ground' || part === 'stem');
}
