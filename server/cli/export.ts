/** `soundwood export`: trees for maps, spreadsheets and queries; all facts as JSON Lines. */

import { setImmediate as nextTurn } from 'node:timers/promises';
import { attempt, Fault, type NotComputed, notComputed } from '../assess/not-computed.ts';
import { UserError } from '../base/user-error.ts';
import { counted } from '../base/words.ts';
import type { PlacedNode } from '../facts/file.ts';
import { type PlacedFact, settingsFor, siteOf } from '../facts/workspace.ts';
import type { FileInPieces } from '../host/write-text.ts';
import type { ExportFact } from '../show/export-jsonl.ts';
import type { RowForm } from '../show/row-form.ts';
import { BelowTrees, type ExportTree } from '../show/tree-table.ts';
import { showProblems } from './files.ts';
import { isTreeBlock, loadInventory } from './inventory.ts';
import { EXIT_CLEAN, EXIT_FAILURE, type Io } from './io.ts';
import { inPieces } from './write-out.ts';

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
  const { workspace, files, problems, nameOf } = await loadInventory(paths, {}, io);
  const left: NotComputed[] = [];
  const below = new BelowTrees();
  let [written, mistaken] = [0, 0];
  await inPieces(output, io, async write => {
    const form = await FORMS[format](write);
    for (const { path, blocks } of files) {
      const file = nameOf(path);
      const about = { file, site: siteOf(workspace, path), settings: settingsFor(workspace, path, io.today) };
      for (const some of blocks(form.withSyntax)) {
        // Lets signals and writes through.
        await nextTurn();
        for (const placed of some) {
          if (placed.node.isDamaged) mistaken += placed.block.lines.filter(({ mistake }) => mistake).length;
          const add = form.adding(placed, about);
          if (!add) continue;
          if (isTreeBlock(placed)) below.add(placed.fact);
          const done = attempt(add);
          if (done instanceof Fault) left.push(notComputed(placeOf(placed as PlacedFact, file), done));
          else written++;
        }
        form.flush();
      }
    }
    form.end();
  });
  if (output !== undefined) io.out(`${output}: ${counted(written, format === 'jsonl' ? 'fact' : 'tree')}.\n`);
  // Only for a person at the terminal.
  if (io.interactive) {
    if (format !== 'jsonl' && below.words !== undefined)
      io.err(
        `soundwood: a row for each tree is without what stands below it: ${below.words}; sizes of an inspection are in it where they count, without their day. --format jsonl writes all.\n`,
      );
    if (mistaken > 0)
      io.err(
        `soundwood: ${counted(mistaken, 'line')} with a mistake ${mistaken === 1 ? 'is' : 'are'} in no export; soundwood check says what is wrong.\n`,
      );
  }
  const all = [...problems, ...left];
  showProblems(all, io);
  return all.length > 0 ? EXIT_FAILURE : EXIT_CLEAN;
}

const placeOf = ({ firstLine, fact }: PlacedFact, file: string) => ({
  file,
  line: firstLine + 1,
  what: fact.kind === 'tree' ? `tree ${fact.tag.value}` : fact.kind,
});

type About = Omit<ExportTree, 'placed'>;
type Write = FileInPieces['write'];

/** A form while it is written. */
interface Writing {
  /** Whether it shows lines as they were written. */
  readonly withSyntax: boolean;
  /** Adds a block; undefined where the form has none of its kind. */
  readonly adding: (placed: PlacedNode, about: About) => (() => void) | undefined;
  /** Called now and then. */
  readonly flush: () => void;
  readonly end: () => void;
}

const FORMS: Readonly<Record<NonNullable<ExportOptions['format']>, (write: Write) => Promise<Writing>>> = {
  csv: async write => treeRows((await import('../show/export-csv.ts')).treesCsv, write),
  geojson: async write => treeRows((await import('../show/export-geojson.ts')).treesGeoJson, write),
  jsonl: async write => {
    const { add, ...rest } = rows<ExportFact>(
      (await import('../show/export-jsonl.ts')).factsJsonLines,
      write,
    );
    return {
      ...rest,
      withSyntax: false,
      adding: (placed, about) => placed.fact && (() => add({ ...about, placed: placed as PlacedFact })),
    };
  },
  parquet: async write => {
    const { add, end } = (await import('../show/export-parquet.ts')).treesParquet(write);
    return { withSyntax: true, adding: treesTo(add), flush: () => {}, end };
  },
};

const treesTo =
  (add: (tree: ExportTree) => void): Writing['adding'] =>
  (placed, about) =>
    isTreeBlock(placed) ? () => add({ ...about, placed }) : undefined;

function treeRows(form: RowForm<ExportTree>, write: Write): Writing {
  const { add, ...rest } = rows(form, write);
  return { ...rest, withSyntax: true, adding: treesTo(add) };
}

function rows<Row>({ head, row, between, end }: RowForm<Row>, write: Write) {
  let ready = head;
  let isFirst = true;
  const flush = () => {
    if (ready !== '') write(ready);
    ready = '';
  };
  return {
    add(one: Row): void {
      const text = row(one);
      ready += isFirst ? text : between + text;
      isFirst = false;
    },
    flush,
    end(): void {
      ready += end;
      flush();
    },
  };
}
