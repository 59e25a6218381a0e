/** Finds the nearest word of a list, for suggestions in messages. */

import { distance } from 'fastest-levenshtein';
import { memo } from '../server/base/memo.ts';

/** Maximum edit distance: a third of the word, but at least two for words that are long enough. */
const allowed = (word: string) => (word.length <= 2 ? 1 : Math.max(2, Math.floor(word.length / 3)));

/** A word in lower case, with a bit set of its letters (some letters share a bit). */
interface Folded {
  readonly text: string;
  readonly letters: number;
}

function fold(word: string): Folded {
  const text = word.toLowerCase();
  let letters = 0;
  for (let i = 0; i < text.length; i++) letters |= 1 << (text.charCodeAt(i) & 31);
  return { text, letters };
}

/** Memoized for the lists of the tables, which are searched again and again. */
const foldAll = memo((words: readonly string[]): readonly Folded[] => words.map(fold));

/** Lower bound of the distance of two words: each letter that only one of them has costs an edit, and so does each extra letter. */
function leastApart(a: Folded, b: Folded): number {
  const lengths = Math.abs(a.text.length - b.text.length);
  return Math.max(lengths, bits(a.letters & ~b.letters), bits(b.letters & ~a.letters));
}

function bits(set: number): number {
  let count = 0;
  for (let left = set; left !== 0; left &= left - 1) count++;
  return count;
}

/** All candidates near enough, with their distances. */
export function near(word: string, candidates: readonly string[]): { candidate: string; apart: number }[] {
  const own = fold(word);
  const most = allowed(word);
  const found: { candidate: string; apart: number }[] = [];
  foldAll(candidates).forEach((other, i) => {
    if (leastApart(own, other) > most) return;
    const candidate = candidates[i]!;
    const apart = distance(own.text, other.text);
    if (apart <= most && apart < Math.max(word.length, candidate.length)) found.push({ candidate, apart });
  });
  return found;
}

export function nearest(word: string, candidates: readonly string[]): string | undefined {
  let best: string | undefined;
  let bestDistance = allowed(word) + 1;
  const own = fold(word);
  const others = foldAll(candidates);
  for (let i = 0; i < candidates.length; i++) {
    const candidate = candidates[i]!;
    if (Math.abs(candidate.length - word.length) >= bestDistance) continue;
    if (leastApart(own, others[i]!) >= bestDistance) continue;
    const apart = distance(own.text, others[i]!.text);
    // A word that shares nothing with the candidate is not a misspelling of it.
    if (apart < bestDistance && apart < Math.max(word.length, candidate.length)) {
      best = candidate;
      bestDistance = apart;
    }
  }
  return best;
}

/** In shorter words, one different letter makes another word. */
const SHORTEST_SLIP = 4;

/** Whether two words differ only in case, or by one wrong, missing, extra or swapped letter. */
export function isSlip(word: string, meant: string): boolean {
  const [written, right] = [word.toLowerCase(), meant.toLowerCase()];
  if (written === right) return true;
  if (Math.min(written.length, right.length) < SHORTEST_SLIP) return false;
  const letters = (text: string) => [...text].sort().join('');
  const apart = distance(written, right);
  return apart === 1 || (apart === 2 && letters(written) === letters(right));
}

/** The candidate that a word differs from by a slip. */
export const slipOf = (word: string, candidates: readonly string[]): string | undefined =>
  candidates.find(candidate => isSlip(word, candidate));
