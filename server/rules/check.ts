/** Findings of a file and of a workspace: mistakes of the notation, then what the rules say. */

import { photoNamed } from '../facts/photos.ts';
import type { Accept, Tree } from '../facts/types.ts';
import {
  type FileSnapshot,
  folderOf,
  type PlacedFact,
  settingsFor,
  siteOf,
  type Workspace,
} from '../facts/workspace.ts';
import type { TreeContext } from './context.ts';
import { locate, type Place } from './place.ts';
import { RULES, ruleNamed, ruleNames } from './registry.ts';
import { type Around, contextFor, failure, type Remark, remark, remarksOn, severityOf } from './remarks.ts';
import type { Grade, Level, PlacedReport, Related } from './rule.ts';

export interface Finding extends Place {
  /** Name of the rule; for a mistake of the notation its code, for a rule that failed `internal-error`. */
  readonly rule: string;
  readonly level: Level;
  readonly grade: Grade | 'syntax';
  readonly file: string;
  /** Tag of the tree. */
  readonly tree?: string;
  readonly subject: string;
  readonly message: string;
  readonly remedy: string;
  readonly caution?: string;
  /** The exception on record that covers it; `until` is a day number. */
  readonly accepted?: { readonly by: string; readonly until: number; readonly because: string };
  /** Replacement for `start` to `end` that would mend it. */
  readonly mend?: string;
  readonly related?: readonly {
    readonly file: string;
    readonly line: number;
    readonly column: number;
    readonly message: string;
  }[];
}

/**
 * All findings of a file, by position.
 * @param today day number
 */
export function checkFile(workspace: Workspace, file: FileSnapshot, today: number): Finding[] {
  const findings: Finding[] = [];
  const { stated } = file;
  const around = surroundings(workspace, file, today);
  for (let i = 0; i < stated.length; i++) {
    const one = stated[i]!;
    if (one.mistaken.length > 0) addMistakes(findings, file, i);
    const remarks = remarksOn(one, around);
    if (remarks.length === 0) continue;
    const placed = file.placed(i)!;
    for (const found of remarks) {
      if (!isBothVersions(found.rule, placed)) findings.push(finding(found, placed));
    }
  }
  for (const found of beyondTrees(workspace, today).get(file.path) ?? []) {
    if (!isBothVersions(found.rule, found.report.in)) findings.push(finding(found, found.report.in));
  }
  return findings.sort(byPlace);
}

/** Where Git left both versions of a change in a block, everything in it may stand twice: the conflict says so. */
const isBothVersions = (rule: string, { stated }: PlacedFact): boolean =>
  rule.startsWith('duplicate-') && stated.mistaken.some(({ mistake }) => mistake?.code === 'merge-conflict');

/** All findings of a workspace, by file and position. */
export const checkWorkspace = (workspace: Workspace, today: number): Finding[] =>
  [...workspace.files.values()].flatMap(file => checkFile(workspace, file, today));

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
    person: id => workspace.persons.get(id)?.fact,
    crew: id => workspace.crews.get(id)?.fact,
    personIds: [...workspace.persons.keys()],
    crewIds: [...workspace.crews.keys()],
    today,
    photos: workspace.photos,
    photoFile: written => photoNamed(workspace.photos, folderOf(path), written),
  };
}

const byPlace = (a: Finding, b: Finding): number =>
  a.start - b.start || a.end - b.end || (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0);

type Draft = { -readonly [K in keyof Finding]: Finding[K] };

function addMistakes(findings: Finding[], file: FileSnapshot, i: number): void {
  const { block, fact, mistaken } = file.stated[i]!;
  const placed = { start: file.starts[i]!, firstLine: file.firstLines[i]!, block };
  for (const { start, mistake } of mistaken) {
    if (!mistake) continue;
    const place = locate(placed, start + mistake.start, start + mistake.end);
    const draft: Draft = {
      start: place.start,
      end: place.end,
      line: place.line,
      column: place.column,
      endLine: place.endLine,
      endColumn: place.endColumn,
      rule: mistake.code,
      level: 'error',
      grade: 'syntax',
      file: file.path,
      subject: mistake.code,
      message: mistake.message,
      remedy: mistake.remedy,
    };
    if (fact?.kind === 'tree') draft.tree = fact.tag.value;
    if (mistake.mend !== undefined) draft.mend = mistake.mend;
    findings.push(draft);
  }
}

function finding({ rule, level, report, caution, accept }: Remark, placed: PlacedFact): Finding {
  const { at, grade, subject, message, remedy, mend, related } = report;
  const place = locate(placed, at.start, at.end);
  const draft: Draft = {
    start: place.start,
    end: place.end,
    line: place.line,
    column: place.column,
    endLine: place.endLine,
    endColumn: place.endColumn,
    rule,
    level,
    grade,
    file: placed.path,
    subject,
    message,
    remedy,
  };
  if (placed.fact.kind === 'tree') draft.tree = placed.fact.tag.value;
  if (caution !== undefined) draft.caution = caution;
  if (accept) draft.accepted = accepted(accept);
  if (mend !== undefined) draft.mend = mend;
  if (related) draft.related = related.map(one => relatedPlace(one, placed));
  return draft;
}

/** Of an exception that holds, which states all three. */
const accepted = ({ by, until, because }: Accept): NonNullable<Finding['accepted']> => ({
  by: by!.value,
  until: until!.value,
  because: because!.value,
});

function relatedPlace(related: Related, here: PlacedFact): NonNullable<Finding['related']>[number] {
  const placed = related.in ?? here;
  const { line, column } = locate(placed, related.start, related.end);
  return { file: placed.path, line, column, message: related.message };
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
