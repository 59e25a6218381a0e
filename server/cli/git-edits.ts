/** Who changed what in the record of a tree, and when, by git. */

import { dirname, resolve } from 'node:path';
import { blockChanges, recordChanges } from '../compare/records.ts';
import type { WrittenTree } from '../facts/types.ts';
import { type PlacedFact, readFile } from '../facts/workspace.ts';
import { type FileVersion, openRepository, versionsOf } from '../host/git.ts';
import { readText } from '../host/read-text.ts';
import type { Edit } from '../show/history.ts';
import type { Io } from './io.ts';

type Trees = readonly PlacedFact<WrittenTree>[];

interface Versions {
  readonly version: FileVersion;
  readonly before: Trees;
  readonly after: Trees;
}

/** Reads the history of each file once. */
export function editsByGit(
  io: Io,
): (file: string, placed: PlacedFact<WrittenTree>) => Promise<readonly Edit[]> {
  const read = new Map<string, Promise<readonly Versions[]>>();
  return async (file, placed) => {
    const known = read.get(file) ?? versionsOfFile(file, io);
    read.set(file, known);
    return editsOf(placed, await known);
  };
}

async function versionsOfFile(file: string, io: Io): Promise<readonly Versions[]> {
  const path = resolve(io.cwd, file);
  const folder = dirname(path);
  const repository = await openRepository(folder, io.cwd);
  const versions = await versionsOf(repository, repository.pathOf(path)!);
  return versions.map(version => ({
    version,
    before: treesIn(version.before),
    after: treesIn(version.after),
  }));
}

/** A version that is no text has no trees. */
function treesIn(bytes: Uint8Array | undefined): Trees {
  const read = bytes && readText(bytes);
  return read && !('problem' in read) ? readFile('', read.text).trees : [];
}

/** The newest first; of the tree under an earlier tag too. */
function editsOf({ fact }: PlacedFact<WrittenTree>, all: readonly Versions[]): readonly Edit[] {
  const tags = new Set([fact.tag.value, ...fact.formerly.map(({ value }) => value)]);
  const own = (trees: Trees) => trees.find(one => tags.has(one.fact.tag.value));
  return all.flatMap(({ version, before, after }): readonly Edit[] => {
    const [was, is] = [own(before), own(after)];
    if (was?.block.text === is?.block.text) return [];
    const { commit, author, day } = version;
    const state = was ? (is ? 'kept' : 'gone') : 'added';
    const changes =
      was && is
        ? blockChanges(was.block, is.block)
        : is
          ? recordChanges(is.block, 'new')
          : recordChanges(was!.block, 'gone');
    return changes.length > 0 || state !== 'kept' ? [{ commit, author, day, state, changes }] : [];
  });
}
