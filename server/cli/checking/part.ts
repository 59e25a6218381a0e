/**
 * One of several parts of an inventory. Each part surveys all files, so that it knows what holds across them, and
 * judges its own: whose a file is follows from its name alone, so that another file moves none.
 */

import { createHash } from 'node:crypto';
import { resolve } from 'node:path';
import { version } from '../../../package.json';
import { addTallies, NO_TALLY, type SignTally } from '../../assess/signs.ts';
import { siteNameOf } from '../../rules/identity.ts';
import { type PartFile, showPart } from '../../show/part.ts';
import { summarize } from '../../show/summary.ts';
import { showSummary } from '../../show/terminal.ts';
import { showProblems } from '../files.ts';
import { EXIT_CLEAN, type Io } from '../io.ts';
import { progressOf } from '../progress.ts';
import type { Hands } from './hands.ts';
import type { Found } from './jobs.ts';
import { judgeAll } from './judge-all.ts';
import { type Survey, tagsOf } from './survey.ts';

/** `3/8`: the third of eight. */
export interface Share {
  /** From 1 to `of`. */
  readonly part: number;
  readonly of: number;
}

/**
 * The part to which a file belongs, from 1.
 * @param name relative to the working folder, with slashes, so that it is the same on every machine
 */
export const partOf = (name: string, of: number): number =>
  // 48 bits: as many as can be divided exactly, and far more than there are parts.
  (createHash('sha256').update(name).digest().readUIntBE(0, 6) % of) + 1;

/** Checks one part and gives its result. What it means is decided where the parts are gathered. */
export async function checkPart(
  surveyed: Survey,
  { part, of }: Share,
  to: string | undefined,
  hands: Hands,
  io: Io,
): Promise<number> {
  const { nameOf, workspace, problems, ground } = surveyed;
  const own = surveyed.files.filter(({ path }) => partOf(nameOf(path), of) === part);
  const found = new Map<string, Found[]>(own.map(({ path }) => [path, []]));
  const tallies = new Map<string, SignTally>();
  const progress = await progressOf(io, own.length, 'checking');
  await judgeAll(surveyed, own, hands, ({ path }, some, isLast, signs) => {
    for (const one of some) found.get(path)!.push(named(one, nameOf));
    tallies.set(path, addTallies(tallies.get(path) ?? NO_TALLY, signs));
    if (isLast) progress.step();
  });
  progress.end();

  const places = new Map(surveyed.files.map(({ path }, place) => [path, place]));
  const files = own.map(
    (file): PartFile => ({
      place: places.get(file.path)!,
      file: nameOf(file.path),
      site: siteNameOf(workspace, file.path),
      trees: tagsOf(file),
      signs: tallies.get(file.path) ?? NO_TALLY,
      found: found.get(file.path)!,
    }),
  );
  const inventory = { sha256: digestOf(surveyed), files: surveyed.files.length };
  const text = showPart({
    program: version,
    on: ground.today,
    part,
    of,
    inventory,
    unread: problems,
    files,
  });
  if (to === undefined) io.out(text);
  else await (await import('../../host/write-text.ts')).writeText(resolve(io.cwd, to), text, io.cwd);
  showProblems(problems, io);
  if (to !== undefined) {
    const findings = files.flatMap(file => file.found.map(({ finding }) => finding));
    const trees = files.reduce((sum, file) => sum + file.trees.length, 0);
    io.out(
      `Part ${part} of ${of}: ${showSummary(summarize(findings, trees, files.length, files.map(({ signs }) => signs).reduce(addTallies, NO_TALLY)), io.paint)}`,
    );
  }
  return EXIT_CLEAN;
}

/** Files named as people see them: whoever gathers the parts knows no other names. */
function named({ finding, line }: Found, nameOf: (path: string) => string): Found {
  const related = finding.related?.map(place => ({ ...place, file: nameOf(place.file) }));
  const file = nameOf(finding.file);
  return { finding: related ? { ...finding, file, related } : { ...finding, file }, line };
}

/** Of the names and texts of all files, those that were asked for before those that only apply to them. */
function digestOf({ digests, nameOf }: Survey): string {
  const digest = createHash('sha256');
  for (const [path, own] of digests) digest.update(`${JSON.stringify([nameOf(path), own])}\n`);
  return digest.digest('hex');
}
