/**
 * One of several parts of an inventory. Each part reads all files, so that it knows what applies across them, and
 * checks its own: to which part a file belongs follows from its name alone, so that another file moves none.
 */

import { createHash } from 'node:crypto';
import { version } from '../../../package.json';
import { addTallies, NO_TALLY } from '../../assess/signs.ts';
import { settingsFor } from '../../facts/workspace.ts';
import { siteNameOf } from '../../rules/identity.ts';
import type { PlacedFinding } from '../../show/check-result.ts';
import { type PartFile, showPart } from '../../show/part.ts';
import { summarize } from '../../show/summary.ts';
import { showSummary } from '../../show/terminal.ts';
import { showProblems } from '../files.ts';
import type { Inventory } from '../inventory.ts';
import { EXIT_CLEAN, type Io } from '../io.ts';
import { progressOf } from '../progress.ts';
import { writeOut } from '../write-out.ts';
import { findingsIn } from './find.ts';

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

/** Checks one part and writes its result. What it means is decided where the parts are gathered. */
export async function checkPart(
  inventory: Inventory,
  { part, of }: Share,
  to: string | undefined,
  today: number,
  io: Io,
): Promise<number> {
  const { nameOf, workspace, problems } = inventory;
  const own = inventory.files.filter(({ path }) => partOf(nameOf(path), of) === part);
  const places = new Map(inventory.files.map((file, place) => [file, place]));
  const files: PartFile[] = [];
  const progress = await progressOf(io, own.length, 'checking');
  for (const file of own) {
    const found: PlacedFinding[] = [];
    let signs = NO_TALLY;
    for await (const some of findingsIn(inventory, file, today, () => true)) {
      for (const one of some.found) found.push(named(one, nameOf));
      signs = addTallies(signs, some.signs);
    }
    files.push({
      place: places.get(file)!,
      file: nameOf(file.path),
      site: siteNameOf(workspace, file.path),
      region: settingsFor(workspace, file.path, today).region.code,
      trees: file.tags,
      signs,
      found,
    });
    progress.step();
  }
  progress.end();

  const text = showPart({
    program: version,
    on: today,
    part,
    of,
    inventory: { sha256: digestOf(inventory), files: inventory.files.length },
    unread: problems,
    files,
  });
  await writeOut(text, to, io);
  showProblems(problems, io);
  if (to !== undefined) {
    const findings = files.flatMap(file => file.found.map(({ finding }) => finding));
    const trees = files.reduce((sum, file) => sum + file.trees.length, 0);
    const signs = files.map(file => file.signs).reduce(addTallies, NO_TALLY);
    io.out(
      `Part ${part} of ${of}: ${showSummary(summarize(findings, trees, files.length, signs), io.paint)}`,
    );
  }
  return EXIT_CLEAN;
}

/** With display names of files: `gather` knows no others. */
function named({ finding, ...rest }: PlacedFinding, nameOf: (path: string) => string): PlacedFinding {
  const related = finding.related?.map(place => ({ ...place, file: nameOf(place.file) }));
  const file = nameOf(finding.file);
  return { ...rest, finding: related ? { ...finding, file, related } : { ...finding, file } };
}

/** Of the names and texts of all files, those that were asked for before those that only apply to them. */
function digestOf({ digests, nameOf }: Inventory): string {
  const digest = createHash('sha256');
  for (const [path, own] of digests) digest.update(`${JSON.stringify([nameOf(path), own])}\n`);
  return digest.digest('hex');
}
