/** `soundwood export`: trees for maps, spreadsheets and queries; all facts as JSON Lines. */

import { resolve } from 'node:path';
import { counted } from '../assess/counted.ts';
import { settingsFor, siteOf } from '../facts/workspace.ts';
import type { ExportTree } from '../show/tree-table.ts';
import { showProblems } from './files.ts';
import { CannotRun, CLEAN, COULD_NOT_RUN, type Io } from './io.ts';
import { loadWorkspace } from './load.ts';
import { writeText } from './write-text.ts';

export interface ExportOptions {
  readonly as?: 'geojson' | 'csv' | 'jsonl' | 'parquet';
  readonly to?: string;
}

export async function exportFacts(
  paths: readonly string[],
  { as, to }: ExportOptions,
  io: Io,
): Promise<number> {
  if (as === undefined)
    throw new CannotRun('say with --as which form to write: geojson, csv, jsonl or parquet.');
  if (as === 'parquet' && to === undefined)
    throw new CannotRun('parquet is no text: say with --to which file to write.');
  const { workspace, files, problems, nameOf } = await loadWorkspace(paths, io);
  const facts = files.flatMap(({ path, facts }) => facts.map(placed => ({ placed, file: nameOf(path) })));
  const trees = files.flatMap(({ path, trees }) =>
    trees.map((placed): ExportTree => {
      const settings = settingsFor(workspace, path);
      return { placed, file: nameOf(path), site: siteOf(workspace, path), settings };
    }),
  );
  const content = await {
    geojson: async () => (await import('../show/export-geojson.ts')).treesGeoJson(trees),
    csv: async () => (await import('../show/export-csv.ts')).treesCsv(trees),
    jsonl: async () => (await import('../show/export-jsonl.ts')).factsJsonLines(facts),
    parquet: async () => (await import('../show/export-parquet.ts')).treesParquet(trees),
  }[as]();
  if (to !== undefined) {
    await writeText(resolve(io.cwd, to), content, io.cwd);
    io.out(`${to}: ${as === 'jsonl' ? counted(facts.length, 'fact') : counted(trees.length, 'tree')}.\n`);
  } else io.out(String(content));
  showProblems(problems, io);
  return problems.length > 0 ? COULD_NOT_RUN : CLEAN;
}
