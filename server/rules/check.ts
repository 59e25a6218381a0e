/** Findings of a file and of a workspace: mistakes of the notation, then what the rules say. */

import { type SignTally, tallyOf } from '../assess/signs.ts';
import type { Stated } from '../facts/file.ts';
import { photoNamed } from '../facts/photos.ts';
import type { Tree } from '../facts/types.ts';
import {
  type FileSnapshot,
  folderOf,
  type PlacedFact,
  personIn,
  settingsFor,
  siteOf,
  type Workspace,
} from '../facts/workspace.ts';
import type { TreeContext } from './context.ts';
import { addMistakes, byPlace, type Finding, findingOf, moved } from './finding.ts';
import { RULES, ruleNamed, ruleNames } from './registry.ts';
import {
  type Around,
  contextFor,
  failure,
  knownRemarks,
  type Remark,
  remark,
  remarksOn,
  severityOf,
} from './remarks.ts';
import type { PlacedReport } from './rule.ts';

export type { Finding } from './finding.ts';

/** What is said about a block by itself, with the place of the block when it was said: edits above move both. */
interface Said {
  readonly finding: Finding;
  readonly start: number;
  readonly firstLine: number;
}

/** By place. Side by side, and not in one list, since after each key all of them are passed through. */
interface Own {
  readonly said: Said[];
  /** Index of the block that each lies in, and how grave each is. */
  readonly blocks: number[];
  readonly ranks: number[];
}

interface Checked {
  /** Not the whole of what is around, which leads to the workspace and from there to every state before. */
  readonly around: Pick<Around, 'settings' | 'today' | 'photos'>;
  readonly file: Pick<FileSnapshot, 'path' | 'starts' | 'firstLines'>;
  readonly own: Own;
  readonly beyond: readonly Remark<PlacedReport>[];
  /** Once somebody asked for all. */
  findings: readonly Finding[] | undefined;
}

/** The last answer for each state of a file; what became of the state by an edit takes most of it over. */
const checked = new WeakMap<object, Checked>();

const NOTHING: readonly Remark<PlacedReport>[] = [];

/** What was found in this state, or the one that it was edited from, as long as what is around stays. */
function answerFor(state: object | undefined, { path }: FileSnapshot, around: Around): Checked | undefined {
  const answer = state && checked.get(state);
  return answer && answer.file.path === path && isSame(answer.around, around) ? answer : undefined;
}

const isSame = (a: Checked['around'], b: Checked['around']): boolean =>
  a.settings === b.settings && a.today === b.today && a.photos === b.photos;

/** After an edit, at the cost of the blocks that it touched. */
function check(workspace: Workspace, file: FileSnapshot, today: number): Checked {
  const around = surroundings(workspace, file, today);
  const beyond = beyondTrees(workspace, today).get(file.path) ?? NOTHING;
  const known = answerFor(file.state, file, around);
  if (known?.beyond === beyond) return known;
  const own = known?.own ?? ownFindings(file, around);
  const { path, starts, firstLines } = file;
  const { settings, photos } = around;
  const answer: Checked = {
    around: { settings, today, photos },
    file: { path, starts, firstLines },
    own,
    beyond,
    findings: undefined,
  };
  checked.set(file.state, answer);
  return answer;
}

function ownFindings(file: FileSnapshot, around: Around): Own {
  const own: Own = { said: [], blocks: [], ranks: [] };
  const { change, stated } = file;
  const before = change && answerFor(change.since, file, around)?.own;
  if (!before) {
    addOwn(own, file, 0, stated.length, around);
    return own;
  }
  const { from, oldEnd, newEnd } = change;
  const count = before.said.length;
  const keep = (i: number, shift: number) => {
    own.said.push(before.said[i]!);
    own.blocks.push(before.blocks[i]! + shift);
    own.ranks.push(before.ranks[i]!);
  };
  let i = 0;
  while (i < count && before.blocks[i]! < from) keep(i++, 0);
  addOwn(own, file, from, newEnd, around);
  while (i < count && before.blocks[i]! < oldEnd) i++;
  while (i < count) keep(i++, newEnd - oldEnd);
  return own;
}

/** What there is to say about the blocks from `from` to `end`. */
function addOwn(own: Own, file: FileSnapshot, from: number, end: number, around: Around): void {
  for (let i = from; i < end; i++) {
    const one = file.stated[i]!;
    const remarks = remarksOn(one, around);
    if (one.mistaken.length + remarks.length === 0) continue;
    const here: Finding[] = [];
    if (one.mistaken.length > 0) addMistakes(here, file, i);
    for (const remark of remarks)
      if (!isBothVersions(remark.rule, one)) here.push(findingOf(remark, file.placed(i)!));
    for (const finding of here.sort(byPlace)) {
      own.said.push({ finding, start: file.starts[i]!, firstLine: file.firstLines[i]! });
      own.blocks.push(i);
      own.ranks.push(rankOf(finding));
    }
  }
}

/** The i-th of what is said about blocks, where it lies now. */
function placedOwn({ own, file }: Checked, i: number): Finding {
  const { finding, start, firstLine } = own.said[i]!;
  const block = own.blocks[i]!;
  const by = file.starts[block]! - start;
  const byLines = file.firstLines[block]! - firstLine;
  return by === 0 && byLines === 0 ? finding : moved(finding, by, byLines);
}

const placedBeyond = ({ beyond }: Checked): readonly Finding[] =>
  beyond
    .filter(({ rule, report }) => !isBothVersions(rule, report.in.stated))
    .map(remark => findingOf(remark, remark.report.in))
    .sort(byPlace);

/**
 * All findings of a file, by position.
 * @param today day number
 */
