/** Reads a git repository without shell or checkout; all objects come from one `git cat-file --batch`. */

import { execFile, spawn } from 'node:child_process';
import { relative, sep } from 'node:path';
import { promisify } from 'node:util';
import { UserError } from '../base/user-error.ts';

const run = promisify(execFile);

/**
 * Repositories are untrusted and their settings can name programs; git must start none of them. So the file system
 * monitor is off, and missing objects are not fetched, because fetching runs commands named by the repository.
 */
const SETTINGS = ['-c', 'core.fsmonitor=false'] as const;
const ENVIRONMENT = {
  GIT_NO_LAZY_FETCH: '1',
  // For versions of git that lack the variable above: no transport is allowed.
  GIT_ALLOW_PROTOCOL: '',
  GIT_OPTIONAL_LOCKS: '0',
  GIT_TERMINAL_PROMPT: '0',
} as const;
/** Help for a missing object. */
const MISSING_OBJECT_HELP =
  'nothing is fetched automatically. To complete a partial clone, run git fetch --refetch --no-filter; otherwise git fsck shows what is wrong.';
const execOptions = (cwd: string) => ({ cwd, env: { ...process.env, ...ENVIRONMENT } });

export interface Repository {
  /** Top folder of the working tree, absolute. */
  readonly top: string;
  /** Path in the repository, with slashes, of an absolute path; undefined outside the repository. */
  readonly pathOf: (path: string) => string | undefined;
  readonly shallow: boolean;
}

interface ExecError {
  readonly code?: number | string;
  readonly stderr?: string;
}

/** Standard output of a git command. Throws UserError if git is not installed, otherwise what execFile throws. */
export async function git(folder: string, args: readonly string[]): Promise<string> {
  try {
    return (await run('git', [...SETTINGS, ...args], { ...execOptions(folder), maxBuffer: 1 << 26 })).stdout;
  } catch (error) {
    if ((error as ExecError).code === 'ENOENT')
      throw new UserError('git was not found; install it, or put it on the PATH.');
    throw error;
  }
}

/** The repository that contains a folder. Throws UserError if there is none. */
export async function openRepository(folder: string, cwd: string): Promise<Repository> {
  let answer: string;
  try {
    answer = await git(folder, ['rev-parse', '--is-shallow-repository', '--show-toplevel', '--show-prefix']);
  } catch (error) {
    if (error instanceof UserError) throw error;
    const said = ((error as ExecError).stderr ?? '')
      .trim()
      .split('\n')[0]!
      .replace(/^fatal: /, '');
    const where = folder === cwd ? 'this folder' : folder;
    throw new UserError(
      `${where} can't be read as a git repository with a working tree (${said}); run it inside one, or run git init first.`,
    );
  }
  const [shallow, top, prefix = ''] = answer.split('\n');
  return {
    top: top!,
    shallow: shallow === 'true',
    // Relative to the folder, whose prefix git reported: the path may contain symbolic links.
    pathOf: path => normalized(`${prefix}${slashed(relative(folder, path))}`),
  };
}

const slashed = (path: string) => (sep === '/' ? path : path.split(sep).join('/'));

/** Without `.` and `..`; undefined if the path leads out of the repository. */
function normalized(path: string): string | undefined {
  const parts: string[] = [];
  for (const part of path.split('/')) {
    if (part === '' || part === '.') continue;
    if (part !== '..') parts.push(part);
    else if (parts.pop() === undefined) return undefined;
  }
  return parts.join('/');
}

interface GitObject {
  /** Hexadecimal. */
  readonly hash: string;
  readonly type: string;
  readonly content: Buffer;
}

/** A running `git cat-file --batch`; reads must not overlap. */
interface ObjectReader {
  /** Undefined if no object has the name, or several do. */
  readonly read: (name: string) => Promise<GitObject | undefined>;
  readonly end: () => Promise<void>;
}

function openObjects({ top }: Repository): ObjectReader {
  const child = spawn('git', [...SETTINGS, 'cat-file', '--batch'], {
    ...execOptions(top),
    stdio: ['pipe', 'pipe', 'ignore'],
  });
  const closed = new Promise<void>(resolve => child.on('close', () => resolve()));
  // If the process fails, its output ends, and `more` throws.
  child.on('error', () => {});
  child.stdin.on('error', () => {});
  const chunks = child.stdout[Symbol.asyncIterator]() as AsyncIterator<Buffer>;
  let rest: Buffer = Buffer.alloc(0);
  const more = async () => {
    const { done, value } = await chunks.next();
    if (done) throw new UserError(`git ended before it returned all objects: ${MISSING_OBJECT_HELP}`);
    return value;
  };
  const take = async (length: number): Promise<Buffer> => {
    const parts = [rest];
    let size = rest.length;
    while (size < length) {
      const part = await more();
      parts.push(part);
      size += part.length;
    }
    const all = Buffer.concat(parts);
    rest = all.subarray(length);
    return all.subarray(0, length);
  };
  const line = async (): Promise<string> => {
    let end = rest.indexOf(10);
    while (end < 0) {
      rest = Buffer.concat([rest, await more()]);
      end = rest.indexOf(10);
    }
    return (await take(end + 1)).toString('utf8', 0, end);
  };
  return {
    read: async name => {
      child.stdin.write(`${name}\n`);
      const match = /^([0-9a-f]{40,64}) (\w+) (\d+)$/.exec(await line());
      if (!match) return undefined;
      const content = await take(Number(match[3]));
      await take(1);
      return { hash: match[1]!, type: match[2]!, content };
    },
    end: async () => {
      child.stdin.end();
      child.stdout.resume();
      await closed;
    },
  };
}

