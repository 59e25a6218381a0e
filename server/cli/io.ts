/** What a command may touch of the world: terminal, working folder, clock. Tests put their own in its place. */

import { reasonIn } from '../assess/not-computed.ts';
import { UserError } from '../base/user-error.ts';
import { localToday } from '../host/clock.ts';
import { COLUMNS, type Paint, plain } from '../show/terminal.ts';

export interface Io {
  /** Absolute; paths of the command line are relative to it. */
  readonly cwd: string;
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** Colours for standard output; gives the text back where there are none. */
  readonly paint: Paint;
  /** Width of standard output; 80 where it is no terminal. */
  readonly columns: number;
  /** Whether a person sits at the terminal: questions may be asked on it. */
  readonly interactive: boolean;
  /** Whether a progress bar may be drawn on standard error. */
  readonly progress: boolean;
  /** Day number of today, in local time. */
  readonly today: number;
  /** Whether to print stack traces of internal errors. */
  readonly debug: boolean;
  /** Shows a question and reads the answer; an empty one stands for the proposal. */
  readonly ask: (question: string, proposal: string) => Promise<string>;
}

/** Exit codes of every command. */
export const EXIT_CLEAN = 0;
export const EXIT_FINDINGS = 1;
export const EXIT_FAILURE = 2;

/** @param args of the command line, which says whether to show where an internal error happened */
export async function processIo(args: readonly string[]): Promise<Io> {
  const { stdout, stderr, env } = process;
  // A reader that has seen enough (`| head`) is no mistake.
  stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') return;
    stderr.write(`soundwood: standard output can't be written: ${error.message}.\n`);
    process.exit(EXIT_FAILURE);
  });
  // Where nobody can be told anything, the exit code still tells.
  stderr.on('error', () => {});
  // https://no-color.org: any value that is not empty.
  const coloured = stdout.isTTY === true && !env.NO_COLOR && env.TERM !== 'dumb';
  const paint: Paint = coloured ? (await import('node:util')).styleText : plain;
  return {
    cwd: workingFolder(),
    out: text => void stdout.write(text),
    err: text => void stderr.write(text),
    paint,
    columns: stdout.columns ?? COLUMNS,
    // Standard input is set up when it is first looked at, which takes milliseconds.
    interactive: stdout.isTTY === true && process.stdin.isTTY === true,
    progress: stderr.isTTY === true,
    today: localToday(),
    debug: wantsDebug(args),
    ask: async (question, proposal) => {
      const { createInterface } = await import('node:readline/promises');
      const terminal = createInterface({ input: process.stdin, output: stdout });
      try {
        const answer = await terminal.question(`${question}${proposal === '' ? '' : ` [${proposal}]`} `);
        return answer.trim() || proposal;
      } catch (error) {
        // Ctrl-C and Ctrl-D.
        if ((error as NodeJS.ErrnoException).code === 'ABORT_ERR')
          throw new UserError('ended without an answer.');
        throw error;
      } finally {
        terminal.close();
      }
    },
  };
}

/** Whether --debug is among the options of a command line. */
export const wantsDebug = (args: readonly string[]): boolean =>
  args.slice(0, args.includes('--') ? args.indexOf('--') : args.length).includes('--debug');

/** Throws UserError if it was deleted meanwhile. */
function workingFolder(): string {
  try {
    return process.cwd();
  } catch {
    throw new UserError('the working folder no longer exists: change to another one.');
  }
}

/** Behind what went wrong. */
const PROGRAM_FAULT =
  'this is a mistake in the program, not in a record: please report it with the command and its input (--debug shows where it happened).';

/**
 * What to say of an error that no command foresaw, in one line: of one of the system its own words, of any other that it
 * is the program's. With `debug` where it happened.
 */
export function faultText(error: unknown, debug: boolean): string {
  if (error instanceof UserError) return error.message;
  const message = reasonIn(error);
  if (error instanceof Error && 'syscall' in error) return message;
  return debug && error instanceof Error ? error.stack! : `${message}; ${PROGRAM_FAULT}`;
}
