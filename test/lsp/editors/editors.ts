/** Editors that know nothing of this project, driven without a screen by a script of their own. */

import { spawn, spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, symlinkSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { onTestFinished } from 'vitest';
import { folderWith } from '../../cli/folder.ts';

/** Whether the tests of an editor are passed over: it is not here, and need not be. */
export function isMissing(editor: string, args: readonly string[], how: string): boolean {
  const missing = spawnSync(editor, args, { stdio: 'ignore' }).status !== 0;
  if (missing) console.warn(`The tests in ${editor} are passed over: ${how}`);
  // Where all tests have to run, the missing program says so itself.
  return missing && process.env.CI !== 'true';
}

/** The lines that the README tells people to write into their editor's configuration. */
export function linesOfReadme(language: string): string {
  const readme = readFileSync('README.md', 'utf8');
  const found = new RegExp(`\`\`\`${language}\\n([\\s\\S]*?)\`\`\``).exec(readme);
  if (!found) throw new Error(`The README has no lines in ${language}.`);
  return found[1]!;
}

/** A word that is none, a line that is not tidy, and a person who is named in all three files. */
const INVENTORY = {
  'people.wood': 'person RV "Ruth Varga"\n  qualified   consulting arborist\n',
  'lawn.wood': `tree 1 "Oak"
  species     Quercus garryana
  dbh 41 in
  vigor       fiar

  inspection 2026-03-14 from ground
    by        RV
`,
  'creek.wood': 'tree 2\n  dbh         12 in\n\n  inspection 2026-03-14 from ground\n    by        RV\n',
} as const;

/** The inventory when everything is done. */
export const MENDED: Readonly<Record<string, string>> = {
  'people.wood': INVENTORY['people.wood'].replace('RV', 'RUTH'),
  'lawn.wood': INVENTORY['lawn.wood']
    .replace('fiar', 'fair')
    .replace('dbh 41 in', 'dbh         41 in')
    .replace('RV', 'RUTH'),
  'creek.wood': INVENTORY['creek.wood'].replace('RV', 'RUTH'),
};

/** What a script tells of what it saw. */
interface Seen {
  readonly problem: {
    readonly line: number;
    readonly column: number;
    readonly severity: number;
    readonly message: string;
  };
  readonly hover: string;
  readonly completion: readonly string[];
  readonly fixes: readonly string[];
  /** What stopped it. */
  readonly trouble?: string;
  readonly [more: string]: unknown;
}

export interface Visit {
  readonly seen: Seen;
  /** The files as they lie on the disk afterwards. */
  readonly files: Readonly<Record<string, string>>;
}

/**
 * Runs an editor in a folder with the inventory and `soundwood` on its path.
 * @param program the built program
 * @param more files that the arguments name
 */
export async function visit(
  editor: string,
  args: (file: (name: string) => string) => readonly string[],
  program: string,
  more: Readonly<Record<string, string>>,
): Promise<Visit> {
  const folder = await folderWith({ ...INVENTORY, ...more });
  const bin = folder.file('bin');
  mkdirSync(bin);
  symlinkSync(program, join(bin, 'soundwood'));
  const child = spawn(editor, args(folder.file), {
    cwd: folder.path,
    stdio: ['ignore', 'pipe', 'pipe'],
    env: {
      ...process.env,
      PATH: `${bin}${delimiter}${process.env.PATH}`,
      // Nobody's own configuration counts.
      HOME: folder.path,
      RESULT: folder.file('result.json'),
    },
  });
  onTestFinished(() => void (child.exitCode === null && child.kill()));
  let said = '';
  for (const stream of [child.stdout, child.stderr])
    stream.on('data', (chunk: Buffer) => {
      said += chunk.toString();
    });
  const code = await new Promise((resolve, reject) => {
    child.once('error', reject);
    child.once('close', resolve);
  });
  if (code !== 0) throw new Error(`${editor} ended with ${code}:\n${said}`);
  const seen = JSON.parse(readFileSync(folder.file('result.json'), 'utf8')) as Seen;
  if (seen.trouble) throw new Error(`${editor}: ${seen.trouble}\n${said}`);
  const files = Object.keys(INVENTORY).map(name => [name, readFileSync(folder.file(name), 'utf8')]);
  return { seen, files: Object.fromEntries(files) };
}
