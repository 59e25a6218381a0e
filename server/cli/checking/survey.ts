/**
 * An inventory as a whole, without holding all of it: what each file says that others need, and what follows from
 * that across files. Facts about sites, practice, persons and crews are kept; of trees only those that are named
 * twice, since no rule across files has a say about another.
 */

import { resolve } from 'node:path';
import { namedTwice } from '../../facts/named-twice.ts';
import { type Stretch, stretchesNaming } from '../../facts/outline.ts';
import { buildWorkspace, placedSiteOf, readFile, type Workspace } from '../../facts/workspace.ts';
import { shown } from '../../host/paths.ts';
import { checkFile } from '../../rules/check.ts';
import { inWorkspace, type Problem } from '../files.ts';
import type { Io } from '../io.ts';
import { progressOf } from '../progress.ts';
import { type Hands, inOrder } from './hands.ts';
import { type Found, type Ground, type JobOf, lineAt, type SurveyedPiece } from './jobs.ts';
import { textOfPiece } from './pieces.ts';
import type { Sources } from './sources.ts';

/** A file that was asked for. */
export interface InventoryFile {
  /** In the workspace. */
  readonly path: string;
  readonly pieces: readonly SurveyedPiece[];
  readonly digest: string | undefined;
}

export interface Survey {
  /** Without those that could not be read. */
  readonly files: readonly InventoryFile[];
  readonly problems: readonly Problem[];
  readonly ground: Ground;
  /** Holds for questions about sites and settings; of its trees only those that are named twice are there. */
  readonly workspace: Workspace;
  /** What the rules across files say of a file, by place. */
  readonly across: (path: string) => readonly Found[];
  /** A path of the workspace as shown to people, relative to the working folder. */
  readonly nameOf: (path: string) => string;
  /** Of every file, also of those that only apply to them: digests by path in the workspace. */
  readonly digests: ReadonlyMap<string, string | undefined>;
}

/** Files for one job: many are small. */
const FILES_AT_A_TIME = 16;

export async function survey(
  sources: Sources,
  hands: Hands,
  options: { readonly today: number; readonly keep: boolean; readonly digest: boolean },
  io: Io,
): Promise<Survey> {
  const { root } = sources;
  const all = [...sources.paths, ...sources.around];
  const files: InventoryFile[] = [];
  const problems = [...sources.problems];
  const progress = await progressOf(io, all.length, 'reading');
  const jobs = function* (): Iterable<JobOf<'survey'>> {
    for (let at = 0; at < all.length; at += FILES_AT_A_TIME) {
      const { keep, digest } = options;
      yield { kind: 'survey', paths: all.slice(at, at + FILES_AT_A_TIME), keep, digest };
    }
  };
  const asked = new Set(sources.paths);
  await inOrder(hands.ahead, jobs(), hands.survey, (results, { paths }) => {
    results.forEach((result, i) => {
      const path = paths[i]!;
      if ('problem' in result) problems.push({ file: shown(io.cwd, path), message: result.problem });
      else files.push({ path: inWorkspace(root, path), ...result });
      progress.step();
    });
  });
  progress.end();
  const nameOf = (path: string) => shown(io.cwd, resolve(root, path));
  const ground: Ground = {
    root,
    files: files.map(({ path, pieces }) => ({ path, shared: pieces.flatMap(({ shared }) => shared) })),
    today: options.today,
  };
  const skeleton = skeletonOf(files, nameOf);
  return {
    files: files.filter(({ path }) => asked.has(resolve(root, path))),
    problems,
    ground,
    workspace: skeleton.workspace,
    across: path => across(skeleton, path, options.today),
    nameOf,
    digests: new Map(files.map(({ path, digest }) => [path, digest])),
  };
}

/** The inventory with only what rules across files look at. */
interface Skeleton {
  readonly workspace: Workspace;
  /** By path: the stretches of the file that it has, one after the other. */
  readonly stretches: ReadonlyMap<string, readonly Stretch[]>;
}

