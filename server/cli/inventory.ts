/**
 * The inventory of a command line: a workspace, and the blocks of its files. Of a large one the blocks are read again when
 * they are looked at, and the workspace has only those that other files need.
 */

import { statSync } from 'node:fs';
import { resolve } from 'node:path';
import { opensBlock, parseBlock } from '../../grammar/blocks.ts';
import { ownText } from '../../grammar/text.ts';
import { UserError } from '../base/user-error.ts';
import { BlockNode, fileOf, fileWith, nodesOf, type PlacedFact, PlacedNode } from '../facts/file.ts';
import type { WrittenTree } from '../facts/types.ts';
import { buildWorkspace, type FileSnapshot, placedSiteOf, type Workspace } from '../facts/workspace.ts';
import { NotAFile } from '../host/folders.ts';
import { shown } from '../host/paths.ts';
import { readText } from '../host/read-text.ts';
import { applicableFiles, findFiles, inWorkspace, isReadError, type Problem, reasonOf } from './files.ts';
import type { Io } from './io.ts';
import { progressOf } from './progress.ts';
import { type FileState, type Seen, stretchesOf } from './read-stretches.ts';
import { fromStandardInput, isStandardInput } from './standard-input.ts';

export interface Inventory {
  readonly workspace: Workspace;
  /** Those that were asked for. */
  readonly files: readonly InventoryFile[];
  /** What could not be found or read. */
  readonly problems: readonly Problem[];
  /** Absolute; what the paths of the workspace are relative to. */
  readonly root: string;
  /** A path of the workspace as shown to people, relative to the working folder. */
  readonly nameOf: (path: string) => string;
  /** Whether all blocks stay in memory because another state is compared with them. */
  readonly isKept: boolean;
  /** Files in folders above that apply, where no repository says how far up an inventory reaches; absolute. */
  readonly unbounded: readonly string[];
  /** SHA-256 of every file, also of those that only apply, by path in the workspace; empty where not wanted. */
  readonly digests: ReadonlyMap<string, string>;
}

export interface InventoryFile {
  /** In the workspace. */
  readonly path: string;
  /** Tags of its trees, in order. */
  readonly tags: readonly string[];
  /**
   * All its blocks, in order, some hundred at a time.
   * @param withSyntax where the syntax of every block is wanted
   * @throws UserError where the file changed since
   */
  readonly blocks: (withSyntax?: boolean) => Iterable<readonly PlacedNode[]>;
}

export interface LoadOptions {
  /** Whether all blocks stay in memory; by default those of small inventories. */
  readonly keep?: boolean;
  readonly digest?: boolean;
}

/**
 * Bytes; of larger inventories only what other files need stays in memory, and files are read again when they are
 * checked. To parse them twice takes less time than collecting the garbage around millions of facts.
 */
const KEPT_BYTES = 2 * 1024 * 1024;

/** A file after the first reading. */
interface Indexed {
  readonly source: string;
  readonly path: string;
  readonly tags: readonly string[];
  /** Offsets of the trees, in the same order. */
  readonly starts: readonly number[];
  /** Former tags, and which of the trees had each. */
  readonly formerly: readonly { readonly tree: number; readonly tag: string }[];
  /** All blocks, or those that apply to trees of others: what is no tree, and trees with nests. */
  readonly kept: readonly PlacedNode[];
  /** In which it was read; undefined where all blocks were kept. */
  readonly state: FileState | undefined;
  readonly digest: string | undefined;
}

/**
 * Reads the inventories of these files and folders (the working folder if there are none), with the sites,
 * persons and practice blocks of the folders above.
 */
