/** Matches the trees of two states by site and tag, across new tags, files and sites. */

import type { WrittenTree } from '../facts/types.ts';
import { type PlacedFact, placedSiteOf, type Workspace } from '../facts/workspace.ts';

/** A tree with the name of its site. */
export interface SiteTree {
  readonly site: string | undefined;
  readonly placed: PlacedFact<WrittenTree>;
}

interface TreePair {
  readonly before: SiteTree;
  readonly after: SiteTree;
}

export interface Pairing {
  /** In the order of the later state. */
  readonly pairs: readonly TreePair[];
  readonly added: readonly SiteTree[];
  readonly gone: readonly SiteTree[];
}

export const treeKey = (site: string | undefined, tag: string): string => JSON.stringify([site ?? '', tag]);

const keyOf = ({ site, placed }: SiteTree): string => treeKey(site, placed.fact.tag.value);

/** All trees in file order, each with its site. */
function siteTrees(workspace: Workspace): readonly SiteTree[] {
  return [...workspace.files.values()].flatMap(file => {
    const site = placedSiteOf(workspace, file.path)?.fact.name.value;
    return file.trees.map(placed => ({ site, placed }));
  });
}

/**
 * A tree keeps its tag within its site. A tree with a new tag whose `formerly` names an earlier one is the same
 * tree; so is a tree that moved to another site under its tag, if species and position agree and no other tree
 * matches.
 */
export function pairTrees(before: Workspace, after: Workspace): Pairing {
  const earlier = siteTrees(before);
  const later = siteTrees(after);
  const open = new Map<string, SiteTree[]>();
  for (const tree of earlier) add(open, keyOf(tree), tree);
  const tags = new Set(open.keys());
  const partner = new Map<SiteTree, SiteTree>();
  const take = (tree: SiteTree, key: string) => {
    const found = open.get(key)?.shift();
    if (found) partner.set(tree, found);
  };
  // New tags first: the former tag may have been given to another tree.
  for (const tree of later) {
    if (tags.has(keyOf(tree))) continue;
    const former = tree.placed.fact.formerly.find(({ value }) => open.get(treeKey(tree.site, value))?.length);
    if (former) take(tree, treeKey(tree.site, former.value));
  }
  for (const tree of later) if (!partner.has(tree)) take(tree, keyOf(tree));

  const left = [...open.values()].flat();
  const moved = (tree: SiteTree) => left.filter(old => sameTree(old, tree));
  const arrived = later.filter(tree => !partner.has(tree));
  const moves = arrived.flatMap(tree => {
    const [old, another] = moved(tree);
    const alone = old && !another && arrived.filter(other => sameTree(old, other)).length === 1;
    return alone ? [{ tree, old }] : [];
  });
  for (const { tree, old } of moves) partner.set(tree, old);

  const paired = new Set(partner.values());
  return {
    pairs: later.flatMap(tree => (partner.has(tree) ? [{ before: partner.get(tree)!, after: tree }] : [])),
    added: later.filter(tree => !partner.has(tree)),
    gone: earlier.filter(tree => !paired.has(tree)),
  };
}

function add<T>(map: Map<string, T[]>, key: string, value: T): void {
  const list = map.get(key);
  if (list) list.push(value);
  else map.set(key, [value]);
}

/** Whether records on two sites may be of the same tree. */
function sameTree({ placed: { fact: a } }: SiteTree, { placed: { fact: b } }: SiteTree): boolean {
  if (a.tag.value !== b.tag.value) return false;
  if (JSON.stringify(a.species?.value) !== JSON.stringify(b.species?.value)) return false;
  const [from, to] = [a.position, b.position];
  return !from || !to || (from.latitude === to.latitude && from.longitude === to.longitude);
}
