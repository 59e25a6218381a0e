/** `soundwood export`: trees for maps, spreadsheets and queries; all facts as JSON Lines. */

import { setImmediate as nextTurn } from 'node:timers/promises';
import { attempt, Fault, type NotComputed, notComputed } from '../assess/not-computed.ts';
import { UserError } from '../base/user-error.ts';
import { counted } from '../base/words.ts';
import type { PlacedNode } from '../facts/file.ts';
import { type PlacedFact, settingsFor, siteOf } from '../facts/workspace.ts';
import type { FileInPieces } from '../host/write-text.ts';
import type { ExportFact } from '../show/export-jsonl.ts';
import { judgedTreesOf } from '../show/papers.ts';
import type { RowFile, RowForm } from '../show/row-form.ts';
import { type Table, type TableName, tableNamed } from '../show/tables.ts';
import { BelowTrees, type ExportTree } from '../show/tree-table.ts';
import { judgedIn } from './checking/find.ts';
import { showProblems } from './files.ts';
import { isTreeBlock, loadInventory } from './inventory.ts';
import { EXIT_CLEAN, EXIT_FAILURE, type Io } from './io.ts';
import { inPieces } from './write-out.ts';

const EXPORT_FORMS = ['geojson', 'geopackage', 'csv', 'jsonl', 'parquet', 'kml', 'gpx'] as const;

export interface ExportOptions {
  readonly format?: (typeof EXPORT_FORMS)[number];
  readonly table: TableName;
  /** Day number. */
  readonly date?: number;
  readonly output?: string;
}

export async function exportFacts(
  paths: readonly string[],
  { format, table, date, output }: ExportOptions,
  io: Io,
): Promise<number> {
  if (format === undefined)
    throw new UserError(
      `choose a format with --format: ${EXPORT_FORMS.slice(0, -1).join(', ')} or ${EXPORT_FORMS.at(-1)}.`,
    );
  if ((format === 'parquet' || format === 'geopackage') && output === undefined)
    throw new UserError(`${format} is a binary format: name the file with --output.`);
  if (format === 'jsonl' && table !== 'trees')
    throw new UserError('jsonl always contains all facts: leave out --table.');
  const today = date ?? io.today;
  const inventory = await loadInventory(paths, {}, io);
  const { workspace, files, problems, nameOf } = inventory;
  const left: NotComputed[] = [];
  const below = new BelowTrees();
  let [written, mistaken, unplaced] = [0, 0, 0];
  await inPieces(output, io, async write => {
    const form = await FORMS[format](write, table, today);
    const note = ({ node }: PlacedNode) => {
      if (node.isDamaged) mistaken += node.block.lines.filter(({ mistake }) => mistake).length;
    };
    const add = (placed: PlacedFact, file: string, count: () => number) => {
      if (isTreeBlock(placed)) below.add(placed.fact);
      const done = attempt(count);
      if (done instanceof Fault) left.push(notComputed(placeOf(placed, file), done));
      else written += done;
    };
    for (const inventoryFile of files) {
      const { path, blocks } = inventoryFile;
      const file = nameOf(path);
      if (form.isJudged) {
        const treeOf = judgedTreesOf({ workspace, today }, path, file);
        for await (const { judged } of judgedIn(inventory, inventoryFile, today, true)) {
          for (const { placed, findings } of judged) {
            note(placed);
            if (isTreeBlock(placed)) add(placed, file, () => form.add(treeOf(placed, findings)));
          }
          form.flush();
        }
      } else {
        const about = { file, site: siteOf(workspace, path), settings: settingsFor(workspace, path, today) };
        for (const some of blocks(form.withSyntax)) {
          // Lets signals and writes through.
          await nextTurn();
          for (const placed of some) {
            note(placed);
            if (placed.fact && (isTreeBlock(placed) || form.hasOthers))
              add(placed as PlacedFact, file, () => form.add({ ...about, placed: placed as PlacedFact }));
          }
          form.flush();
        }
      }
    }
    form.end();
    if (form.isJudged) unplaced = form.unplaced();
  });
  if (output !== undefined)
    io.out(`${output}: ${counted(written, format === 'jsonl' ? 'fact' : ROWS[table])}.\n`);
  if (unplaced > 0)
    io.err(
      `soundwood: ${counted(unplaced, format === 'jsonl' ? 'fact' : ROWS[table])} without a position ${unplaced === 1 ? 'is' : 'are'} not included, because ${format} holds positions only.\n`,
    );
  // Only for a person at the terminal.
  if (io.interactive) {
    if (format !== 'jsonl' && table === 'trees' && below.words !== undefined)
      io.err(
        `soundwood: the row of a tree omits the records below it: ${below.words}. Current sizes from inspections are included, without their dates. --format jsonl writes everything.\n`,
      );
    if (mistaken > 0)
      io.err(
        `soundwood: ${counted(mistaken, 'line')} with a mistake ${mistaken === 1 ? 'was' : 'were'} left out of the export; soundwood check shows what is wrong.\n`,
      );
  }
  const all = [...problems, ...left];
  showProblems(all, io);
  return all.length > 0 ? EXIT_FAILURE : EXIT_CLEAN;
}