export async function loadInventory(
  paths: readonly string[],
  { keep, digest = false }: LoadOptions,
  io: Io,
): Promise<Inventory> {
  const found = await findFiles(paths, io.cwd);
  const applicable = await applicableFiles(found.paths, io.cwd);
  const { root } = applicable;
  const all = [...found.paths, ...applicable.paths];
  const nameOf = (path: string) => shown(io.cwd, resolve(root, path));
  const problems = [...found.problems];
  const isKept = keep ?? isSmall(all);
  const unbounded = new Set(applicable.unbounded);
  const hash = digest ? (await import('node:crypto')).createHash : undefined;
  const indexed: Indexed[] = [];
  const progress = await progressOf(io, all.length, 'reading');
  for (const source of all) {
    try {
      const input = isStandardInput(source) ? await fromStandardInput() : undefined;
      const wanted = unbounded.has(source) ? 'shared' : isKept ? 'all' : 'index';
      indexed.push(indexFile(source, inWorkspace(root, source), wanted, input, hash?.('sha256')));
    } catch (error) {
      if (!isReadError(error)) throw error;
      problems.push({ file: shown(io.cwd, source), message: reasonOf(error) });
    }
    progress.step();
  }
  progress.end();
  const again = (file: Indexed, options: BlockOptions = {}) => readAgain(file, nameOf(file.path), options);
  const workspace = { ...workspaceOf(indexed, (file, wanted) => again(file, { wanted })), now: io.today };
  const asked = new Set(found.paths);
  return {
    workspace,
    files: indexed
      .filter(({ source }) => asked.has(source))
      .map(file => ({
        path: file.path,
        tags: file.tags,
        blocks: withSyntax =>
          file.state ? again(file, { withSyntax }) : [workspace.files.get(file.path)!.blocks],
      })),
    problems,
    root,
    nameOf,
    isKept: keep ?? false,
    unbounded: applicable.unbounded,
    digests: new Map(indexed.flatMap(({ path, digest: own }) => (own === undefined ? [] : [[path, own]]))),
  };
}

function isSmall(paths: readonly string[]): boolean {
  let bytes = 0;
  for (const path of paths) {
    bytes += statSync(path, { throwIfNoEntry: false })?.size ?? 0;
    if (bytes > KEPT_BYTES) return false;
  }
  return true;
}

interface Digest {
  update(bytes: Uint8Array): unknown;
  digest(encoding: 'hex'): string;
}

/**
 * @param wanted all blocks; those that other files need and an index of the trees; or of a file that may belong to another
 *   inventory only the first
 * @param input what was read of standard input, which can't be read again
 */
function indexFile(
  source: string,
  path: string,
  wanted: 'all' | 'index' | 'shared',
  input: Buffer | undefined,
  digest: Digest | undefined,
): Indexed {
  const tags: string[] = [];
  const starts: number[] = [];
  const formerly: { tree: number; tag: string }[] = [];
  const kept: PlacedNode[] = [];
  const seen: Seen = digest ? { bytes: bytes => void digest.update(bytes) } : {};
  const stretches = input ? [inputText(input)] : stretchesOf(source, { seen });
  if (input) digest?.update(input);
  const isKept = wanted === 'all' || input !== undefined;
  for (const blocks of placedBlocks(path, stretches)) {
    for (const placed of blocks) {
      const { fact } = placed.node;
      if (fact?.kind === 'tree' && wanted !== 'shared') {
        for (const { value } of fact.formerly) formerly.push({ tree: tags.length, tag: ownText(value) });
        tags.push(ownText(fact.tag.value));
        starts.push(placed.start);
      }
      if (isKept) kept.push(placed);
      else if (placed.node.isShared || placed.node.hasNest) kept.push(byItself(placed));
    }
  }
  const state = isKept ? undefined : seen.state;
  return { source, path, tags, starts, formerly, kept, state, digest: digest?.digest('hex') };
}

function inputText(bytes: Buffer): string {
  const read = readText(bytes);
  if ('problem' in read) throw new NotAFile(read.problem);
  return read.text;
}

interface BlockOptions {
  /** Offsets of blocks; stretches without any of them are passed over. */
  readonly wanted?: ReadonlySet<number>;
  /** Whether the syntax of every block is wanted, which would otherwise be parsed again. */
  readonly withSyntax?: boolean | undefined;
}

