/** `soundwood fix`: rewrites what has one meaning into the notation, and asks about what has several. */

import { dirname, resolve } from 'node:path';
import { splitLines } from '../../grammar/text.ts';
import { UserError } from '../base/user-error.ts';
import { counted } from '../base/words.ts';
import { siteOf } from '../facts/workspace.ts';
import { type Fixed, fixText, type Question } from '../fix/fix.ts';
import { fixNotes } from '../fix/notes.ts';
import { readBytes } from '../host/folders.ts';
import { shown } from '../host/paths.ts';
import { readText } from '../host/read-text.ts';
import { writeNewText } from '../host/write-text.ts';
import { jsonText, sanitizeForLog, sanitizeLine } from '../show/sanitize.ts';
import { askChoice } from './ask.ts';
import {
  findFiles,
  inWorkspace,
  isProblem,
  type Problem,
  readSource,
  reasonOf,
  showProblems,
} from './files.ts';
import { EXIT_CLEAN, EXIT_FAILURE, EXIT_FINDINGS, type Io } from './io.ts';
import { loadWorkspace } from './load.ts';
import { regionAbove } from './region-above.ts';
import { fromStandardInput, isStandardInput } from './standard-input.ts';
import { writeBack } from './write-back.ts';

export interface FixOptions {
  readonly write?: boolean;
  readonly answers?: string;
  readonly showQuestions?: boolean;
  /** Field notes. */
  readonly from?: string;
  readonly output?: string;
}

/**
 * Shows what would be rewritten as a diff, or writes it; standard input goes to standard output, rewritten. Exits with 1
 * if something is to be rewritten, or was left.
 */
export async function fix(paths: readonly string[], options: FixOptions, terminal: Io): Promise<number> {
  const io: Io = { ...terminal, out: text => terminal.out(sanitizeForLog(text)) };
  const answers = await answersFrom(options.answers, io);
  if (options.from !== undefined) return notes(options.from, paths, answers, options, { io, terminal });
  if (options.output !== undefined)
    throw new UserError(
      '--output works only with --from and names the new inventory. --write changes files in place.',
    );
  const found = await findFiles(paths, io.cwd);
  const problems: Problem[] = [...found.problems];
  const regions = await regionsOf(paths, io);
  const questions: AskedIn[] = [];
  let changed = 0;
  let waiting = 0;
  for (const path of found.paths) {
    const source = await readSource(path, io.cwd);
    if (isProblem(source)) {
      problems.push(source);
      continue;
    }
    const name = shown(io.cwd, path);
    const region = regionIn(source.text) ?? regions(path);
    const fixed = await answeredBy(
      answered => fixText(source.text, { region, answers: answered }),
      answers,
      options,
      io,
    );
    if (options.showQuestions) {
      questions.push(...fixed.questions.map(question => ({ name, question })));
      continue;
    }
    const isInput = isStandardInput(path);
    if (isInput) terminal.out(fixed.text);
    showLeft(name, fixed, isInput ? { ...io, out: io.err } : io);
    waiting += fixed.questions.length + fixed.left.length + fixed.unread.length;
    if (fixed.text === source.text) continue;
    changed++;
    if (isInput) continue;
    if (!options.write) showChanges(name, source.text, fixed.text, terminal);
    else {
      const problem = await writeBack(source, fixed.text, io);
      if (problem) problems.push(problem);
    }
  }
  showProblems(problems, io);
  if (options.showQuestions) io.out(`${questionsText(questions)}\n`);
  else if (!found.paths.some(isStandardInput))
    io.out(
      `${counted(found.paths.length, 'file')}, ${changed} ${options.write ? 'fixed' : 'to fix (use --write)'}.\n`,
    );
  if (problems.length > 0) return EXIT_FAILURE;
  const isPending = changed > 0 && !options.write && !found.paths.some(isStandardInput);
  return waiting > 0 || questions.length > 0 || isPending ? EXIT_FINDINGS : EXIT_CLEAN;
}

/**
 * Field notes as an inventory, on standard output or in a new file. The paths are inventories whose site and region apply.
 */
async function notes(
  file: string,
  paths: readonly string[],
  answers: Map<string, string>,
  options: FixOptions,
  { io, terminal }: { readonly io: Io; readonly terminal: Io },
): Promise<number> {
  if (options.write) throw new UserError('notes are never changed: name the new inventory with --output.');
  const text = await textOf(file, io);
  const { output } = options;
  const folder = output === undefined ? io.cwd : dirname(resolve(io.cwd, output));
  const region = await regionAbove(paths, folder, io);
  const isAsking = output !== undefined;
  const fixed = await answeredBy(
    answered => fixNotes(text, { region, answers: answered }),
    answers,
    { ...options, write: isAsking },
    io,
  );
  const name = output ?? 'notes';
  if (options.showQuestions) {
    io.out(`${questionsText(fixed.questions.map(question => ({ name, question })))}\n`);
    return fixed.questions.length > 0 ? EXIT_FINDINGS : EXIT_CLEAN;
  }
  if (output === undefined) terminal.out(fixed.text);
  else {
    await writeNewText(resolve(io.cwd, output), fixed.text, io.cwd);
    io.out(`${sanitizeLine(output)}\n`);
  }
  showLeft(name, fixed, output === undefined ? { ...io, out: io.err } : io);
  return fixed.questions.length + fixed.left.length > 0 ? EXIT_FINDINGS : EXIT_CLEAN;
}

