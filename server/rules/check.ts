/** Findings of blocks, of a file and of a workspace: mistakes in the notation, then what the rules report. */

import { meetsNests } from '../assess/near-nests.ts';
import { memo } from '../base/memo.ts';
import { type BlockNode, blockAt, difference, type PlacedNode } from '../facts/file.ts';
import { type NestTreesNear, noNestTrees } from '../facts/nest-index.ts';
import { folderOf } from '../facts/paths.ts';
import { type PhotoIndex, photoNamed } from '../facts/photos.ts';
import type { Settings } from '../facts/settings.ts';
import type { WrittenTree } from '../facts/types.ts';
import {
  type FileSnapshot,
  nestTreesAround,
  type PlacedFact,
  personIn,
  settingsFor,
  siteOf,
  type Workspace,
} from '../facts/workspace.ts';
import type { RuleEnvironment, TreeContext } from './context.ts';
import { byPlace, type Finding, findingOf, inPlace, mistakesIn } from './finding.ts';
import { contextFor, failure, lintTree, rawFinding, severityOf } from './lint-tree.ts';
import type { RawFinding } from './raw-finding.ts';
import { RULES, ruleNamed, ruleNames } from './registry.ts';
import type { PlacedReport } from './rule.ts';

export type { Finding } from './finding.ts';

/**
 * What the trees of a file are judged under. It is the same object as long as nothing of it changes, so that it is the
 * key under which findings are memoized.
 */
export interface FileEnvironment {
  readonly withPhotos: RuleEnvironment;
  /** For trees that name no photographs, whose findings don't change with what is known of those. */
  readonly withoutPhotos: RuleEnvironment;
  /** For the trees near those, which are few, so that an edit of a nest leaves the others alone. */
  readonly nestTreesNear: NestTreesNear;
}

/** @param photos of those known to the workspace others, where its files are looked at one after the other */
export function environmentOf(
  workspace: Workspace,
  path: string,
  today: number,
  photos = workspace.photos,
): FileEnvironment {
  const withoutPhotos = plainEnvironment(settingsFor(workspace, path, today), today, workspace, path);
  return {
    withPhotos: photoEnvironment(withoutPhotos, photos, path),
    withoutPhotos,
    nestTreesNear: nestTreesAround(workspace, path),
  };
}

/** Settings are those of one folder and of one state of the shared facts: the same settings, the same environment. */
const plainEnvironment = memo(
  (settings: Settings, today: number, workspace: Workspace, path: string): RuleEnvironment => {
    // Nothing here may keep the workspace: it would keep the one before, and so on.
    const { persons, crews } = workspace;
    return {
      site: siteOf(workspace, path),
      settings,
      person: personIn({ persons }),
      crew: id => crews.get(id)?.fact,
      personIds: [...persons.keys()],
      crewIds: [...crews.keys()],
      today,
      now: Math.max(today, workspace.now ?? today),
      nestTreesNear: noNestTrees,
      photos: undefined,
      photoFile: () => undefined,
    };
  },
  (_settings, today) => [today],
);

const photoEnvironment = memo(
  (environment: RuleEnvironment, photos: PhotoIndex | undefined, path: string): RuleEnvironment =>
    photos
      ? { ...environment, photos, photoFile: written => photoNamed(photos, folderOf(path), written) }
      : environment,
  (_environment, photos) => [photos],
);

const besideNests = memo(
  (environment: RuleEnvironment, nestTreesNear: NestTreesNear): RuleEnvironment =>
    nestTreesNear === noNestTrees ? environment : { ...environment, nestTreesNear },
);

function environmentFor(node: BlockNode, file: FileEnvironment): RuleEnvironment {
  const { nestTreesNear, withPhotos, withoutPhotos } = file;
  const own = node.namesPhotos ? withPhotos : withoutPhotos;
  if (nestTreesNear === noNestTrees || node.fact?.kind !== 'tree') return own;
  return meetsNests(node.fact, own, nestTreesNear) ? besideNests(own, nestTreesNear) : own;
}

/** What a file as a whole is judged under. */
const wholeEnvironment = ({ withPhotos, nestTreesNear }: FileEnvironment): RuleEnvironment =>
  besideNests(withPhotos, nestTreesNear);

const NONE: readonly Finding[] = [];

/** The findings about a block by itself, by place, as if the file began with it. */
function lint(node: BlockNode, environment: RuleEnvironment): readonly Finding[] {
  const raw = lintTree(node, environment);
  if (raw.length === 0 && !node.isDamaged) return NONE;
  const findings = mistakesIn(node);
  for (const one of raw)
    if (!isBothVersions(one.rule, node))
      findings.push(findingOf(one, { path: '', start: 0, firstLine: 0, node }));
  return findings.sort(byPlace);
}