/** The blocks of stretches, in their places in the file. */
export function* placedBlocks(
  path: string,
  stretches: Iterable<string>,
  { wanted, withSyntax }: BlockOptions = {},
): Iterable<readonly PlacedNode[]> {
  const offsets = wanted && [...wanted].sort((a, b) => a - b);
  let next = 0;
  let start = 0;
  let line = 0;
  for (const text of stretches) {
    const end = start + text.length;
    while (offsets && offsets[next]! < start) next++;
    if (offsets && !(offsets[next]! < end)) {
      start = end;
      line += text.match(/\r\n|\r|\n/g)?.length ?? 0;
      continue;
    }
    const blocks: PlacedNode[] = [];
    for (const node of nodesOf(text, withSyntax)) {
      blocks.push(new PlacedNode(path, start, line, node));
      start += node.length;
      line += node.lineEnds;
    }
    yield blocks;
  }
}

/** Without the stretch that its strings are parts of, which would stay in memory with it. */
function byItself(placed: PlacedNode): PlacedNode {
  const { path, start, firstLine, node } = placed;
  // A damaged head is read with the block above it.
  if (node.isDamaged || !opensBlock(node.text)) return placed;
  return new PlacedNode(path, start, firstLine, new BlockNode(parseBlock(ownText(node.text))));
}

function* readAgain(
  { source, path, state }: Indexed,
  name: string,
  options: BlockOptions,
): Iterable<readonly PlacedNode[]> {
  try {
    yield* placedBlocks(path, stretchesOf(source, { expected: state }), options);
  } catch (error) {
    if (!isReadError(error)) throw error;
    throw new UserError(`${name} ${reasonOf(error)}.`);
  }
}

/** Whether a block is about a tree. */
export const isTreeBlock = (placed: PlacedNode): placed is PlacedFact<WrittenTree> =>
  placed.fact?.kind === 'tree';

/** Of files that are not kept: with the trees that rules across files look at. */
function workspaceOf(
  indexed: readonly Indexed[],
  again: (file: Indexed, wanted: ReadonlySet<number>) => Iterable<readonly PlacedNode[]>,
): Workspace {
  const snapshotOf = ({ path, kept, state }: Indexed, more: readonly PlacedNode[] = []): FileSnapshot =>
    state
      ? fileWith(
          path,
          [...kept, ...more].sort((a, b) => a.start - b.start),
        )
      : fileOf(
          path,
          kept.map(({ node }) => node),
        );
  const workspace = buildWorkspace(indexed.map(file => snapshotOf(file)));
  if (indexed.every(({ state }) => !state)) return workspace;
  const named = treesNamedTwice(indexed, path => placedSiteOf(workspace, path)?.path);
  if (named.size === 0) return workspace;
  return buildWorkspace(
    indexed.map(file => {
      const wanted = file.state && named.get(file);
      if (!wanted) return snapshotOf(file);
      const known = new Set(file.kept.map(({ start }) => start));
      const blocks = [...again(file, wanted)]
        .flat()
        .filter(({ start }) => wanted.has(start) && !known.has(start));
      return snapshotOf(file, blocks.map(byItself));
    }),
  );
}

/** Offsets of the trees whose tag another tree of their site has or had, and of those that had such a tag. */
function treesNamedTwice(
  indexed: readonly Indexed[],
  siteOf: (path: string) => string | undefined,
): ReadonlyMap<Indexed, ReadonlySet<number>> {
  const sites = new Map<string | undefined, Indexed[]>();
  for (const file of indexed) {
    const site = siteOf(file.path);
    const files = sites.get(site);
    if (files) files.push(file);
    else sites.set(site, [file]);
  }
  const found = new Map<Indexed, Set<number>>();
  const add = (file: Indexed, tree: number) => {
    const starts = found.get(file);
    if (starts) starts.add(file.starts[tree]!);
    else found.set(file, new Set([file.starts[tree]!]));
  };
  for (const files of sites.values()) {
    const seen = new Set<string>();
    const twice = new Set<string>();
    for (const { tags } of files) for (const tag of tags) (seen.has(tag) ? twice : seen).add(tag);
    for (const file of files)
      for (const { tree, tag } of file.formerly) {
        if (!seen.has(tag)) continue;
        twice.add(tag);
        add(file, tree);
      }
    if (twice.size === 0) continue;
    for (const file of files)
      file.tags.forEach((tag, tree) => {
        if (twice.has(tag)) add(file, tree);
      });
  }
  return found;
}
