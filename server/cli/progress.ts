/** A progress bar on standard error, for a person who would otherwise wonder. */

import type { Io } from './io.ts';

export interface Progress {
  /** So much more is done; 1 where it does not say. */
  readonly step: (done?: number) => void;
  readonly end: () => void;
}

const NONE: Progress = { step: () => {}, end: () => {} };

/** Below this many files the work is done before a bar could be read. */
const LONG = 200;

/**
 * @param whole number of files, or of whatever is counted
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
