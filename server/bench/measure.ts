/** How the benchmarks measure. */

import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

export const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[values.length >> 1]!;

/** Bytes of the heap that are in use after a collection. */
export function heapInUse(): number {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  collect();
  collect();
  return process.memoryUsage().heapUsed;
}

/** Milliseconds of CPU, user and system, that a piece of work takes. */
export function cpu(work: () => void): number {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}
