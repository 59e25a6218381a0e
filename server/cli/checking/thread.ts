/** A thread that does the jobs it is asked. */

import { parentPort } from 'node:worker_threads';
import { UserError } from '../../base/user-error.ts';
import type { Answer, Question } from './hands.ts';
import { worker } from './jobs.ts';

const work = worker();
const port = parentPort!;

port.on('message', async ({ id, job }: Question) => {
  try {
    port.postMessage({ id, result: await work(job) } satisfies Answer);
  } catch (error) {
    port.postMessage({ id, error: error as Error, plain: error instanceof UserError } satisfies Answer);
  }
});
