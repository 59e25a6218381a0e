/** `soundwood git-setup`: configures git to name trees in diffs, to diff the canonical print, and to merge by facts. */

import { readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { UserError } from '../base/user-error.ts';
import { foldersUp } from '../host/folders.ts';
import { git, openRepository } from '../host/git.ts';
import { writeText } from '../host/write-text.ts';
import { sanitizeForLog, sanitizeLine } from '../show/sanitize.ts';
import { EXIT_CLEAN, type Io } from './io.ts';

export interface GitSetupOptions {
  readonly yes?: boolean;
  readonly undo?: boolean;
  /** How git starts this program. */
  readonly program?: string;
}

const ATTRIBUTES = '*.wood diff=soundwood merge=soundwood';
const SECTIONS = ['diff.soundwood', 'merge.soundwood'] as const;

/** Top-level heads as a POSIX extended regular expression; its group becomes the heading of a hunk. */
const HEADS = '^[ \t]*((tree|site|person|crew|practice)[ \t].*)$';

const settings = (program: string): readonly (readonly [string, string])[] => [
  ['diff.soundwood.xfuncname', HEADS],
  // As it is, where the program is gone: git would show no difference at all.
  ['diff.soundwood.textconv', `f() { ${program} print "$1" 2>/dev/null || cat "$1"; }; f`],
  ['merge.soundwood.name', 'inventories of trees, fact by fact'],
  [
    'merge.soundwood.driver',
    // By lines, where the program is gone or fails: git would report a conflict and keep only our side.
    `if ${program} --version >/dev/null 2>&1; then ${program} merge --marker-size %L %O %A %B; code=$?; [ $code -le 1 ] && exit $code; fi; echo "soundwood could not merge; merged by lines" >&2; git merge-file --marker-size=%L -L ours -L base -L theirs %A %O %B`,
  ],
];

/** Quotes a word for the shell with which git starts programs. */
const shellQuoted = (word: string) => `'${word.replaceAll("'", "'\\''")}'`;

/** By absolute path: a graphical client has another PATH. */
const thisProgram = () => [process.execPath, process.argv[1]!].map(shellQuoted).join(' ');

export async function gitSetup(options: GitSetupOptions, io: Io): Promise<number> {
  const { top } = await openRepository(io.cwd, io.cwd);
  const path = join(top, '.gitattributes');
  const attributes = await readFile(path, 'utf8').catch(() => undefined);
  const next = options.undo ? withoutLine(attributes) : withLine(attributes);
  const present = await presentSections(top);
  const wanted = settings(options.program ?? thisProgram());

  const steps = [
    ...(next === attributes
      ? []
      : [`.gitattributes: ${options.undo ? 'remove' : 'add'} the line ${ATTRIBUTES}\n`]),
    ...(options.undo
      ? present.map(section => `.git/config: remove ${section}\n`)
      : wanted.map(([name, value]) => `.git/config: ${name} = ${value}\n`)),
  ];
  if (steps.length === 0) {
    io.out('There is nothing to undo.\n');
    return EXIT_CLEAN;
  }
  io.out(`In ${sanitizeLine(top)}:\n${steps.map(step => `  ${sanitizeForLog(step)}`).join('')}`);
  if (!options.yes) {
    if (!io.interactive)
      throw new UserError(
        'nothing was written: there is no terminal for the question. Use --yes to write without asking.',
      );
    if (!/^y(es)?$/i.test(await io.ask('Write this (yes or no)?', 'no'))) {
      io.out('Nothing was written.\n');
      return EXIT_CLEAN;
    }
  }
  if (next === undefined || next === '') await rm(path, { force: true });
  else if (next !== attributes) await writeText(path, next, io.cwd);
  if (options.undo)
    for (const section of present) await git(top, ['config', '--local', '--remove-section', section]);
  else for (const [name, value] of wanted) await git(top, ['config', '--local', name, value]);
  io.out(
    options.undo ? 'Undone.\n' : 'Done. Commit .gitattributes. To undo everything, run git-setup --undo.\n',
  );
  return EXIT_CLEAN;
}

/**
 * Whether the files of a folder ask for a merge by this program that the clone was not told how to start: settings
 * are not cloned. False outside of a repository.
 */
export async function lacksSetup(folder: string): Promise<boolean> {
  const top = (await foldersUp(folder)).at(-1)!;
  const attributes = await readFile(join(top, '.gitattributes'), 'utf8').catch(() => '');
  if (!linesOf(attributes).some(isOurs)) return false;
  return (await presentSections(top)).length < SECTIONS.length;
}

const linesOf = (text: string) => text.split(/(?<=\n)/);
const isOurs = (line: string) => line.trim() === ATTRIBUTES;

function withLine(text: string | undefined): string {
  if (text === undefined || text === '') return `${ATTRIBUTES}\n`;
  if (linesOf(text).some(isOurs)) return text;
  return `${text}${text.endsWith('\n') ? '' : '\n'}${ATTRIBUTES}\n`;
}

/** Undefined if there is no file. */
const withoutLine = (text: string | undefined): string | undefined =>
  text === undefined
    ? undefined
    : linesOf(text)
        .filter(line => !isOurs(line))
        .join('');

async function presentSections(top: string): Promise<readonly string[]> {
  // Exits with 1 if there is none.
  const listed = await git(top, [
    'config',
    '--local',
    '--name-only',
    '--get-regexp',
    '^(diff|merge)\\.soundwood\\.',
  ]).catch((error: unknown) => {
    if (error instanceof UserError) throw error;
    return '';
  });
  return SECTIONS.filter(section => listed.split('\n').some(name => name.startsWith(`${section}.`)));
}
