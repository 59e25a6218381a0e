/** Writes findings in the form that was asked for, and derives the exit code. */

import { resolve } from 'node:path';
import type { Level } from '../../rules/rule.ts';
import { NOT_CHECKED } from '../../show/summary.ts';
import { plain, showSummary } from '../../show/terminal.ts';
import { showProblems } from '../files.ts';
import { EXIT_CLEAN, EXIT_FAILURE, EXIT_FINDINGS, type Io } from '../io.ts';
import { rejectedLevels } from '../reject.ts';
import { type About, type Form, type Formatter, formatterOf } from './formatter.ts';

export interface OutputOptions {
  readonly failOn: Level | 'never';
  readonly format: Form;
  readonly output?: string;
}

/** @param fill adds the findings, in their order */
export async function writeFindings(
  about: Omit<About, 'rejected'>,
  options: OutputOptions,
  io: Io,
  fill: (formatter: Formatter) => void | Promise<void>,
): Promise<number> {
  const kept: string[] = [];
  const isHere = options.output === undefined;
  const formatter = formatterOf(
    options.format,
    { ...about, rejected: rejectedLevels(options.failOn) },
    isHere ? io.paint : plain,
    isHere ? io.out : text => kept.push(text),
  );
  await fill(formatter);
  const { summary, failed, broken } = formatter.end();
  if (options.output !== undefined) {
    await (await import('../../host/write-text.ts')).writeText(
      resolve(io.cwd, options.output),
      kept.join(''),
      io.cwd,
    );
  }
  showProblems(about.unread, io);
  // Standard output is for the program that reads it. Where nothing could be read, no errors would mislead.
  const isRead = about.files > 0 || about.unread.length === 0;
  if (isRead && (options.format === 'text' || options.output !== undefined))
    io.out(`${showSummary(summary, io.paint, about.since)}${summary.trees > 0 ? `${NOT_CHECKED}\n` : ''}`);
  if (about.unread.length > 0 || broken) return EXIT_FAILURE;
  return failed ? EXIT_FINDINGS : EXIT_CLEAN;
}
