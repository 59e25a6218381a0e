/** A progress bar on standard error, for a person who would otherwise wonder. */

import type { Io } from './io.ts';

export interface Progress {
  readonly step: () => void;
  readonly end: () => void;
}

/** Below this many steps the work is done before a bar could be read. */
const LONG = 400;

export async function progressOf(io: Io, steps: number): Promise<Progress> {
  if (!io.progress || steps < LONG) return { step: () => {}, end: () => {} };
  const { default: progress } = await import('cli-progress');
  const bar = new progress.SingleBar(
    { format: '{bar} {percentage} %  {eta_formatted} left', clearOnComplete: true, hideCursor: true },
    progress.Presets.shades_classic,
  );
  bar.start(steps, 0);
  return { step: () => bar.increment(), end: () => bar.stop() };
}
