/**
 * What holds across files: sites and practice by folder, persons, crews, trees by site and tag. A workspace is
 * immutable; what its settings rest on is handed from one state to the next as long as nothing of it changes.
 */

import type { FileSnapshot, PlacedFact } from './file.ts';
import type { PhotoIndex } from './photos.ts';
import { type PracticeSource, type Settings, settingsUnder } from './settings.ts';
import type { Crew, Person, Practice, Site, Tree } from './types.ts';

export { type FileSnapshot, type PlacedFact, readFile } from './file.ts';

export interface Workspace {
  /** By path, in the order of the paths. */
  readonly files: ReadonlyMap<string, FileSnapshot>;
  /** The site that each folder holds itself; the first one where there are several. The root is ''. */
  readonly sites: ReadonlyMap<string, PlacedFact<Site>>;
  readonly practices: ReadonlyMap<string, readonly PlacedFact<Practice>[]>;
  /** By id; the first one where there are several. */
  readonly persons: ReadonlyMap<string, PlacedFact<Person>>;
  readonly crews: ReadonlyMap<string, PlacedFact<Crew>>;
  readonly shared: Shared;
  /** What is known of the files of photographs; absent where nobody looked. */
  readonly photos?: PhotoIndex;
}

/**
 * The facts that bear on trees of many files, without their places, and what follows from them. While it is the
 * same object, a tree that did not change is judged as before.
 */
export interface Shared {
  readonly facts: readonly { readonly path: string; readonly fact: Site | Practice | Person | Crew }[];
  /** Filled as folders are asked for. */
  readonly settings: Map<string, Settings>;
}

/** With an earlier state, what the settings rest on is taken over from it where it is the same. */
export function buildWorkspace(snapshots: readonly FileSnapshot[], previous?: Workspace): Workspace {
  const ordered = snapshots.toSorted((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0));
  const sites = new Map<string, PlacedFact<Site>>();
  const practices = new Map<string, PlacedFact<Practice>[]>();
  const persons = new Map<string, PlacedFact<Person>>();
  const crews = new Map<string, PlacedFact<Crew>>();
  const facts: { path: string; fact: Site | Practice | Person | Crew }[] = [];
  for (const { path, others } of ordered) {
    for (const placed of others) {
      facts.push({ path, fact: placed.fact });
      switch (placed.fact.kind) {
        case 'site':
          addFirst(sites, folderOf(path), placed as PlacedFact<Site>);
          break;
        case 'practice': {
          const list = practices.get(folderOf(path));
          if (list) list.push(placed as PlacedFact<Practice>);
          else practices.set(folderOf(path), [placed as PlacedFact<Practice>]);
          break;
        }
        case 'person':
          addFirst(persons, placed.fact.id.value, placed as PlacedFact<Person>);
          break;
        case 'crew':
          addFirst(crews, placed.fact.id.value, placed as PlacedFact<Crew>);
          break;
      }
    }
  }
  const shared =
    previous && sameFacts(previous.shared.facts, facts) ? previous.shared : { facts, settings: new Map() };
  return { files: new Map(ordered.map(file => [file.path, file])), sites, practices, persons, crews, shared };
}

function addFirst<T>(map: Map<string, T>, key: string, value: T): void {
  if (!map.has(key)) map.set(key, value);
}

function sameFacts(before: Shared['facts'], now: Shared['facts']): boolean {
  return (
    before.length === now.length &&
    before.every(({ path, fact }, i) => fact === now[i]!.fact && path === now[i]!.path)
  );
}

export const withPhotos = (workspace: Workspace, photos: PhotoIndex): Workspace => ({ ...workspace, photos });

/** The folder of a path, without a slash at its end; '' for the root. */
export const folderOf = (path: string): string => path.slice(0, Math.max(0, path.lastIndexOf('/')));

/** A folder and those above it, nearest first, down to the root ''. */
function foldersUp(folder: string): readonly string[] {
  const folders = [folder];
  for (let at = folder; at !== ''; ) folders.push((at = folderOf(at)));
  return folders;
}

/** The site that owns a file: that of its folder, else of the nearest folder above. */
export const siteOf = (workspace: Workspace, path: string): Site | undefined =>
  placedSiteOf(workspace, path)?.fact;

export const placedSiteOf = (workspace: Workspace, path: string): PlacedFact<Site> | undefined =>
  siteAbove(workspace, folderOf(path));

function siteAbove({ sites }: Workspace, folder: string): PlacedFact<Site> | undefined {
  for (const at of foldersUp(folder)) {
    const site = sites.get(at);
    if (site) return site;
  }
  return undefined;
}

/** Limits, seasons and severities for a file: practice of its folder and of those above, the nearest first. */
export function settingsFor(workspace: Workspace, path: string): Settings {
  const folder = folderOf(path);
  const known = workspace.shared.settings.get(folder);
  if (known) return known;
  const practices: readonly PracticeSource[] = foldersUp(folder).flatMap(
    at => workspace.practices.get(at) ?? [],
  );
  const settings = settingsUnder(practices, siteAbove(workspace, folder)?.fact.region?.value);
  workspace.shared.settings.set(folder, settings);
  return settings;
}

/** Trees by tag; several where a tag is given twice. */
export type TreesByTag = ReadonlyMap<string, readonly PlacedFact<Tree>[]>;

const indexed = new WeakMap<Workspace, ReadonlyMap<string | undefined, TreesByTag>>();

/** By the path of the file with the site; files that no site owns count as one site, under undefined. */
export function treesBySite(workspace: Workspace): ReadonlyMap<string | undefined, TreesByTag> {
  let bySite = indexed.get(workspace);
  if (!bySite) indexed.set(workspace, (bySite = indexTrees(workspace)));
  return bySite;
}

/** The trees of the site that owns a file. */
export const treesAround = (workspace: Workspace, path: string): TreesByTag =>
  treesBySite(workspace).get(placedSiteOf(workspace, path)?.path) ?? new Map();

function indexTrees(workspace: Workspace): ReadonlyMap<string | undefined, TreesByTag> {
  const bySite = new Map<string | undefined, Map<string, PlacedFact<Tree>[]>>();
  for (const file of workspace.files.values()) {
    const site = placedSiteOf(workspace, file.path)?.path;
    let trees = bySite.get(site);
    if (!trees) bySite.set(site, (trees = new Map()));
    for (const tree of file.trees) {
      const same = trees.get(tree.fact.tag.value);
      if (same) same.push(tree);
      else trees.set(tree.fact.tag.value, [tree]);
    }
  }
  return bySite;
}
