/**
 * Trees by site and tag. The index of the newest workspace takes over that of the one before it and changes only
 * what an edit changed; whoever asks an older workspace again has it built anew.
 */

import { changeBetween, type FileSnapshot, type PlacedFact, type Stated } from './file.ts';
import type { Tree } from './types.ts';

/** A tree's block and the path of its file: where it lies there is looked up when it is needed. */
interface Listed {
  readonly path: string;
  readonly stated: Stated;
}

/** The trees of one site. */
interface SiteTrees {
  /** In no order where there are several. */
  readonly byTag: Map<string, Listed[]>;
  /** Tags that more than one tree has. */
  readonly doubled: Set<string>;
  /** Trees that had another tag formerly. */
  readonly renamed: Map<Stated, Listed>;
}

/** By the path of the file with the site; files that no site owns count as one site, under undefined. */
export interface TreeIndex {
  readonly sites: Map<string | undefined, SiteTrees>;
  /** The files that it was made from, and their sites. */
  readonly files: ReadonlyMap<string, FileSnapshot>;
  readonly siteOf: (path: string) => string | undefined;
}

type Files = ReadonlyMap<string, FileSnapshot>;

export function indexTrees(files: Files, siteOf: TreeIndex['siteOf']): TreeIndex {
  const index: TreeIndex = { sites: new Map(), files, siteOf };
  for (const { path, stated } of files.values()) {
    const site = siteTrees(index, siteOf(path));
    for (const one of stated) list(site, { path, stated: one });
  }
  return index;
}

/** The index brought up to date, to be used in place of the one given, which is spent; undefined where sites moved. */
export function updateTrees(
  index: TreeIndex,
  files: Files,
  siteOf: TreeIndex['siteOf'],
): TreeIndex | undefined {
  if (files.size !== index.files.size) return undefined;
  for (const path of files.keys())
    if (!index.files.has(path) || siteOf(path) !== index.siteOf(path)) return undefined;
  for (const [path, file] of files) {
    const before = index.files.get(path)!;
    if (file === before) continue;
    const site = siteTrees(index, siteOf(path));
    const { from, oldEnd, newEnd } = changeBetween(before, file);
    for (let i = from; i < oldEnd; i++) strike(site, before.stated[i]!);
    for (let i = from; i < newEnd; i++) list(site, { path, stated: file.stated[i]! });
  }
  return { ...index, files, siteOf };
}

function siteTrees({ sites }: TreeIndex, site: string | undefined): SiteTrees {
  let trees = sites.get(site);
  if (!trees) sites.set(site, (trees = { byTag: new Map(), doubled: new Set(), renamed: new Map() }));
  return trees;
}

function list({ byTag, doubled, renamed }: SiteTrees, listed: Listed): void {
  const { fact } = listed.stated;
  if (fact?.kind !== 'tree') return;
  const tag = fact.tag.value;
  const same = byTag.get(tag);
  if (same) {
    same.push(listed);
    doubled.add(tag);
  } else byTag.set(tag, [listed]);
  if (fact.formerly.length > 0) renamed.set(listed.stated, listed);
}

function strike({ byTag, doubled, renamed }: SiteTrees, stated: Stated): void {
  const { fact } = stated;
  if (fact?.kind !== 'tree') return;
  const tag = fact.tag.value;
  const left = byTag.get(tag)!.filter(listed => listed.stated !== stated);
  if (left.length > 0) byTag.set(tag, left);
  else byTag.delete(tag);
  if (left.length < 2) doubled.delete(tag);
  renamed.delete(stated);
}

/** The trees of a site with a tag, by file and place. */
export function treesTagged({ sites, files }: TreeIndex, site: string | undefined, tag: string) {
  return placedIn(files, sites.get(site)?.byTag.get(tag) ?? []);
}

/** Every group of trees of one site that have one tag. */
export function* doubledTags({ sites, files }: TreeIndex): Iterable<readonly PlacedFact<Tree>[]> {
  for (const { byTag, doubled } of sites.values())
    for (const tag of doubled) yield placedIn(files, byTag.get(tag)!);
}

/** Every tree that had another tag formerly, with a look-up of the trees of its site. */
export function* renamedTrees({ sites, files }: TreeIndex): Iterable<{
  readonly tree: PlacedFact<Tree>;
  readonly tagged: (tag: string) => readonly PlacedFact<Tree>[];
}> {
  for (const { byTag, renamed } of sites.values()) {
    const tagged = (tag: string) => placedIn(files, byTag.get(tag) ?? []);
    for (const tree of placedIn(files, [...renamed.values()])) yield { tree, tagged };
  }
}

function placedIn(files: Files, listed: readonly Listed[]): readonly PlacedFact<Tree>[] {
  if (listed.length === 0) return [];
  const placed = listed.map(({ path, stated }) => {
    const file = files.get(path)!;
    return file.placed(file.indexOf(stated)) as PlacedFact<Tree>;
  });
  return placed.sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : a.start - b.start));
}
