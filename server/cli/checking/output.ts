/** Writes findings in the forms that were asked for, and derives the exit code. */

import { UserError } from '../../base/user-error.ts';
import { fromRepositoryRoot } from '../../host/folders.ts';
import type { FileInPieces } from '../../host/write-text.ts';
import type { Level } from '../../rules/rule.ts';
import type { FormWriter, Report, StartForm } from '../../show/check-result.ts';
import { findingsLines } from '../../show/findings-lines.ts';
import { findingsText } from '../../show/findings-text.ts';
import { showJson } from '../../show/json.ts';
import { showJunit } from '../../show/junit.ts';
import { showMarkdown } from '../../show/markdown.ts';
import { sanitizeLine } from '../../show/sanitize.ts';
import { showSarif } from '../../show/sarif.ts';
import { NOT_CHECKED } from '../../show/summary.ts';
import { COLUMNS, plain, showSummary } from '../../show/terminal.ts';
import { showProblems } from '../files.ts';
import { EXIT_CLEAN, EXIT_FAILURE, EXIT_FINDINGS, type Io } from '../io.ts';
import { rejectedLevels } from '../reject.ts';
import { openOut } from '../write-out.ts';
import { type Formatter, formatterOf } from './formatter.ts';
import type { WantedForm } from './forms.ts';

/** The forms of findings that are for files as well as for a terminal. */
const FORMS = { json: showJson, sarif: showSarif, junit: showJunit, markdown: showMarkdown } as const;

export interface OutputOptions {
  readonly failOn: Level | 'never';
  readonly format: readonly WantedForm[];
  readonly output?: string;
}

/** Whether findings show on the terminal, in a form for it. */
export const showsText = (options: OutputOptions): boolean => shows(options, 'text') || showsLines(options);

/** Whether they show there as they come. */
export const showsLines = (options: OutputOptions): boolean => shows(options, 'lines');

const shows = ({ format, output }: OutputOptions, wanted: WantedForm['form']): boolean =>
  output === undefined && format.some(({ form, to }) => form === wanted && to === undefined);

/** What is known before the first finding comes. */
export interface About extends Omit<Report, 'rejected' | 'fromRoot'> {
  readonly trees: number;
  readonly files: number;
}

/** @param fill adds the findings, in their order */
export async function writeFindings(
  about: About,
  options: OutputOptions,
  io: Io,
  fill: (formatter: Formatter) => void | Promise<void>,
): Promise<number> {
  const rejected = rejectedLevels(options.failOn);
  const report: Report = { ...about, rejected, fromRoot: await fromRepositoryRoot(io.cwd) };
  const outs: FileInPieces[] = [];
  try {
    const writers: (FormWriter & { readonly to: string | undefined })[] = [];
    for (const { form, to } of placed(options)) {
      const out = await openOut(to, io);
      outs.push(out);
      writers.push({ ...starting(form, to, io)(report, out.write), to });
    }
    const formatter = formatterOf(writers, about, rejected);
    await fill(formatter);
    const summary = formatter.summary();
    const left = writers.flatMap(({ end, to }) => {
      const words = end(summary);
      return words === undefined
        ? []
        : [`${to ?? 'standard output'} leaves out ${words}; it shows the most severe.`];
    });
    for (const out of outs) await out.keep();
    showProblems(about.unread, io);
    for (const words of left) io.err(`soundwood: ${sanitizeLine(words)}\n`);
    // Standard output is for the program that reads it. Where nothing could be read, no errors would mislead.
    const isRead = about.files > 0 || about.unread.length === 0;
    const isFree = writers.every(({ to }) => to !== undefined);
    if (isRead && (isFree || showsText(options)))
      io.out(`${showSummary(summary, io.paint, about.since)}${summary.trees > 0 ? `${NOT_CHECKED}\n` : ''}`);
    if (about.unread.length > 0 || formatter.broken()) return EXIT_FAILURE;
    return formatter.failed() ? EXIT_FINDINGS : EXIT_CLEAN;
  } finally {
    for (const out of outs) await out.drop();
  }
}

function starting(form: WantedForm['form'], to: string | undefined, io: Io): StartForm {
  if (form !== 'text' && form !== 'lines') return FORMS[form];
  const paint = to === undefined ? io.paint : plain;
  return form === 'lines'
    ? findingsLines(paint)
    : findingsText(paint, to === undefined ? io.columns : COLUMNS);
}

/** Where each form goes; one may go to standard output. Throws UserError. */
function placed({ format, output }: OutputOptions): readonly WantedForm[] {
  const open = format.filter(({ to }) => to === undefined);
  if (open.length > 1)
    throw new UserError(
      `only one form can go to standard output: give the others a file, --format ${open.map(({ form }) => `${form}:FILE`).join(' --format ')}.`,
    );
  if (output !== undefined && open.length === 0)
    throw new UserError('every form already has a file: leave out --output.');
  const all = format.map(({ form, to = output }) => (to === undefined ? { form } : { form, to }));
  const twice = all.find(({ to }, i) => to !== undefined && all.findIndex(one => one.to === to) < i);
  if (twice) throw new UserError(`two forms write to ${twice.to}: give each its own file.`);
  return all;
}
