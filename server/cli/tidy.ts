/** `soundwood fmt`: formats inventories, or checks their format. */

import { tidy } from '../../grammar/tidy.ts';
import { UserError } from '../base/user-error.ts';
import { counted } from '../base/words.ts';
import { shown } from '../host/paths.ts';
import { sanitizeLine } from '../show/sanitize.ts';
import { findFiles, isProblem, readSource, showProblems } from './files.ts';
import { EXIT_CLEAN, EXIT_FAILURE, EXIT_FINDINGS, type Io } from './io.ts';
import { isStandardInput } from './standard-input.ts';
import { writeBack } from './write-back.ts';

export interface TidyOptions {
  readonly check?: boolean;
}

/** Maximum number of lines listed in a message. */
const LINES_NAMED = 10;

/**
 * Formats every file; lines with a mistake are left as they are and listed. Exits with 1 if there are such lines, or with
 * `--check` if a file would change.
 */
export async function tidyFiles(paths: readonly string[], options: TidyOptions, io: Io): Promise<number> {
  const found = await findFiles(paths, io.cwd);
  const problems = [...found.problems];
  let changed = 0;
  let mistaken = 0;
  if (!options.check && found.paths.some(isStandardInput))
    throw new UserError(
      'standard input cannot be written back to: soundwood print - prints it in canonical form.',
    );
  for (const path of found.paths) {
    const source = await readSource(path, io.cwd);
    if (isProblem(source)) {
      problems.push(source);
      continue;
    }
    const name = shown(io.cwd, path);
    const { text, left } = tidy(source.text);
    if (left.length > 0) {
      mistaken++;
      io.err(`${sanitizeLine(name)}:${left[0]! + 1}: ${refusal(left)}\n`);
    }
    if (text === source.text) continue;
    if (options.check) io.out(`${sanitizeLine(name)}\n`);
    else {
      const problem = await writeBack(source, text, io);
      if (problem) {
        problems.push(problem);
        continue;
      }
    }
    changed++;
  }
  showProblems(problems, io);
  io.out(
    `${counted(found.paths.length, 'file')}, ${changed} ${options.check ? 'to format' : 'formatted'}.\n`,
  );
  if (problems.length > 0) return EXIT_FAILURE;
  return mistaken > 0 || (options.check && changed > 0) ? EXIT_FINDINGS : EXIT_CLEAN;
}

/** @param left 0-based lines */
function refusal(left: readonly number[]): string {
  const named = left.slice(0, LINES_NAMED).map(line => line + 1);
  const more = left.length > named.length ? ` and ${left.length - named.length} more` : '';
  const [lines, hold] =
    left.length === 1 ? ['line', 'has a mistake and was left'] : ['lines', 'have mistakes and were left'];
  return `${lines} ${named.join(', ')}${more} ${hold} as written; soundwood check shows what is wrong.`;
}
