/** `soundwood check`: finds the inventories, and begins as many threads as are good for them. */

import type { GiveOptions } from './checking/give.ts';
import { handsOf } from './checking/hands.ts';
import type { Share } from './checking/part.ts';
import { planFor, sourcesOf } from './checking/sources.ts';
import type { Io } from './io.ts';

export interface CheckOptions extends GiveOptions {
  /** Day number. */
  readonly on?: number;
  /** A commit: only what is new against it counts. */
  readonly since?: string;
  /** Threads; as many as are good for it where this is left out. */
  readonly workers?: number;
  /** Only this part of the inventory, to be gathered with the others. */
  readonly part?: Share;
}

export async function check(paths: readonly string[], options: CheckOptions, io: Io): Promise<number> {
  const sources = await sourcesOf(paths, io);
  const { workers, keep } = planFor(sources, options.workers);
  const hands = handsOf(workers);
  try {
    const { checkSources } = await import('./checking/check-sources.ts');
    return await checkSources(sources, hands, keep, paths, options, io);
  } finally {
    await hands.end();
  }
}
