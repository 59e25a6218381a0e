/**
 * Trees by site and tag. One index follows all states of a workspace: what differs between the state that it was last
 * asked about and the next one is removed and added, so that an edit costs what it changed.
 */

import { type BlockNode, difference, type FileSnapshot, type PlacedFact, type PlacedNode } from './file.ts';
import type { Placed, WrittenTree } from './types.ts';

type Files = ReadonlyMap<string, FileSnapshot>;
/** Path of the file with the site that owns a file; files without a site count as one site, under undefined. */
type SiteOf = (path: string) => string | undefined;

/** A tree in its file; where in the file is looked up when needed. */
interface Entry {
  readonly path: string;
  readonly node: BlockNode;
}

interface SiteTrees {
  /** In no order where there are several. */
  readonly byTag: Map<string, Entry[]>;
  /** Tags of more than one tree. */
  readonly doubled: Set<string>;
  /** Trees that had another tag formerly. */
  readonly renamed: Map<BlockNode, Entry>;
}

export class TreeIndex {
  private sites = new Map<string | undefined, SiteTrees>();
  private files: Files = new Map();
  private siteByPath = new Map<string, string | undefined>();

  /** Brings the index to this state of the workspace. */
  update(files: Files, siteOf: SiteOf): this {
    if (files === this.files) return this;
    const before = this.files;
    this.files = files;
    const moved = [...before.keys()].some(
      path => !files.has(path) || siteOf(path) !== this.siteByPath.get(path),
    );
    if (moved) {
      this.sites = new Map();
      this.siteByPath = new Map();
    }
    for (const [path, file] of files) {
      const known = moved ? undefined : before.get(path);
      if (known === file) continue;
      this.siteByPath.set(path, siteOf(path));
      this.replace(path, known?.nodes ?? [], file.nodes);
    }
    return this;
  }

  private replace(path: string, before: readonly BlockNode[], now: readonly BlockNode[]): void {
    const trees = this.treesOf(this.siteByPath.get(path));
    const { from, oldEnd, newEnd } = difference(before, now);
    for (let i = from; i < oldEnd; i++) remove(trees, before[i]!);
    for (let i = from; i < newEnd; i++) add(trees, { path, node: now[i]! });
  }

  private treesOf(site: string | undefined): SiteTrees {
    let trees = this.sites.get(site);
    if (!trees) this.sites.set(site, (trees = { byTag: new Map(), doubled: new Set(), renamed: new Map() }));
    return trees;
  }

  /** The trees of a site with a tag, by file and place. */
  tagged(site: string | undefined, tag: string): readonly PlacedFact<WrittenTree>[] {
    return this.placed([this.sites.get(site)?.byTag.get(tag) ?? []])[0]!;
  }

  /** Every group of trees of one site that have one tag, each by file and place. */
  doubled(): readonly (readonly PlacedFact<WrittenTree>[])[] {
    return this.placed(
      [...this.sites.values()].flatMap(({ byTag, doubled }) => [...doubled].map(tag => byTag.get(tag)!)),
    );
  }

  /** Every former tag that another tree of the site has now: the tree that had it, then those that have it. */
  reused(): readonly {
    readonly former: Placed<string>;
    readonly trees: readonly PlacedFact<WrittenTree>[];
  }[] {
    const found: { former: Placed<string>; entries: readonly Entry[] }[] = [];
    for (const { byTag, renamed } of this.sites.values())
      for (const entry of renamed.values())
        for (const former of (entry.node.fact as WrittenTree).formerly) {
          const others = byTag.get(former.value)?.filter(({ node }) => node !== entry.node) ?? [];
          if (others.length > 0) found.push({ former, entries: [entry, ...others] });
        }
    const placed = this.placed(found.map(({ entries }) => entries.slice(0, 1)));
    const others = this.placed(found.map(({ entries }) => entries.slice(1)));
    return found.map(({ former }, i) => ({ former, trees: [...placed[i]!, ...others[i]!] }));
  }

  /** Groups of trees in their places: one pass over each file that has one of them. */
  private placed(groups: readonly (readonly Entry[])[]): readonly (readonly PlacedFact<WrittenTree>[])[] {
    const wanted = new Map<string, Set<BlockNode>>();
    for (const { path, node } of groups.flat()) {
      const known = wanted.get(path);
      if (known) known.add(node);
      else wanted.set(path, new Set([node]));
    }
    const places = new Map<BlockNode, PlacedFact<WrittenTree>>();
    for (const [path, nodes] of wanted) {
      const file = this.files.get(path)!;
      for (let i = 0; i < file.nodes.length; i++)
        if (nodes.has(file.nodes[i]!)) places.set(file.nodes[i]!, file.placed(i) as PlacedFact<WrittenTree>);
    }
    return groups.map(group => group.map(({ node }) => places.get(node)!).sort(byFileAndPlace));
  }
}

const byFileAndPlace = (a: PlacedNode, b: PlacedNode): number =>
  a.path < b.path ? -1 : a.path > b.path ? 1 : a.start - b.start;

function add({ byTag, doubled, renamed }: SiteTrees, entry: Entry): void {
  const { fact } = entry.node;
  if (fact?.kind !== 'tree') return;
  const tag = fact.tag.value;
  const same = byTag.get(tag);
  if (same) {
    same.push(entry);
    doubled.add(tag);
  } else byTag.set(tag, [entry]);
  if (fact.formerly.length > 0) renamed.set(entry.node, entry);
}

function remove({ byTag, doubled, renamed }: SiteTrees, node: BlockNode): void {
  const { fact } = node;
  if (fact?.kind !== 'tree') return;
  const tag = fact.tag.value;
  const left = byTag.get(tag)!.filter(entry => entry.node !== node);
  if (left.length > 0) byTag.set(tag, left);
  else byTag.delete(tag);
  if (left.length < 2) doubled.delete(tag);
  renamed.delete(node);
}