const ROWS: Readonly<Record<TableName, string>> = { trees: 'tree', work: 'job', inspections: 'inspection' };

const placeOf = ({ firstLine, fact }: PlacedFact, file: string) => ({
  file,
  line: firstLine + 1,
  what: fact.kind === 'tree' ? `tree ${fact.tag.value}` : fact.kind,
});

type Write = FileInPieces['write'];

/** A form while it is written. */
interface Writing<Fact> {
  /** Returns how many rows it added. */
  readonly add: (fact: Fact) => number;
  /** Called now and then. */
  readonly flush: () => void;
  readonly end: () => void;
}

/** What is exported of a tree, or of any fact. */
type FormOf =
  | (Writing<ExportTree> & {
      readonly isJudged: true;
      /** Rows left out because their tree has no position. */
      readonly unplaced: () => number;
    })
  | (Writing<ExportFact> & {
      readonly isJudged: false;
      /** Whether it shows lines as they were written. */
      readonly withSyntax: boolean;
      /** Whether it has facts besides trees. */
      readonly hasOthers: boolean;
    });

const FORMS: Readonly<
  Record<
    NonNullable<ExportOptions['format']>,
    (write: Write, table: TableName, today: number) => Promise<FormOf>
  >
> = {
  async csv(write, name) {
    const { csvForm, treesCsv } = await import('../show/export-csv.ts');
    if (name !== 'trees') return judgedRows(tableNamed(name), csvForm(tableNamed(name).columns), write);
    // What is only found out is no record: an import would have nowhere to put it.
    const trees = rows(treesCsv, write);
    return {
      ...trees,
      add: fact => trees.add(fact as ExportTree),
      isJudged: false,
      withSyntax: true,
      hasOthers: false,
    };
  },
  async geojson(write, name) {
    const { geoJsonForm } = await import('../show/export-geojson.ts');
    return judgedRows(tableNamed(name), geoJsonForm(tableNamed(name)), write);
  },
  async kml(write, name) {
    const { kmlForm } = await import('../show/export-places.ts');
    return judgedRows(tableNamed(name), kmlForm(tableNamed(name)), write);
  },
  async gpx(write, name) {
    const { gpxForm } = await import('../show/export-places.ts');
    return judgedRows(tableNamed(name), gpxForm(tableNamed(name)), write);
  },
  async jsonl(write) {
    const { factsJsonLines } = await import('../show/export-jsonl.ts');
    return { ...rows(factsJsonLines, write), isJudged: false, withSyntax: false, hasOthers: true };
  },
  async parquet(write, name) {
    const { parquetFile } = await import('../show/export-parquet.ts');
    return binaryRows(tableNamed(name), parquetFile(tableNamed(name), write));
  },
  async geopackage(write, name, today) {
    const { geoPackageFile } = await import('../show/export-geopackage.ts');
    return binaryRows(tableNamed(name), await geoPackageFile(tableNamed(name), { name, today }, write));
  },
};

const binaryRows = <Row>(table: Table<Row>, { add, end }: RowFile<Row>): FormOf => ({
  add(tree) {
    const own = table.rowsOf(tree);
    for (const row of own) add(row);
    return own.length;
  },
  flush: () => {},
  end,
  isJudged: true,
  unplaced: () => 0,
});

function judgedRows<Row>(table: Table<Row>, form: RowForm<Row>, write: Write): FormOf {
  const { add, ...rest } = rows(form, write);
  let unplaced = 0;
  return {
    ...rest,
    add(tree) {
      const own = table.rowsOf(tree);
      const added = own.reduce((sum, row) => sum + add(row), 0);
      unplaced += own.length - added;
      return added;
    },
    isJudged: true,
    unplaced: () => unplaced,
  };
}

function rows<Row>({ head, row, between, end }: RowForm<Row>, write: Write): Writing<Row> {
  let ready = head;
  let isFirst = true;
  const flush = () => {
    if (ready !== '') write(ready);
    ready = '';
  };
  return {
    add(one: Row) {
      const text = row(one);
      if (text === '') return 0;
      ready += isFirst ? text : between + text;
      isFirst = false;
      return 1;
    },
    flush,
    end() {
      ready += end;
      flush();
    },
  };
}
