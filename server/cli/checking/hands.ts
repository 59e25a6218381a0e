/** Who does the jobs: this thread, or several of them. The results are the same, and come in the same order. */

import { existsSync } from 'node:fs';
import { setImmediate as nextTurn } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { UserError } from '../../base/user-error.ts';
import type { Answered, Job, JobOf } from './jobs.ts';

export interface Hands {
  /** How many jobs are begun before the first of them has to be done. */
  readonly ahead: number;
  /** Does one job, whichever hand is free. */
  readonly survey: (job: JobOf<'survey'>) => Promise<Answered<'survey'>>;
  readonly judge: (job: JobOf<'judge'>) => Promise<Answered<'judge'>>;
  /** Tells every hand what holds for the pieces that it is to judge. */
  readonly tell: (job: JobOf<'ground'>) => Promise<void>;
  readonly end: () => Promise<void>;
}

/** This thread is one of them: it has the findings to show as well, and takes a job when it comes to it. */
export function handsOf(count: number): Hands {
  if (count > 1 && !canShare())
    throw new UserError('several workers need the built program (npm run build).');
  const hands = [ownHand(), ...Array.from({ length: count - 1 }, thread)];
  const idlest = () => hands.reduce((least, hand) => (hand.waiting() < least.waiting() ? hand : least));
  return {
    // One that is done, one that waits for its turn: no hand stands idle while an earlier one is slow.
    ahead: count * 3,
    survey: async job => (await idlest().ask(job)) as Answered<'survey'>,
    judge: async job => (await idlest().ask(job)) as Answered<'judge'>,
    tell: async job => void (await Promise.all(hands.map(hand => hand.ask(job)))),
    end: async () => void (await Promise.all(hands.map(hand => hand.end()))),
  };
}

/** What a thread is asked and what it answers. */
export interface Question {
  readonly id: number;
  readonly job: Job;
}
export type Answer =
  | { readonly id: number; readonly result: Answered<Job['kind']> }
  /** `plain`: a message for the user. */
  | { readonly id: number; readonly error: Error; readonly plain: boolean };

interface Waiting {
  readonly resolve: (result: Answered<Job['kind']>) => void;
  readonly reject: (error: Error) => void;
}

/** Beside this very file when it is bundled. */
const THREAD = new URL('./check-thread.js', import.meta.url);

/** Whether there can be several hands: not where the sources run without having been bundled. */
export const canShare = (): boolean => existsSync(fileURLToPath(THREAD));

interface Hand {
  readonly ask: (job: Job) => Promise<Answered<Job['kind']>>;
  readonly waiting: () => number;
  readonly end: () => Promise<unknown>;
}

function ownHand(): Hand {
  // What does the work is loaded while the other threads load it.
  const loading = import('./jobs.ts').then(({ worker }) => worker());
  let waiting = 0;
  let last: Promise<unknown> = Promise.resolve();
  return {
    ask: job => {
      waiting++;
      // Between two jobs the other threads are heard and given more to do.
      const done = last.then(() => nextTurn()).then(async () => (await loading)(job));
      last = done.catch(() => {}).finally(() => waiting--);
      return done;
    },
    waiting: () => waiting,
    end: async () => {},
  };
}

function thread(): Hand {
  // Most checks start no thread; loading this costs a start several milliseconds.
  const { Worker } = process.getBuiltinModule('node:worker_threads');
  const own = new Worker(THREAD, { resourceLimits: { maxYoungGenerationSizeMb: 48 } });
  const waiting = new Map<number, Waiting>();
  let asked = 0;
  const failed = (error: Error) => {
    for (const { reject } of waiting.values()) reject(error);
    waiting.clear();
  };
  own.on('error', failed);
  own.on('exit', code => failed(new Error(`a worker ended with ${code} in the middle of its work`)));
  own.on('message', (answer: Answer) => {
    const { resolve, reject } = waiting.get(answer.id)!;
    waiting.delete(answer.id);
    if ('result' in answer) resolve(answer.result);
    else reject(answer.plain ? new UserError(answer.error.message) : answer.error);
  });
  return {
    ask: job =>
      new Promise((resolve, reject) => {
        const id = asked++;
        waiting.set(id, { resolve, reject });
        own.postMessage({ id, job } satisfies Question);
      }),
    waiting: () => waiting.size,
    end: () => own.terminate(),
  };
}

/** Begins jobs, no more than so many ahead of the first that is not done, and takes each result in the order of the jobs. */
export async function inOrder<Asked, Given>(
  ahead: number,
  jobs: Iterable<Asked>,
  begin: (job: Asked) => Promise<Given>,
  take: (result: Given, job: Asked) => void | Promise<void>,
): Promise<void> {
  const begun: { readonly job: Asked; readonly result: Promise<Given> }[] = [];
  const takeFirst = async () => {
    const { job, result } = begun.shift()!;
    await take(await result, job);
  };
  for (const job of jobs) {
    const result = begin(job);
    // It is looked at in its turn; until then a failure is nobody's.
    result.catch(() => {});
    begun.push({ job, result });
    if (begun.length >= ahead) await takeFirst();
  }
  while (begun.length > 0) await takeFirst();
}