/** A file of a commit. */
export interface CommittedFile {
  /** Path in the repository, with slashes. */
  readonly path: string;
  readonly bytes: Uint8Array;
}

/** Modes of tree entries; links and submodules have others. */
const FOLDER = '40000';
const FILE = /^100/;

/**
 * The inventories of a commit. Skips what `check` skips in a folder: symbolic links, node_modules, and folders whose
 * name begins with a dot.
 * @param ref anything that names a commit; throws UserError if it names none
 */
export async function filesAt(repository: Repository, ref: string): Promise<readonly CommittedFile[]> {
  if (ref === '' || /[\0-\x1F\x7F]/.test(ref))
    throw new UserError(`${JSON.stringify(ref)} can't name a commit.`);
  const objects = openObjects(repository);
  try {
    const root = await objects.read(`${ref}^{tree}`);
    // Before the first commit there is nothing yet.
    if (root === undefined && ref === 'HEAD') return [];
    if (root?.type !== 'tree') throw new UserError(missing(ref, repository));
    const files: CommittedFile[] = [];
    await collect(objects, root, '', files, ref);
    return files;
  } finally {
    await objects.end();
  }
}

const missing = (ref: string, { shallow }: Repository): string =>
  shallow
    ? `${ref} is not in this shallow clone: fetch it with git fetch --depth=1 origin and its name, or git fetch --unshallow.`
    : `${ref} is not the name of exactly one commit here. git fetch gets what others pushed; git branch --all lists the branches.`;

async function collect(
  objects: ObjectReader,
  { content: tree, hash }: GitObject,
  folder: string,
  files: CommittedFile[],
  ref: string,
): Promise<void> {
  // All hashes of a repository have the same length; trees contain them as raw bytes.
  const hashLength = hash.length / 2;
  for (let at = 0; at < tree.length; ) {
    const space = tree.indexOf(32, at);
    const nul = tree.indexOf(0, space);
    const mode = tree.toString('latin1', at, space);
    const name = tree.toString('utf8', space + 1, nul);
    at = nul + 1 + hashLength;
    const wanted =
      mode === FOLDER
        ? !name.startsWith('.') && name !== 'node_modules'
        : FILE.test(mode) && name.endsWith('.wood');
    if (!wanted) continue;
    const path = folder + name;
    const object = await objects.read(tree.toString('hex', nul + 1, at));
    if (!object) {
      throw new UserError(`${path} of ${ref} is missing in this repository: ${MISSING_OBJECT_HELP}`);
    }
    if (mode === FOLDER) await collect(objects, object, `${path}/`, files, ref);
    else files.push({ path, bytes: object.content });
  }
}

/** Hash of the commit at which two others parted. Throws UserError if there is none. */
export async function forkPoint(top: string, one: string, other: string): Promise<string> {
  try {
    return (await git(top, ['merge-base', '--end-of-options', one, other])).trim();
  } catch (error) {
    if (error instanceof UserError) throw error;
    throw new UserError(`${one} and ${other} have no common commit here, or are not commits.`);
  }
}

/** A commit that changed a file. */
export interface FileVersion {
  /** Hexadecimal. */
  readonly commit: string;
  readonly author: string;
  /** `2026-03-14`, by the author's clock. */
  readonly day: string;
  /** The file before and after it; undefined where there was none. */
  readonly before: Uint8Array | undefined;
  readonly after: Uint8Array | undefined;
}

/** No signature is checked, which would start a program that the repository's settings name. */
const LOG = [
  '--literal-pathspecs',
  'log',
  '--follow',
  '--no-show-signature',
  '--no-color',
  '--raw',
  '--no-abbrev',
  '-z',
  '--format=%x01%H%x00%an%x00%as',
  '--',
] as const;

/**
 * The commits that changed a file, the newest first, also under earlier names of it; merges are left out.
 * @param path in the repository, with slashes
 */
export async function versionsOf(repository: Repository, path: string): Promise<readonly FileVersion[]> {
  const fields = (await logOf(repository, path)).split('\0');
  const objects = openObjects(repository);
  const blob = async (hash: string): Promise<Uint8Array | undefined> => {
    if (/^0+$/.test(hash)) return undefined;
    const object = await objects.read(hash);
    if (object?.type !== 'blob')
      throw new UserError(`a version of ${path} is missing in this repository: ${MISSING_OBJECT_HELP}`);
    return object.content;
  };
  try {
    const versions: FileVersion[] = [];
    for (let at = 0; fields[at]?.startsWith('\x01'); ) {
      const [commit, author, day] = [fields[at]!.slice(1), fields[at + 1]!, fields[at + 2]!];
      at += 3;
      // `:100644 100644 HASH HASH R100`, and the path, or both paths of a file with another name.
      const raw = /^\n?:\d+ \d+ ([0-9a-f]+) ([0-9a-f]+) ([A-Z])/.exec(fields[at] ?? '');
      if (!raw) continue;
      at += raw[3] === 'R' || raw[3] === 'C' ? 3 : 2;
      versions.push({ commit, author, day, before: await blob(raw[1]!), after: await blob(raw[2]!) });
    }
    return versions;
  } finally {
    await objects.end();
  }
}

async function logOf({ top }: Repository, path: string): Promise<string> {
  try {
    return await git(top, [...LOG, path]);
  } catch (error) {
    if (error instanceof UserError) throw error;
    // Without a commit there is no history.
    if (/does not have any commits yet/.test((error as ExecError).stderr ?? '')) return '';
    throw new UserError(`git could not list the commits of ${path}: ${(error as ExecError).stderr?.trim()}`);
  }
}
