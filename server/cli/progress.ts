/** A progress bar on standard error. */

import type { Io } from './io.ts';

export interface Progress {
  /** Adds `done` to the progress, 1 by default. */
  readonly step: (done?: number) => void;
  readonly end: () => void;
}

const NONE: Progress = { step: () => {}, end: () => {} };

/** Fewer files than this need no progress bar. */
const LONG = 200;

/**
 * @param whole total, of files by default
 * @param doing what is done with each file: `reading`
 */
export async function progressOf(io: Io, whole: number, doing: string, long = LONG): Promise<Progress> {
  if (!io.progress || whole < long) return NONE;
  const { default: progress } = await import('cli-progress');
  const bar = new progress.SingleBar(
    {
      format: `${doing} {bar} {percentage} %, {eta_formatted} left`,
      clearOnComplete: true,
      hideCursor: true,
    },
    progress.Presets.shades_classic,
  );
  bar.start(whole, 0);
  return { step: done => bar.increment(done), end: () => bar.stop() };
}
