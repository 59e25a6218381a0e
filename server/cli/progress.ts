/** A progress bar on standard error, for a person who would otherwise wonder. */

import type { Io } from './io.ts';

export interface Progress {
  readonly step: () => void;
  readonly end: () => void;
}

const NONE: Progress = { step: () => {}, end: () => {} };

/** Below this many files the work is done before a bar could be read. */
const LONG = 200;

/** @param doing what is done with each file: `reading` */
export async function progressOf(io: Io, files: number, doing: string): Promise<Progress> {
  if (!io.progress || files < LONG) return NONE;
  const { default: progress } = await import('cli-progress');
  const bar = new progress.SingleBar(
    {
      format: `${doing} {bar} {percentage} %, {eta_formatted} left`,
      clearOnComplete: true,
      hideCursor: true,
    },
    progress.Presets.shades_classic,
  );
  bar.start(files, 0);
  return { step: () => bar.increment(), end: () => bar.stop() };
}
