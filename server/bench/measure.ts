/** How the benchmarks measure. */

import { spawnSync } from 'node:child_process';
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

/** Another Node to measure in the same run, as `--node PATH` names it. */
export interface OtherNode {
  readonly path: string;
  /** Such as `Node 24.21.0`. */
  readonly name: string;
}

export function otherNodes(args: readonly string[]): readonly OtherNode[] {
  return args.flatMap((path, i) => {
    if (args[i - 1] !== '--node') return [];
    const { status, stdout } = spawnSync(path, ['--version'], { encoding: 'utf8' });
    if (status !== 0) throw new Error(`--node ${path}: this is no program of Node`);
    return [{ path, name: `Node ${stdout.trim().slice(1)}` }];
  });
}
