/**
 * What applies across files: sites and practice by folder, persons, crews, trees by site and tag. A workspace is
 * immutable; what its settings rest on is passed from one state to the next as long as nothing of it changes.
 */

import { inTable, memo } from '../base/memo.ts';
import { GATHERED, lastChange } from '../practice/law/laws-of.ts';
import type { FileSnapshot, PlacedFact } from './file.ts';
import { NestIndex, type NestTree, type NestTreesNear } from './nest-index.ts';
import { folderOf, foldersUp } from './paths.ts';
import { type PhotoFile, type PhotoIndex, photoNamed } from './photos.ts';
import { type PracticeSource, type Settings, settingsUnder } from './settings.ts';
import { TreeIndex } from './tree-index.ts';
import type { Crew, Person, Practice, Site, WrittenTree } from './types.ts';

export { atPath, editFile, type FileSnapshot, type PlacedFact, readFile } from './file.ts';

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
  /** Get it by `treeIndex`, which brings it to this state. */
  readonly index: TreeIndex;
  /** The same object as long as no tree with a nest changes. */
  readonly nests: NestIndex;
  /** What is known of the files of photographs; absent where nobody looked. */
  readonly photos?: PhotoIndex;
  /** The day of the clock, where a state of another day is asked for. */
  readonly now?: number | undefined;
}

/** One state of a workspace on one day. */
export interface DatedWorkspace {
  readonly workspace: Workspace;
  /** Day number. */
  readonly today: number;
}

/**
 * The facts that affect trees of many files, without their places. While it is the same object, a tree that did not
 * change is judged as before.
 */
export interface Shared {
  readonly facts: readonly { readonly path: string; readonly fact: Site | Practice | Person | Crew }[];
}

/** Looks persons up by their id. */
export const personIn =
  ({ persons }: Pick<Workspace, 'persons'>) =>
  (id: string): Person | undefined =>
    persons.get(id)?.fact;

/** Looks crews up by their id. */
export const crewIn =
  ({ crews }: Pick<Workspace, 'crews'>) =>
  (id: string): Crew | undefined =>
    crews.get(id)?.fact;

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
  const shared = previous && sameFacts(previous.shared.facts, facts) ? previous.shared : { facts };
  const files = new Map(ordered.map(file => [file.path, file]));
  const index = previous?.index ?? new TreeIndex();
  const nests = nestsIn(ordered, sites, previous?.nests);
  return { files, sites, practices, persons, crews, shared, index, nests };
}

function nestsIn(
  files: readonly FileSnapshot[],
  sites: Workspace['sites'],
  previous: NestIndex | undefined,
): NestIndex {
  const trees = files.flatMap(({ path, nestTrees }): readonly NestTree[] => {
    if (nestTrees.length === 0) return [];
    const site = siteAbove({ sites }, folderOf(path))?.path;
    return nestTrees.map(tree => ({ path, site, tree }));
  });
  const isSame = ({ path, site, tree }: NestTree, i: number): boolean => {
    const before = previous!.trees[i]!;
    return tree === before.tree && path === before.path && site === before.site;
  };
  return previous?.trees.length === trees.length && trees.every(isSame) ? previous : new NestIndex(trees);
}

/** The lookup of nests for the trees of a file. */
export const nestTreesAround = (workspace: Workspace, path: string): NestTreesNear =>
  workspace.nests.around(placedSiteOf(workspace, path)?.path);

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

/** The site that owns a file: that of its folder, else of the nearest folder above. */
export const siteOf = (workspace: Workspace, path: string): Site | undefined =>
  placedSiteOf(workspace, path)?.fact;

export const placedSiteOf = (workspace: Workspace, path: string): PlacedFact<Site> | undefined =>
  siteAbove(workspace, folderOf(path));

function siteAbove({ sites }: Pick<Workspace, 'sites'>, folder: string): PlacedFact<Site> | undefined {
  for (const at of foldersUp(folder)) {
    const site = sites.get(at);
    if (site) return site;
  }
  return undefined;
}

/** Settings by folder on a day, filled on demand: they are the same until a row of law changes. */
export const settingsByFolder = memo(
  (_shared: Shared, _on: number) => new Map<string, Settings>(),
  (_, on) => [lastChange(on)],
);

/** Limits, seasons and severities for a file on a day: practice of its folder and of those above, the nearest first. */
export function settingsFor(workspace: Workspace, path: string, on = GATHERED): Settings {
  const folder = folderOf(path);
  return inTable(settingsByFolder(workspace.shared, on), folder, () =>
    settingsUnder(practicesOver(workspace, folder), regionOf(workspace, folder), on),
  );
}

/** What would apply in the folder of a practice block without it. */
export const settingsWithout = (
  workspace: Workspace,
  { path, fact }: PlacedFact<Practice>,
  on = GATHERED,
): Settings => {
  const folder = folderOf(path);
  const others = practicesOver(workspace, folder).map(blocks => blocks.filter(other => other.fact !== fact));
  return settingsUnder(others, regionOf(workspace, folder), on);
};

const practicesOver = ({ practices }: Workspace, folder: string): readonly (readonly PracticeSource[])[] =>
  foldersUp(folder).map(at => practices.get(at) ?? []);

const regionOf = (workspace: Workspace, folder: string): string | undefined =>
  siteAbove(workspace, folder)?.fact.region?.value;

const sitesIn = (workspace: Workspace) => (path: string) => placedSiteOf(workspace, path)?.path;

/** The trees of the workspace by site and tag. */
export const treeIndex = (workspace: Workspace): TreeIndex =>
  workspace.index.update(workspace.files, sitesIn(workspace));

/** The trees with a tag in the site that owns a file, by file and place. */
export const treesNamed = (
  workspace: Workspace,
  path: string,
  tag: string,
): readonly PlacedFact<WrittenTree>[] => treeIndex(workspace).tagged(sitesIn(workspace)(path), tag);

/** What is known of the files that an inventory file names, by their paths as written there. */
export const filesNamed =
  ({ photos }: Workspace, path: string) =>
  (written: string): PhotoFile | undefined =>
    photoNamed(photos, folderOf(path), written);