const lintBlock = memo(lint);

/** Where Git left both versions of a change in a block, everything in it may be there twice: the conflict is reported. */
const isBothVersions = (rule: string, node: BlockNode): boolean =>
  node.isDamaged &&
  rule.startsWith('duplicate-') &&
  node.block.lines.some(({ mistake }) => mistake?.code === 'merge-conflict');

/**
 * All findings about a block, by place.
 * @param crossFile those of rules across files about the same block
 * @param isSeenAgain whether another state of the inventory may have the same block
 */
export function findingsAbout(
  placed: PlacedNode,
  environment: FileEnvironment,
  crossFile: readonly Finding[],
  isSeenAgain = false,
): readonly Finding[] {
  const own = (isSeenAgain ? lintBlock : lint)(placed.node, environmentFor(placed.node, environment));
  if (own.length + crossFile.length === 0) return NONE;
  const { path, start, firstLine } = placed;
  return merged(
    own.map(one => inPlace(one, path, start, firstLine)),
    crossFile,
  );
}

/** A finding about a block by itself, and which of its file's blocks that is. */
interface OwnFinding {
  readonly block: number;
  readonly finding: Finding;
  readonly rank: number;
}

interface FileFindings {
  readonly nodes: readonly BlockNode[];
  /** By place. */
  readonly own: readonly OwnFinding[];
}

/** The latest findings of each file under an environment. */
const latestFindings = memo((_environment: RuleEnvironment) => new Map<string, FileFindings>());

/** Continues from the latest state of the file, so that an edit costs the blocks that it touched. */
function lintFile({ path, nodes }: FileSnapshot, environment: FileEnvironment): readonly OwnFinding[] {
  const latest = latestFindings(wholeEnvironment(environment));
  const before = latest.get(path) ?? { nodes: [], own: [] };
  if (before.nodes === nodes) return before.own;
  const { from, oldEnd, newEnd } = difference(before.nodes, nodes);
  const own = before.own.filter(({ block }) => block < from);
  for (let block = from; block < newEnd; block++)
    for (const finding of lintBlock(nodes[block]!, environmentFor(nodes[block]!, environment)))
      own.push({ block, finding, rank: gravityOf(finding) });
  const shift = newEnd - oldEnd;
  for (const one of before.own) {
    if (one.block < oldEnd) continue;
    own.push(shift === 0 ? one : { block: one.block + shift, finding: one.finding, rank: one.rank });
  }
  latest.set(path, { nodes, own });
  return own;
}

const placedIn = (file: FileSnapshot, { block, finding }: OwnFinding): Finding =>
  inPlace(finding, file.path, file.starts[block]!, file.firstLines[block]!);

const merged = (own: readonly Finding[], crossFile: readonly Finding[]): readonly Finding[] =>
  crossFile.length === 0 ? own : [...own, ...crossFile].sort(byPlace);

const placedFindings = memo(
  (file: FileSnapshot, own: readonly OwnFinding[], crossFile: readonly Finding[]): readonly Finding[] =>
    merged(
      own.map(one => placedIn(file, one)),
      crossFile,
    ),
);

/**
 * All findings of a file, by position.
 * @param today day number
 */
export const checkFile = (workspace: Workspace, file: FileSnapshot, today: number): readonly Finding[] =>
  placedFindings(
    file,
    lintFile(file, environmentOf(workspace, file.path, today)),
    crossFileFindings(workspace, file.path, today),
  );

/** The findings about one block of a file, by position; nothing else of the file is judged. */
export function checkBlock(
  workspace: Workspace,
  file: FileSnapshot,
  block: number,
  today: number,
): readonly Finding[] {
  const { node, path, start, firstLine } = file.placed(block);
  const own = lintBlock(node, environmentFor(node, environmentOf(workspace, path, today)));
  return merged(
    own.map(one => inPlace(one, path, start, firstLine)),
    crossFileFindings(workspace, path, today).filter(
      found => start <= found.start && found.start < start + node.length,
    ),
  );
}

/** All findings of a workspace, by file and position. */
export const checkWorkspace = (workspace: Workspace, today: number): Finding[] =>
  [...workspace.files.values()].flatMap(file => checkFile(workspace, file, today));

/** Of open findings; accepted ones require nothing. */
export interface Counts {
  readonly errors: number;
  readonly warnings: number;
}

/** Some of the findings of a file. */
export interface Shown {
  /** By position. */
  readonly findings: readonly Finding[];
  /** How many there are in all. */
  readonly all: number;
  readonly counts: Counts;
}

const RANK: Record<Finding['level'], number> = { error: 1, warning: 2, note: 3 };
export const LEAST_GRAVE = 4;
/** From 0. Mistakes of writing first: what their lines say is unknown. Accepted findings last. */
export const gravityOf = ({ level, grade, accepted }: Finding): number =>
  accepted ? LEAST_GRAVE : grade === 'syntax' ? 0 : RANK[level];
