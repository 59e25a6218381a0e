/**
 * What holds across files: sites and practice by folder, persons, crews, trees by site and tag. A workspace is
 * immutable; what its settings rest on is handed from one state to the next as long as nothing of it changes.
 */

import type { FileSnapshot, PlacedFact } from './file.ts';
import type { PhotoIndex } from './photos.ts';
import { type PracticeSource, type Settings, settingsUnder } from './settings.ts';
import { indexTrees, type TreeIndex, treesTagged, updateTrees } from './tree-index.ts';
import type { Crew, Person, Practice, Site, Tree } from './types.ts';

export { atPath, editFile, type FileSnapshot, type PlacedFact, readFile } from './file.ts';
export { doubledTags, renamedTrees } from './tree-index.ts';

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

/** One state of a workspace on one day. */
export interface DatedWorkspace {
  readonly workspace: Workspace;
  /** Day number. */
  readonly today: number;
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

/** Looks persons up by their id. */
export const personIn =
  ({ persons }: Pick<Workspace, 'persons'>) =>
  (id: string): Person | undefined =>
    persons.get(id)?.fact;

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
  const files = new Map(ordered.map(file => [file.path, file]));
  const workspace: Workspace = { files, sites, practices, persons, crews, shared };
  if (previous) handOnIndex(previous, workspace);
  return workspace;
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

export function withPhotos(workspace: Workspace, photos: PhotoIndex): Workspace {
  const next = { ...workspace, photos };
  handOnIndex(workspace, next);
  return next;
}

/** The folder of a path, without a slash at its end; '' for the root. */
export const folderOf = (path: string): string => path.slice(0, Math.max(0, path.lastIndexOf('/')));

/** A folder and those above it, nearest first, down to the root ''. */
export function foldersUp(folder: string): readonly string[] {
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
  const settings = settingsUnder(practicesOver(workspace, folder), regionOf(workspace, folder));
  workspace.shared.settings.set(folder, settings);
  return settings;
}

/** What would hold in the folder of a practice block without it. */
export const settingsWithout = (workspace: Workspace, { path, fact }: PlacedFact<Practice>): Settings => {
  const folder = folderOf(path);
  const others = practicesOver(workspace, folder).map(blocks => blocks.filter(other => other.fact !== fact));
  return settingsUnder(others, regionOf(workspace, folder));
};

const practicesOver = ({ practices }: Workspace, folder: string): readonly (readonly PracticeSource[])[] =>
  foldersUp(folder).map(at => practices.get(at) ?? []);

const regionOf = (workspace: Workspace, folder: string): string | undefined =>
  siteAbove(workspace, folder)?.fact.region?.value;

const indexed = new WeakMap<Workspace, TreeIndex>();

const sitesIn = (workspace: Workspace) => (path: string) => placedSiteOf(workspace, path)?.path;

/** The trees of the workspace by site and tag. */
export function treeIndex(workspace: Workspace): TreeIndex {
  let index = indexed.get(workspace);
  if (!index) indexed.set(workspace, (index = indexTrees(workspace.files, sitesIn(workspace))));
  return index;
}

/** An index that was made for the state before is brought up to date, and is that state's no more. */
function handOnIndex(previous: Workspace, next: Workspace): void {
  const index = indexed.get(previous);
  if (!index) return;
  indexed.delete(previous);
  const updated = updateTrees(index, next.files, sitesIn(next));
  if (updated) indexed.set(next, updated);
}

/** The trees with a tag in the site that owns a file, by file and place. */
export const treesNamed = (workspace: Workspace, path: string, tag: string): readonly PlacedFact<Tree>[] =>
  treesTagged(treeIndex(workspace), sitesIn(workspace)(path), tag);