function skeletonOf(files: readonly InventoryFile[], nameOf: (path: string) => string): Skeleton {
  const plain = buildWorkspace(
    files.map(({ path, pieces }) => readFile(path, pieces.flatMap(sharedTexts).join(''))),
  );
  const named = tagsNamedTwice(files, path => placedSiteOf(plain, path)?.path);
  const stretches = new Map(
    files.map(({ path, pieces }) => [
      path,
      pieces.flatMap(surveyed =>
        namesAny(surveyed, named) ? naming(surveyed, named, nameOf(path)) : surveyed.shared,
      ),
    ]),
  );
  if (named.size === 0) return { workspace: plain, stretches };
  const texts = [...stretches].map(([path, own]) => readFile(path, own.map(({ text }) => text).join('')));
  return { workspace: buildWorkspace(texts), stretches };
}

const sharedTexts = ({ shared }: SurveyedPiece) => shared.map(({ text }) => text);

/** Of all trees of a file, in their order. */
export const tagsOf = ({ pieces }: InventoryFile): readonly string[] => pieces.flatMap(tagsIn);

const tagsIn = ({ tags }: SurveyedPiece): readonly string[] =>
  tags === '' ? [] : tags.slice(0, -1).split('\n');

/**
 * The tags that two trees of one site have, or that one has and another had formerly.
 */
function tagsNamedTwice(
  files: readonly InventoryFile[],
  siteOf: (path: string) => string | undefined,
): ReadonlySet<string> {
  const bySite = new Map<string | undefined, SurveyedPiece[]>();
  for (const { path, pieces } of files) {
    const known = bySite.get(siteOf(path));
    if (known) known.push(...pieces);
    else bySite.set(siteOf(path), [...pieces]);
  }
  const named = new Set<string>();
  for (const pieces of bySite.values()) {
    const parts = function* () {
      for (const piece of pieces) yield { tags: tagsIn(piece), formerly: piece.formerly };
    };
    const count = pieces.reduce((sum, { trees }) => sum + trees, 0);
    for (const tag of namedTwice(parts, count)) named.add(tag);
  }
  return named;
}

const namesAny = (piece: SurveyedPiece, named: ReadonlySet<string>): boolean =>
  named.size > 0 && (tagsIn(piece).some(tag => named.has(tag)) || piece.formerly.some(tag => named.has(tag)));

const naming = ({ piece, start, firstLine }: SurveyedPiece, named: ReadonlySet<string>, name: string) =>
  stretchesNaming(textOfPiece(piece, name), named).map(stretch => ({
    ...stretch,
    start: stretch.start + start,
    firstLine: stretch.firstLine + firstLine,
  }));

/** What rules across files say of one: its trees and lines are judged elsewhere, so here it has none. */
function across({ workspace, stretches }: Skeleton, path: string, today: number): readonly Found[] {
  const found = checkFile(workspace, readFile(path, ''), today);
  if (found.length === 0) return [];
  const places = new Map<string, Places>();
  const placesIn = (file: string) => {
    const known = places.get(file) ?? placesOf(stretches.get(file)!);
    places.set(file, known);
    return known;
  };
  const { text } = workspace.files.get(path)!;
  return found.map(finding => {
    const { start, line } = placesIn(path).ofOffset(finding.start);
    return {
      finding: {
        ...finding,
        start: finding.start + start,
        end: finding.end + start,
        line: finding.line + line,
        endLine: finding.endLine + line,
        ...(finding.related
          ? {
              related: finding.related.map(place => ({
                ...place,
                line: place.line + placesIn(place.file).ofLine(place.line - 1),
              })),
            }
          : {}),
      },
      line: lineAt(text, finding.start - finding.column + 1),
    };
  });
}

/** How far a place in the skeleton of a file is from the same one in the file. */
interface Places {
  readonly ofOffset: (offset: number) => { readonly start: number; readonly line: number };
  /** @param line from 0 */
  readonly ofLine: (line: number) => number;
}

function placesOf(stretches: readonly Stretch[]): Places {
  let start = 0;
  let line = 0;
  const shifts = stretches.map(stretch => {
    const shift = {
      from: start,
      fromLine: line,
      start: stretch.start - start,
      line: stretch.firstLine - line,
    };
    start += stretch.text.length;
    line += stretch.text.match(/\r\n|\r|\n/g)?.length ?? 0;
    return shift;
  });
  return {
    ofOffset: offset => shifts.findLast(({ from }) => from <= offset)!,
    ofLine: at => shifts.findLast(({ fromLine }) => fromLine <= at)!.line,
  };
}
