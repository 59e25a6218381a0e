/** How the benchmarks measure. */

import { type SpawnSyncReturns, spawnSync } from 'node:child_process';
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

/** Another Node to measure in the same run. */
export interface OtherNode {
  readonly path: string;
  /** Such as `Node 24.21.0`. */
  readonly name: string;
}

/** @throws Error where there is none at that path */
export function otherNode(path: string): OtherNode {
  const { status, stdout } = spawnSync(path, ['--version'], { encoding: 'utf8' });
  if (status !== 0) throw new Error(`--node ${path}: this is no program of Node`);
  return { path, name: `Node ${stdout.trim().slice(1)}` };
}

/** What a program has used: CPU, user and system, in ms; memory at its peak, in MB. */
export interface Used {
  readonly cpu: number;
  readonly memory: number;
}

/** Arguments of Node with which a program says at its end what it has used. */
export const ACCOUNTED = [
  '--import',
  `data:text/javascript,${encodeURIComponent(
    "import { isMainThread } from 'node:worker_threads'; if (isMainThread) process.on('exit', () => { const u = process.resourceUsage(); process.stderr.write('\\n' + (u.userCPUTime + u.systemCPUTime) / 1000 + ' ' + u.maxRSS / 1024) })",
  )}`,
] as const;

/** @throws Error where the program ended before it could say so */
export function usedBy({ status, stderr }: SpawnSyncReturns<string>): Used {
  const [cpu, memory] = stderr.trimEnd().split('\n').at(-1)!.split(' ').map(Number);
  if (status !== 0 || cpu === undefined || memory === undefined)
    throw new Error(`ended with ${status}: ${stderr}`);
  return { cpu, memory };
}