export function checkFile(workspace: Workspace, file: FileSnapshot, today: number): readonly Finding[] {
  const answer = check(workspace, file, today);
  answer.findings ??= inOrder(
    answer.own.said.map((_, i) => placedOwn(answer, i)),
    placedBeyond(answer),
  );
  return answer.findings;
}

const inOrder = (own: readonly Finding[], beyond: readonly Finding[]): readonly Finding[] =>
  beyond.length === 0 ? own : [...own, ...beyond].sort(byPlace);

export interface Gravest {
  /** By position. */
  readonly findings: readonly Finding[];
  /** How many there are in all. */
  readonly all: number;
}

const RANK: Record<Finding['level'], number> = { error: 0, warning: 1, note: 2 };
/** Accepted ones last: they ask for nothing. */
const rankOf = ({ level, accepted }: Finding): number => (accepted ? 3 : RANK[level]);

/** Of a file's findings at most so many: errors before warnings before notes. The others cost next to nothing. */
export function gravestOf(workspace: Workspace, file: FileSnapshot, today: number, most: number): Gravest {
  const answer = check(workspace, file, today);
  const beyond = placedBeyond(answer);
  const { ranks } = answer.own;
  const all = ranks.length + beyond.length;
  if (all <= most) return { findings: checkFile(workspace, file, today), all };
  const room = [0, 0, 0, 0];
  for (const finding of beyond) room[rankOf(finding)]!++;
  for (const rank of ranks) room[rank]!++;
  let left = most;
  room.forEach((count, rank) => {
    room[rank] = Math.min(count, left);
    left -= room[rank]!;
  });
  const taken = (rank: number) => room[rank]!-- > 0;
  const chosenBeyond = beyond.filter(finding => taken(rankOf(finding)));
  const own: Finding[] = [];
  for (let i = 0; i < ranks.length; i++) if (taken(ranks[i]!)) own.push(placedOwn(answer, i));
  return { findings: inOrder(own, chosenBeyond), all };
}

/**
 * Judges the trees of a file one by one, which its findings then rest on; stops after each that was not judged
 * yet, for whoever has to go on.
 */
export function* judging(workspace: Workspace, file: FileSnapshot, today: number): Iterable<void> {
  const around = surroundings(workspace, file, today);
  if (answerFor(file.state, file, around)) return;
  const { change, stated } = file;
  const edited = answerFor(change?.since, file, around) && change;
  const end = edited ? edited.newEnd : stated.length;
  for (let i = edited ? edited.from : 0; i < end; i++) {
    if (stated[i]!.fact?.kind !== 'tree' || knownRemarks(stated[i]!, around)) continue;
    remarksOn(stated[i]!, around);
    yield;
  }
}

/** Where Git left both versions of a change in a block, everything in it may stand twice: the conflict says so. */
const isBothVersions = (rule: string, { mistaken }: Stated): boolean =>
  rule.startsWith('duplicate-') && mistaken.some(({ mistake }) => mistake?.code === 'merge-conflict');

/** All findings of a workspace, by file and position. */
export const checkWorkspace = (workspace: Workspace, today: number): Finding[] =>
  [...workspace.files.values()].flatMap(file => checkFile(workspace, file, today));

/** How the signs of a file's trees stand. */
export function signTally(workspace: Workspace, file: FileSnapshot): SignTally {
  const site = siteOf(workspace, file.path);
  const settings = settingsFor(workspace, file.path);
  return tallyOf(file.trees.map(({ fact }) => ({ tree: fact, site, settings })));
}

/** What the rules get to see of one tree. */
export const treeContext = (
  workspace: Workspace,
  file: FileSnapshot,
  tree: Tree,
  today: number,
): TreeContext => contextFor(tree, surroundings(workspace, file, today));

export function surroundings(workspace: Workspace, { path }: FileSnapshot, today: number): Around {
  return {
    site: siteOf(workspace, path),
    settings: settingsFor(workspace, path),
    person: personIn(workspace),
    crew: id => workspace.crews.get(id)?.fact,
    personIds: [...workspace.persons.keys()],
    crewIds: [...workspace.crews.keys()],
    today,
    photos: workspace.photos,
    photoFile: written => photoNamed(workspace.photos, folderOf(path), written),
  };
}

type FoundByPath = ReadonlyMap<string, readonly Remark<PlacedReport>[]>;

/** The last answer for each workspace: every file of it asks. */
const known = new WeakMap<Workspace, { readonly today: number; readonly byPath: FoundByPath }>();

function beyondTrees(workspace: Workspace, today: number): FoundByPath {
  const last = known.get(workspace);
  if (last?.today === today) return last.byPath;
  const byPath = new Map<string, Remark<PlacedReport>[]>();
  const add = (found: Remark<PlacedReport>) => {
    const list = byPath.get(found.report.in.path);
    if (list) list.push(found);
    else byPath.set(found.report.in.path, [found]);
  };
  const context = { workspace, ruleNames, ruleNamed, today };
  for (const rule of RULES) {
    if (!rule.checkWorkspace) continue;
    try {
      for (const report of rule.checkWorkspace(context)) {
        const severity = severityOf(rule, settingsFor(workspace, report.in.path));
        if (severity !== 'off') add(remark(rule, report, severity));
      }
    } catch (error) {
      const first = firstFact(workspace);
      if (first) add(failure(rule, error, { in: first, at: first.fact.at }));
    }
  }
  known.set(workspace, { today, byPath });
  return byPath;
}

function firstFact({ files }: Workspace): PlacedFact | undefined {
  for (const { facts } of files.values()) if (facts.length > 0) return facts[0];
  return undefined;
}
