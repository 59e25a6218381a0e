/** Differences between two states of an inventory, tree by tree. */

import { headName } from '../../grammar/names.ts';
import { attempt, Fault, type NotComputed, notComputed } from '../assess/not-computed.ts';
import { ratioText, shareText } from '../base/figures.ts';
import { grouped } from '../base/grouped.ts';
import type { Interval } from '../base/interval.ts';
import { folderOf } from '../facts/paths.ts';
import { treeOn } from '../facts/state.ts';
import type { Fact } from '../facts/types.ts';
import { type PlacedFact, settingsFor, siteOf, type Workspace } from '../facts/workspace.ts';
import { checkWorkspace, type Finding } from '../rules/check.ts';
import { figuresOf } from './figures.ts';
import { byFormerIdentity, byIdentity, notAmong } from './findings.ts';
import { pairTrees, type SiteTree, treeKey } from './pairs.ts';
import { blockChanges, blockSummary, type FieldChange, recordChanges } from './records.ts';

export interface FigureChange {
  readonly what: 'strength loss' | 'stress ratio' | 'anchorage left';
  /** `defect A`, `defect A under R1`. */
  readonly at: string;
  /** A ratio; absent where there is no such figure. */
  readonly before?: Interval;
  readonly after?: Interval;
}

/** A tree with changes in its record, figures or findings. */
export interface TreeChange {
  readonly site: string | undefined;
  readonly tag: string;
  readonly name: string | undefined;
  readonly state: 'added' | 'gone' | 'kept';
  /** Felled between the two states. */
  readonly felled: boolean;
  /** The earlier tag, if different. */
  readonly formerly?: string;
  /** The earlier site, if different. */
  readonly from?: string;
  /** Species and sizes of an added or removed tree. */
  readonly summary?: string;
  readonly changes: readonly FieldChange[];
  readonly figures: readonly FigureChange[];
  readonly came: readonly Finding[];
  readonly went: readonly Finding[];
}

/** A site, person, crew or practice block that changed. */
export interface OtherChange {
  readonly name: string;
  readonly state: 'added' | 'gone' | 'kept';
  readonly changes: readonly FieldChange[];
}

export interface Comparison {
  readonly trees: readonly TreeChange[];
  readonly others: readonly OtherChange[];
  /** New findings, and those with a higher level than before. */
  readonly came: readonly Finding[];
  /** Findings that ended, were lowered, or were accepted. */
  readonly went: readonly Finding[];
  /** Trees whose figures are not compared. */
  readonly notComputed: readonly NotComputed[];
}

/**
 * @param today day number for which both states are checked
 * @param asked whether a tree or a finding of this path is wanted; all by default, and what surrounds the trees always
 */
export function compareStates(
  before: Workspace,
  after: Workspace,
  today: number,
  asked: (path: string) => boolean = () => true,
): Comparison {
  const pairing = pairTrees(before, after);
  const isAsked = ({ placed }: SiteTree) => asked(placed.path);
  const later = byFormerIdentity(after, checkWorkspace(after, today), pairing);
  const earlier = byIdentity(before, checkWorkspace(before, today));
  const came = new Set([...notAmong(later, earlier)].filter(({ file }) => asked(file)));
  const went = new Set([...notAmong(earlier, later)].filter(({ file }) => asked(file)));
  const cameTo = byTree(after, came);
  const wentFrom = byTree(before, went);
  const findings = (from: SiteTree | undefined, to: SiteTree | undefined) => ({
    came: (to && cameTo.get(keyOf(to))) ?? [],
    went: (from && wentFrom.get(keyOf(from))) ?? [],
  });
  const sameSurroundings = surroundingsOf(before) === surroundingsOf(after);
  const faulty: NotComputed[] = [];
  const figures = (from: SiteTree | undefined, to: SiteTree): readonly FigureChange[] => {
    const changed = attempt(() =>
      figureChanges(from ? figuresIn(before, from, today) : new Map(), figuresIn(after, to, today)),
    );
    if (!(changed instanceof Fault)) return changed;
    const { path, firstLine } = to.placed;
    faulty.push(notComputed({ file: path, line: firstLine + 1, what: `tree ${tagOf(to)}` }, changed));
    return [];
  };

  const kept = pairing.pairs.flatMap(({ before: old, after: now }): TreeChange[] => {
    if (!isAsked(old) && !isAsked(now)) return [];
    const same = sameSurroundings && sameText(old, now);
    const change: TreeChange = {
      ...named(now),
      state: 'kept',
      felled: !old.placed.fact.felled && now.placed.fact.felled !== undefined,
      ...(tagOf(old) === tagOf(now) ? {} : { formerly: tagOf(old) }),
      ...(old.site === now.site ? {} : { from: old.site ?? '' }),
      changes: same ? [] : blockChanges(old.placed.block, now.placed.block),
      figures: same ? [] : figures(old, now),
      ...findings(old, now),
    };
    return isChange(change) ? [change] : [];
  });
  const whole = (tree: SiteTree, state: 'added' | 'gone'): TreeChange => ({
    ...named(tree),
    state,
    felled: false,
    summary: blockSummary(tree.placed.block),
    changes: recordChanges(tree.placed.block, state === 'added' ? 'new' : 'gone'),
    figures: state === 'added' ? figures(undefined, tree) : [],
    ...(state === 'added' ? findings(undefined, tree) : findings(tree, undefined)),
  });
  return {
    trees: [
      ...kept,
      ...pairing.added.filter(isAsked).map(tree => whole(tree, 'added')),
      ...pairing.gone.filter(isAsked).map(tree => whole(tree, 'gone')),
    ].sort(bySiteAndTag),
    others: otherChanges(before, after),
    came: [...came],
    went: [...went],
    notComputed: faulty,
  };
}

