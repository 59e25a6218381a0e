/** What a command may touch of the world: terminal, working folder, clock. Tests put their own in its place. */

import { localToday } from '../lsp/clock.ts';
import type { Paint } from '../show/terminal.ts';

export interface Io {
  /** Absolute; paths of the command line are relative to it. */
  readonly cwd: string;
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** Colours for standard output; gives the text back where there are none. */
  readonly paint: Paint;
  /** Whether a person sits at the terminal: questions may be asked on it. */
  readonly interactive: boolean;
  /** Whether a progress bar may be drawn on standard error. */
  readonly progress: boolean;
  /** Day number of today, in local time. */
  readonly today: number;
  /** Shows a question and reads the answer; an empty one stands for the proposal. */
  readonly ask: (question: string, proposal: string) => Promise<string>;
}

/** Exit codes of every command. */
export const CLEAN = 0;
export const FINDINGS = 1;
export const COULD_NOT_RUN = 2;

/** A command could not run; its message is for the user. */
export class CannotRun extends Error {}

export const plain: Paint = (_format, text) => text;

export async function processIo(): Promise<Io> {
  const { stdout, stderr, env } = process;
  // A reader that has seen enough (`| head`) is no mistake.
  for (const stream of [stdout, stderr]) {
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EPIPE') throw error;
    });
  }
  // https://no-color.org: any value that is not empty.
  const coloured = stdout.isTTY === true && !env.NO_COLOR && env.TERM !== 'dumb';
  const paint: Paint = coloured ? (await import('node:util')).styleText : plain;
  return {
    cwd: process.cwd(),
    out: text => void stdout.write(text),
    err: text => void stderr.write(text),
    paint,
    // Standard input is set up when it is first looked at, which takes milliseconds.
    interactive: stdout.isTTY === true && process.stdin.isTTY === true,
    progress: stderr.isTTY === true,
    today: localToday(),
    ask: async (question, proposal) => {
      const { createInterface } = await import('node:readline/promises');
      const terminal = createInterface({ input: process.stdin, output: stdout });
      try {
        const answer = await terminal.question(`${question}${proposal === '' ? '' : ` [${proposal}]`} `);
        return answer.trim() || proposal;
      } catch (error) {
        // Ctrl-C and Ctrl-D.
        if ((error as NodeJS.ErrnoException).code === 'ABORT_ERR')
          throw new CannotRun('ended without an answer.');
        throw error;
      } finally {
        terminal.close();
      }
    },
  };
}