async function textOf(file: string, io: Io): Promise<string> {
  const given = isStandardInput(file) ? fromStandardInput() : readBytes(resolve(io.cwd, file));
  const bytes = await given.catch((error: unknown) => {
    throw new UserError(`${file} ${reasonOf(error)}.`);
  });
  const read = readText(bytes);
  if ('problem' in read) throw new UserError(`${file} ${read.problem}.`);
  return read.text;
}

/** The region that a text states. */
const regionIn = (text: string): string | undefined =>
  /^\s*region\s+([A-Z]{2}(?:-[A-Z0-9]{1,3})?)\b/m.exec(text)?.[1];

/** The region of the site that a file belongs to. */
async function regionsOf(paths: readonly string[], io: Io): Promise<(path: string) => string | undefined> {
  const { workspace, root } = await loadWorkspace(paths, { ...io, progress: false });
  return path => siteOf(workspace, inWorkspace(root, path))?.region?.value;
}

interface AskedIn {
  readonly name: string;
  readonly question: Question;
}

/** Answers by question, as --show-questions prints them with `answer` filled in. Throws UserError. */
async function answersFrom(file: string | undefined, io: Io): Promise<Map<string, string>> {
  if (file === undefined) return new Map();
  const text = await textOf(file, io);
  let rows: unknown;
  try {
    rows = JSON.parse(text);
  } catch {
    rows = undefined;
  }
  if (!Array.isArray(rows) || !rows.every(isAnswer))
    throw new UserError(
      `${file} contains no answers: soundwood fix --show-questions prints the questions, and "answer" is filled in there.`,
    );
  return new Map(
    rows.filter(({ answer }) => answer !== '').map(({ question, answer }) => [question, answer]),
  );
}

const isAnswer = (row: unknown): row is { readonly question: string; readonly answer: string } =>
  typeof row === 'object' &&
  row !== null &&
  'question' in row &&
  'answer' in row &&
  typeof row.question === 'string' &&
  typeof row.answer === 'string';

const questionsText = (questions: readonly AskedIn[]): string =>
  jsonText(
    questions.map(({ name, question: { key, asks, choices, lines } }) => ({
      where: lines.map(line => `${name}:${line + 1}`),
      question: key,
      asks,
      choices,
      answer: '',
    })),
    2,
  );

/** Asks the person at the terminal, where one sits there and the answers are to be written. */
async function answeredBy(
  fixed: (answers: ReadonlyMap<string, string>) => Fixed,
  answers: Map<string, string>,
  { write, showQuestions }: FixOptions,
  io: Io,
): Promise<Fixed> {
  if (!write || showQuestions || !io.interactive) return fixed(answers);
  const passed = new Set<string>();
  for (;;) {
    const now = fixed(answers);
    const question = now.questions.find(({ key }) => !passed.has(key));
    if (!question) return now;
    passed.add(question.key);
    const answer = await ask(question, io);
    if (answer !== '') answers.set(question.key, answer);
  }
}

const ask = (question: Question, io: Io): Promise<string> =>
  askChoice(question, { proposal: '', empty: 'Enter leaves it as it is' }, io);

/** What is left for a person: questions with their choices, lines that nobody can read. */
function showLeft(name: string, { questions, left, unread }: Fixed, io: Io): void {
  const file = sanitizeLine(name);
  for (const { asks, choices, lines } of questions) {
    const more =
      lines.length > 1
        ? ` (also ${lines
            .slice(1)
            .map(line => line + 1)
            .join(', ')})`
        : '';
    io.out(
      `${file}:${lines[0]! + 1}:${more} ${asks}${choices.length > 0 ? ' Which is meant?' : ''}\n${choices.map(choice => `    ${choice}\n`).join('')}`,
    );
  }
  for (const { line, message } of left) io.out(`${file}:${line + 1}: ${message}\n`);
  for (const line of unread) io.out(`${file}:${line + 1}: this line can't be read and was made a comment.\n`);
}

/** The lines that differ, as a unified diff without context. */
function showChanges(name: string, before: string, after: string, io: Io): void {
  const [old, now] = [splitLines(before).texts, splitLines(after).texts];
  const file = sanitizeLine(name);
  io.out(io.paint('bold', `--- a/${file}\n+++ b/${file}`));
  io.out('\n');
  for (let i = 0; i < old.length; i++) {
    if (old[i] === now[i]) continue;
    let end = i;
    while (end < old.length && old[end] !== now[end]) end++;
    const many = end - i > 1 ? `,${end - i}` : '';
    io.out(`@@ -${i + 1}${many} +${i + 1}${many} @@\n`);
    for (const line of old.slice(i, end)) io.out(`${io.paint('red', sanitizeForLog(`-${line}`))}\n`);
    for (const line of now.slice(i, end)) io.out(`${io.paint('blue', sanitizeForLog(`+${line}`))}\n`);
    i = end;
  }
}