const RANKS = LEAST_GRAVE + 1;

/**
 * At most so many of a file's findings: those of the blocks at hand before others, then mistakes of writing before
 * errors before warnings before notes, cross-file ones before others.
 * @param isAtHand whether a block, by its index, is at hand
 */
export function shownOf(
  workspace: Workspace,
  file: FileSnapshot,
  today: number,
  most: number,
  isAtHand: (block: number) => boolean = () => false,
): Shown {
  const crossFile = crossFileFindings(workspace, file.path, today);
  const own = lintFile(file, environmentOf(workspace, file.path, today));
  const all = own.length + crossFile.length;
  const counts = countsOf(own, crossFile);
  if (all <= most) return { findings: checkFile(workspace, file, today), all, counts };
  const rankIn = (block: number, rank: number) => (isAtHand(block) ? rank : rank + RANKS);
  const others = crossFile.map(finding => ({
    finding,
    rank: rankIn(blockAt(file, finding.start), gravityOf(finding)),
  }));
  const ranks = own.map(({ block, rank }) => rankIn(block, rank));
  const room = new Array<number>(2 * RANKS).fill(0);
  for (const { rank } of others) room[rank]!++;
  for (const rank of ranks) room[rank]!++;
  let left = most;
  room.forEach((count, rank) => {
    room[rank] = Math.min(count, left);
    left -= room[rank]!;
  });
  const isTaken = (rank: number): boolean => {
    if (room[rank] === 0) return false;
    room[rank]!--;
    return true;
  };
  const taken = others.filter(({ rank }) => isTaken(rank)).map(({ finding }) => finding);
  const chosen: Finding[] = [];
  own.forEach((one, i) => {
    if (isTaken(ranks[i]!)) chosen.push(placedIn(file, one));
  });
  return { findings: merged(chosen, taken), all, counts };
}

function countsOf(own: readonly OwnFinding[], crossFile: readonly Finding[]): Counts {
  let [errors, warnings] = [0, 0];
  const count = ({ level, accepted }: Finding) => {
    if (accepted) return;
    if (level === 'error') errors++;
    else if (level === 'warning') warnings++;
  };
  for (const { finding } of own) count(finding);
  crossFile.forEach(count);
  return { errors, warnings };
}

/** Lints the blocks of a file one by one; yields after each that had not been linted, so that others get their turn. */
export function* lintInSteps(workspace: Workspace, file: FileSnapshot, today: number): Iterable<void> {
  const environment = environmentOf(workspace, file.path, today);
  const before = latestFindings(wholeEnvironment(environment)).get(file.path)?.nodes ?? [];
  const { from, newEnd } = difference(before, file.nodes);
  for (const node of file.nodes.slice(from, newEnd)) {
    const own = environmentFor(node, environment);
    if (lintBlock.has(node, own)) continue;
    lintBlock(node, own);
    yield;
  }
}

/** What the rules get to see of one tree. */
export const treeContext = (
  workspace: Workspace,
  { path }: FileSnapshot,
  tree: WrittenTree,
  today: number,
): TreeContext => contextFor(tree, wholeEnvironment(environmentOf(workspace, path, today)));

/** The findings of rules across files, about one of them, by position. */
export const crossFileFindings = (workspace: Workspace, path: string, today: number): readonly Finding[] =>
  crossFileByPath(workspace, today).get(path) ?? NONE;

const crossFileByPath = memo((workspace: Workspace, today: number): ReadonlyMap<string, Finding[]> => {
  const byPath = new Map<string, Finding[]>();
  const add = (found: RawFinding<PlacedReport>) => {
    const { in: placed } = found.report;
    if (isBothVersions(found.rule, placed.node)) return;
    const known = byPath.get(placed.path);
    if (known) known.push(findingOf(found, placed));
    else byPath.set(placed.path, [findingOf(found, placed)]);
  };
  const context = { workspace, ruleNames, ruleNamed, today };
  for (const rule of RULES) {
    if (!rule.checkWorkspace) continue;
    try {
      for (const report of rule.checkWorkspace(context)) {
        const severity = severityOf(rule, settingsFor(workspace, report.in.path, today));
        if (severity !== 'off') add(rawFinding(rule, report, severity));
      }
    } catch (error) {
      const first = firstFact(workspace);
      if (first) add(failure(rule, error, { in: first, at: first.fact.at }));
    }
  }
  for (const findings of byPath.values()) findings.sort(byPlace);
  return byPath;
});

function firstFact({ files }: Workspace): PlacedFact | undefined {
  for (const { facts } of files.values()) if (facts.length > 0) return facts[0];
  return undefined;
}