const tagOf = ({ placed }: SiteTree): string => placed.fact.tag.value;
const keyOf = (tree: SiteTree): string => treeKey(tree.site, tagOf(tree));
const named = (tree: SiteTree) => ({
  site: tree.site,
  tag: tagOf(tree),
  name: tree.placed.fact.name?.value,
});

const isChange = ({ changes, figures, came, went, formerly, from }: TreeChange): boolean =>
  changes.length + figures.length + came.length + went.length > 0 ||
  formerly !== undefined ||
  from !== undefined;

const order = new Intl.Collator('en', { numeric: true });
const bySiteAndTag = (a: TreeChange, b: TreeChange): number =>
  order.compare(a.site ?? '', b.site ?? '') || order.compare(a.tag, b.tag);

function byTree(
  workspace: Workspace,
  findings: ReadonlySet<Finding>,
): ReadonlyMap<string, readonly Finding[]> {
  const ofTrees = [...findings].filter(({ tree }) => tree !== undefined);
  return grouped(ofTrees, ({ file, tree }) => treeKey(siteOf(workspace, file)?.name.value, tree!));
}

const sameText = ({ placed: a }: SiteTree, { placed: b }: SiteTree): boolean =>
  a.block.text === b.block.text && folderOf(a.path) === folderOf(b.path);

/** Everything besides a tree's own record that its figures depend on. */
const surroundingsOf = ({ files }: Workspace): string =>
  JSON.stringify(
    [...files.values()].flatMap(({ others }) =>
      others.map(({ path, block }) => [folderOf(path), block.text]),
    ),
  );

const figuresIn = (workspace: Workspace, { placed: { fact, path } }: SiteTree, today: number) =>
  figuresOf(treeOn(fact, today), siteOf(workspace, path), settingsFor(workspace, path, today));

type Figures = ReturnType<typeof figuresOf>;

/** Figures that differ as displayed. */
function figureChanges(before: Figures, after: Figures): readonly FigureChange[] {
  return [...new Set([...before.keys(), ...after.keys()])].flatMap(key => {
    const [old, now] = [before.get(key), after.get(key)];
    if (old && now && showFigure(old) === showFigure(now)) return [];
    const { what, at } = (now ?? old)!;
    return [{ what, at, ...(old ? { before: old.value } : {}), ...(now ? { after: now.value } : {}) }];
  });
}

/** A figure as displayed: `12.5..34.3 %`, `0.94`. */
export const showFigure = ({
  what,
  value,
}: {
  readonly what: FigureChange['what'];
  readonly value: Interval;
}): string => (what === 'stress ratio' ? ratioText(value) : shareText(value));

/** Sites, persons and crews by name; practice blocks also by folder, since they apply there. */
function otherChanges(before: Workspace, after: Workspace): readonly OtherChange[] {
  const [old, now] = [othersOf(before), othersOf(after)];
  return [...new Set([...now.keys(), ...old.keys()])].flatMap((name): OtherChange[] => {
    const [from, to] = [old.get(name), now.get(name)];
    const block = (to ?? from)!.block;
    if (!from || !to) {
      const change = to
        ? { kind: 'new' as const, after: blockSummary(block) }
        : { kind: 'gone' as const, before: blockSummary(block) };
      return [{ name, state: to ? 'added' : 'gone', changes: [{ record: '', field: '', ...change }] }];
    }
    const changes = blockChanges(from.block, to.block);
    return changes.length > 0 ? [{ name, state: 'kept', changes }] : [];
  });
}

function othersOf({ files }: Workspace): ReadonlyMap<string, PlacedFact<Fact>> {
  const others = new Map<string, PlacedFact<Fact>>();
  for (const file of files.values()) {
    for (const placed of file.others) {
      const name = otherName(placed);
      let unique = name;
      for (let count = 2; others.has(unique); count++) unique = `${name} (${count})`;
      others.set(unique, placed);
    }
  }
  return others;
}

function otherName({ fact, block, path }: PlacedFact<Fact>): string {
  if (fact.kind === 'site') return `site ${fact.name.value}`;
  const name = headName(block.lines[block.sections[0]!.head]!);
  const folder = folderOf(path);
  return fact.kind === 'practice' && folder !== '' ? `${name} in ${folder}` : name;
}
