/** `soundwood export`: trees for maps, spreadsheets and queries; all facts as JSON Lines. */

import { resolve } from 'node:path';
import { type ItemLocation, type LocatedItem, showSound } from '../assess/not-computed.ts';
import { UserError } from '../base/user-error.ts';
import { counted } from '../base/words.ts';
import { type PlacedFact, settingsFor, siteOf } from '../facts/workspace.ts';
import { writeText } from '../host/write-text.ts';
import type { ExportFact } from '../show/export-jsonl.ts';
import { type ExportTree, withoutColumn } from '../show/tree-table.ts';
import { showProblems } from './files.ts';
import { EXIT_CLEAN, EXIT_FAILURE, type Io } from './io.ts';
import { loadWorkspace } from './load.ts';

export interface ExportOptions {
  readonly format?: 'geojson' | 'csv' | 'jsonl' | 'parquet';
  readonly output?: string;
}

export async function exportFacts(
  paths: readonly string[],
  { format, output }: ExportOptions,
  io: Io,
): Promise<number> {
  if (format === undefined)
    throw new UserError('say with --format which form to write: geojson, csv, jsonl or parquet.');
  if (format === 'parquet' && output === undefined)
    throw new UserError('parquet is no text: say with --output which file to write.');
  const { workspace, files, problems, nameOf } = await loadWorkspace(paths, io);
  const placeOf = ({ path, firstLine, fact }: PlacedFact): ItemLocation => ({
    file: nameOf(path),
    line: firstLine + 1,
    what: fact.kind === 'tree' ? `tree ${fact.tag.value}` : fact.kind,
  });
  const facts = files.flatMap(({ path, facts }) =>
    facts.map(
      (placed): LocatedItem<ExportFact> => ({
        place: placeOf(placed),
        of: { placed, file: nameOf(path), settings: settingsFor(workspace, path, io.today) },
      }),
    ),
  );
  const trees = files.flatMap(({ path, trees }) =>
    trees.map((placed): LocatedItem<ExportTree> => {
      const settings = settingsFor(workspace, path, io.today);
      const of = { placed, file: nameOf(path), site: siteOf(workspace, path), settings };
      return { place: placeOf(placed), of };
    }),
  );
  const { shown: content, left } =
    format === 'jsonl'
      ? await showSound(facts, (await import('../show/export-jsonl.ts')).factsJsonLines)
      : await showSound(trees, await TABLES[format]());
  if (output !== undefined) {
    await writeText(resolve(io.cwd, output), content, io.cwd);
    io.out(
      `${output}: ${format === 'jsonl' ? counted(facts.length - left.length, 'fact') : counted(trees.length - left.length, 'tree')}.\n`,
    );
  } else io.out(String(content));
  // Only for a person at the terminal.
  if (io.interactive) {
    const without = format === 'jsonl' ? undefined : withoutColumn(trees.map(({ of }) => of));
    if (without !== undefined)
      io.err(
        `soundwood: a row for each tree is without what stands below it: ${without}; sizes of an inspection are in it where they count, without their day. --format jsonl writes all.\n`,
      );
    const damaged = files.flatMap(({ nodes }) => nodes.filter(({ isDamaged }) => isDamaged));
    const mistaken = damaged.flatMap(({ block }) => block.lines.filter(({ mistake }) => mistake)).length;
    if (mistaken > 0)
      io.err(
        `soundwood: ${counted(mistaken, 'line')} with a mistake ${mistaken === 1 ? 'is' : 'are'} in no export; soundwood check says what is wrong.\n`,
      );
  }
  const all = [...problems, ...left];
  showProblems(all, io);
  return all.length > 0 ? EXIT_FAILURE : EXIT_CLEAN;
}

const TABLES: Readonly<
  Record<'geojson' | 'csv' | 'parquet', () => Promise<(trees: readonly ExportTree[]) => string | Uint8Array>>
> = {
  geojson: async () => (await import('../show/export-geojson.ts')).treesGeoJson,
  csv: async () => (await import('../show/export-csv.ts')).treesCsv,
  parquet: async () => (await import('../show/export-parquet.ts')).treesParquet,
};
