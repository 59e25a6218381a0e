/** Trees of which something could not be computed, by a mistake in the program: each by itself, so that the others are. */

import type { Tree } from '../facts/types.ts';

/** A computation that failed. */
export class Fault {
  readonly error: unknown;
  constructor(error: unknown) {
    this.error = error;
  }
  /** What the error says, in one line. */
  get reason(): string {
    return reasonIn(this.error);
  }
}

/** Longer messages repeat what went in. */
const LONGEST = 200;

/** What an error says, in one line. */
export function reasonIn(error: unknown): string {
  const text = (error instanceof Error ? error.message : String(error)).replace(/\s+/g, ' ').trim();
  return text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text || 'it says no reason';
}

/** The result, or what went wrong. */
export function attempt<T>(compute: () => T): T | Fault {
  try {
    return compute();
  } catch (error) {
    return new Fault(error);
  }
}

/** Something of a tree that could not be computed, for whoever has to know that it is missing. */
export interface NotComputed {
  /** Tag. */
  readonly tree: string;
  /** As shown to people. */
  readonly file: string;
  /** From 1. */
  readonly line: number;
  readonly fault: Fault;
}

/** A tree and where it stands. */
export interface PlacedTree {
  readonly tree: Tree;
  readonly file: string;
  readonly line: number;
}

export const notComputed = ({ tree, file, line }: PlacedTree, fault: Fault): NotComputed => ({
  tree: tree.tag.value,
  file,
  line,
  fault,
});

/** In a sentence, without the place. */
export const notComputedText = ({ tree, fault }: NotComputed): string =>
  `tree ${tree} was not computed (${fault.reason})`;

export interface Shown<R> {
  readonly shown: R;
  /** Of these nothing is shown. */
  readonly faulty: readonly NotComputed[];
}

/**
 * What is shown of all of these; where that fails, of all but those with which it fails alone. Throws where it fails
 * without them as well.
 * @param show also hears which ones are left out
 */
export async function showSound<T extends PlacedTree, R>(
  all: readonly T[],
  show: (some: readonly T[], faulty: readonly NotComputed[]) => R | Promise<R>,
): Promise<Shown<R>> {
  try {
    return { shown: await show(all, []), faulty: [] };
  } catch (error) {
    const sound: T[] = [];
    const faulty: NotComputed[] = [];
    for (const one of all) {
      try {
        await show([one], []);
        sound.push(one);
      } catch (own) {
        faulty.push(notComputed(one, new Fault(own)));
      }
    }
    if (faulty.length === 0) throw error;
    return { shown: await show(sound, faulty), faulty };
  }
}
