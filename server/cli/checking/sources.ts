/** Which files a check is about, and how many threads are good for them: known before anything else is loaded. */

import { statSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { findFiles, type Problem, surroundings } from '../files.ts';
import type { Io } from '../io.ts';
import { isStandardInput } from '../standard-input.ts';
import { canShare } from './hands.ts';

/** What is to be surveyed. */
export interface Sources {
  /** Absolute paths of the files asked for. */
  readonly paths: readonly string[];
  /** Of those that only apply to them. */
  readonly around: readonly string[];
  /** Of those: in folders above, where no repository says how far up an inventory reaches. */
  readonly unbounded: readonly string[];
  readonly root: string;
  readonly problems: readonly Problem[];
}

export async function sourcesOf(paths: readonly string[], io: Io): Promise<Sources> {
  const found = await findFiles(paths, io.cwd);
  const { root, paths: applying, unbounded } = await surroundings(found.paths, io.cwd);
  return { paths: found.paths, around: applying, unbounded, root, problems: found.problems };
}

/**
 * With less than this many bytes for each, two workers are no faster than one: every thread loads the program and has it
 * optimized anew, which costs it about a second. Of 25 MB two take a tenth less time on a busy machine, as much on one
 * that has rested, and a quarter more CPU; of 250 MB a third less time (npm run bench).
 */
const BYTES_PER_WORKER = 10 * 1024 * 1024;

/** Texts of fewer bytes in all are kept from one reading to the next. */
const BYTES_KEPT = 2 * 1024 * 1024;

export interface Plan {
  readonly workers: number;
  /** Whether the texts are kept from the survey, since all of them together are small. */
  readonly keep: boolean;
}

/** @param workers as asked for; else as many as the machine has cores and the inventory has work for */
export function planFor(sources: Sources, workers: number | undefined): Plan {
  // Standard input is read once, by this thread.
  const alone = sources.paths.some(isStandardInput) ? 1 : workers;
  const most = alone ?? (canShare() ? availableParallelism() : 1);
  const enough = BYTES_PER_WORKER * Math.max(most, 1);
  let bytes = 0;
  for (const path of sources.paths) {
    if (bytes >= enough) break;
    bytes += statSync(path, { throwIfNoEntry: false })?.size ?? 0;
  }
  return {
    workers: alone ?? Math.max(1, Math.min(most, Math.floor(bytes / BYTES_PER_WORKER))),
    keep: bytes < BYTES_KEPT,
  };
}
