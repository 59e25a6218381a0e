/** The tables of an inventory: a row for each tree, for each work to do, for each inspection. */

import { jobName, openWork } from '../assess/prescriptions.ts';
import { workDays } from '../assess/work-days.ts';
import { formatDate } from '../base/dates.ts';
import type { GeoPosition, Inspection, Prescription } from '../facts/types.ts';
import { CONTEXT_COLUMNS, type Column, type ExportTree, oneSpaced, RECORD_COLUMNS } from './tree-table.ts';
import { quantityText } from './words.ts';

export interface Table<Row> {
  readonly columns: readonly Column<Row>[];
  readonly rowsOf: (tree: ExportTree) => readonly Row[];
  readonly treeOf: (row: Row) => ExportTree;
  /** For a map: `14`, `14: reduce R1`. */
  readonly title: (row: Row) => string;
}

export const positionOf = ({ placed }: ExportTree): GeoPosition | undefined => placed.fact.position;

/** A map has them as its points. */
export const IN_GEOMETRY: ReadonlySet<string> = new Set(['latitude_deg', 'longitude_deg']);

const TREES: Table<ExportTree> = {
  columns: [...CONTEXT_COLUMNS, ...RECORD_COLUMNS],
  rowsOf: tree => [tree],
  treeOf: tree => tree,
  title: ({ placed }) => placed.fact.tag.value,
};

interface OfTree<Fact> {
  readonly tree: ExportTree;
  readonly fact: Fact;
}

/** Which tree a row is of. */
const WHERE: readonly Column<OfTree<unknown>>[] = [...CONTEXT_COLUMNS, ...RECORD_COLUMNS]
  .filter(({ name }) => ['file', 'site', 'tag', 'name', 'species'].includes(name) || IN_GEOMETRY.has(name))
  .map(({ name, type, of }) => ({ name, type, of: ({ tree }) => of(tree) }));

type OfWork = OfTree<Prescription>;

/** Days on which nothing on record forbids the work. */
const openDays = ({ tree: { judged }, fact }: OfWork) => (judged ? workDays(judged.context, fact).open : []);

/** Work to do: what is prescribed, not withdrawn and not done. */
const WORK: Table<OfWork> = {
  columns: [
    ...WHERE,
    { name: 'job', type: 'text', of: ({ fact }) => fact.id.value },
    { name: 'kind', type: 'text', of: ({ fact }) => fact.kind.value },
    {
      name: 'for',
      type: 'text',
      of: ({ fact }) => fact.for.map(({ value }) => value).join(', ') || undefined,
    },
    { name: 'priority', type: 'text', of: ({ fact }) => fact.priority?.value },
    { name: 'from', type: 'day', of: ({ fact }) => fact.between?.from },
    { name: 'to', type: 'day', of: ({ fact }) => fact.between?.to },
    { name: 'first_open_day', type: 'day', of: row => openDays(row)[0]?.from },
    { name: 'last_open_day', type: 'day', of: row => openDays(row).at(-1)?.to },
    { name: 'crew', type: 'text', of: ({ fact }) => fact.crew?.value },
    { name: 'hours', type: 'text', of: ({ fact }) => quantityText(fact.hours) },
    { name: 'price', type: 'text', of: ({ fact }) => quantityText(fact.price?.amount) },
    { name: 'currency', type: 'text', of: ({ fact }) => fact.price?.currency },
    { name: 'prescribed_by', type: 'text', of: ({ fact }) => fact.by?.value },
    { name: 'permit', type: 'text', of: ({ fact }) => fact.permit?.number.value },
    { name: 'because', type: 'text', of: ({ fact }) => fact.because?.value },
  ],
  rowsOf: tree => (tree.judged ? openWork(tree.judged.context.tree).map(fact => ({ tree, fact })) : []),
  treeOf: ({ tree }) => tree,
  title: ({ tree, fact }) => `${tree.placed.fact.tag.value}: ${jobName(fact)}`,
};

type OfInspection = OfTree<Inspection>;

const INSPECTIONS: Table<OfInspection> = {
  columns: [
    ...WHERE,
    { name: 'date', type: 'day', of: ({ fact }) => fact.date.value },
    { name: 'from', type: 'text', of: ({ fact }) => fact.from.value },
    { name: 'level', type: 'text', of: ({ fact }) => fact.level?.value },
    { name: 'by', type: 'text', of: ({ fact }) => fact.by?.value },
    {
      name: 'notes',
      type: 'text',
      of: ({ fact }) => fact.notes.map(({ value }) => oneSpaced(value)).join('\n') || undefined,
    },
  ],
  rowsOf: tree => tree.placed.fact.inspections.map(fact => ({ tree, fact })),
  treeOf: ({ tree }) => tree,
  title: ({ tree, fact }) => `${tree.placed.fact.tag.value}: ${formatDate(fact.date.value)}`,
};

export const TABLES = { trees: TREES, work: WORK, inspections: INSPECTIONS } as const;
export type TableName = keyof typeof TABLES;

/** Of a table with whatever rows. */
export const tableNamed = (name: TableName): Table<unknown> => TABLES[name] as Table<unknown>;
