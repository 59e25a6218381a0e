/** The nearest word of a list, for messages that say what was probably meant. */

import { distance } from 'fastest-levenshtein';

/** Letters that may differ: a third of the word, but at least two for words that can bear it. */
const allowed = (word: string) => (word.length <= 2 ? 1 : Math.max(2, Math.floor(word.length / 3)));

/** All candidates near enough to be meant, with how far they are. */
export function near(word: string, candidates: readonly string[]): { candidate: string; apart: number }[] {
  const folded = word.toLowerCase();
  return candidates
    .map(candidate => ({ candidate, apart: distance(folded, candidate.toLowerCase()) }))
    .filter(
      ({ candidate, apart }) => apart <= allowed(word) && apart < Math.max(word.length, candidate.length),
    );
}

export function nearest(word: string, candidates: readonly string[]): string | undefined {
  let best: string | undefined;
  let bestDistance = allowed(word) + 1;
  const folded = word.toLowerCase();
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - word.length) >= bestDistance) continue;
    const apart = distance(folded, candidate.toLowerCase());
    // A word that shares nothing with the candidate is no misspelling of it.
    if (apart < bestDistance && apart < Math.max(word.length, candidate.length)) {
      best = candidate;
      bestDistance = apart;
    }
  }
  return best;
}
