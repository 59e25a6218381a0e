/**
 * One row for each tree: what the tables have in common. Sizes stand as written, and beside that with both ends of
 * what they may be, in metres to the micrometre: an estimate with its margin, an open end empty.
 */

import { HEADS } from '../../grammar/fields.ts';
import type { Line } from '../../grammar/syntax.ts';
import type { Span } from '../../grammar/text.ts';
import { printValue, printValues } from '../../grammar/tidy.ts';
import { type Appointment, type AppointmentContext, appointmentsOf } from '../assess/appointments.ts';
import { lastLook, openDefects } from '../assess/evidence.ts';
import { type MillLog, millOf } from '../assess/mill.ts';
import { jobName, openPrescriptionsOfAnyKind, openWork } from '../assess/prescriptions.ts';
import { currentRisks, ratingToActOn } from '../assess/risks.ts';
import { signsOf } from '../assess/signs.ts';
import { gravest } from '../assess/standing.ts';
import type { Interval } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { plainNumber, type Quantity } from '../base/quantity.ts';
import { counted } from '../base/words.ts';
import type { PlacedFact } from '../facts/file.ts';
import { valuesOf } from '../facts/interval.ts';
import { membersOf } from '../facts/schema.ts';
import type { Settings } from '../facts/settings.ts';
import { latestState } from '../facts/state.ts';
import type { Placed, Prescription, Site, Tree, TreeList, WrittenTree } from '../facts/types.ts';
import { worseRating } from '../practice/risk.ts';
import { type Finding, gravityOf } from '../rules/check.ts';

export interface ExportTree {
  readonly placed: PlacedFact<WrittenTree>;
  /** As shown to people, with slashes. */
  readonly file: string;
  readonly site: Site | undefined;
  readonly settings: Settings;
  /** What is found and due on a day, for the forms that tell it. */
  readonly judged?: JudgedTree | undefined;
}

interface JudgedTree {
  /** Those about the tree, also the accepted ones. */
  readonly findings: readonly Finding[];
  /** The tree on that day, and what its days depend on. */
  readonly context: AppointmentContext;
}

const TREE = HEADS.get('tree')!;

export type Cell = string | number | undefined;

/** `day`: a day number. */
export interface Column<Row = ExportTree> {
  readonly name: string;
  readonly type: 'text' | 'number' | 'count' | 'day';
  readonly of: (row: Row) => Cell;
}

/** What a tree states of a field, as the line has it that states it. */
function writtenOf(field: string): (tree: ExportTree) => string | undefined {
  const placeOf = placesOf(field);
  return tree => {
    const place = placeOf(tree);
    const line = place && lineAt(tree, place);
    if (!line) return undefined;
    // The felling that is a record of work is its day.
    if (!isOf(line, field)) return oneValue(tree, place);
    // A word that may stand alone says itself.
    return printValues(line) || line.word;
  };
}

const isOf = ({ word }: Line, field: string): boolean =>
  word === field || TREE.fields.get(word!)?.alias === field;

/** Where that is stated which counts of a field: by the tree itself, else by an inspection. */
function placesOf(field: string): (tree: ExportTree) => Span | undefined {
  const members = membersOf(TREE.fields.get(field)!);
  return ({ placed }) => {
    const state = latestState(placed.fact) as unknown as Readonly<Record<string, unknown>>;
    for (const { name, isList } of members) {
      const value = isList ? (state[name] as readonly Span[])[0] : (state[name] as Span | undefined);
      if (value) return value;
    }
    return undefined;
  };
}

function lineAt({ placed: { block } }: ExportTree, { start }: Span): Line & { readonly start: number } {
  const index = block.starts.findLastIndex(begin => begin <= start);
  return { ...block.lines[index]!, start: block.starts[index]! };
}

/** Diameters, in the line that measured them that way. */
function diametersOf(word: string): Column {
  const placeOf = placesOf(word);
  return text(word, tree => {
    const place = placeOf(tree);
    const line = place && lineAt(tree, place);
    return line?.word === word ? printValues(line) : undefined;
  });
}

/** One value, as it was written: the crown base of `from 12 ft, 54 ft wide`. */
function oneValue(tree: ExportTree, place: Span | undefined): string | undefined {
  if (!place) return undefined;
  const line = lineAt(tree, place);
  const value = line.values.find(({ start }) => line.start + start === place.start);
  return value && printValue(line, value);
}

const micrometres = (metres: number): number => Number(plainNumber(metres, 6));
/** A hundred millionth of a degree is a millimetre. */
export const degrees = (value: number): number => Number(plainNumber(value, 8));

type SizeColumns = (tree: Tree) => readonly Placed<Quantity>[];

/** Both ends of a size; of several stems, those of the stoutest. */
function ends(name: string, sizes: SizeColumns): readonly Column[] {
  const end = (side: 'low' | 'high'): Column => ({
    name: `${name}_${side}_m`,
    type: 'number',
    of({ placed, settings }) {
      const metres = sizes(latestState(placed.fact)).map(({ value }) => valuesOf(value, settings)[side]);
      const greatest = Math.max(...metres);
      return Number.isFinite(greatest) ? micrometres(greatest) : undefined;
    },
  });
  return [end('low'), end('high')];
}

const one = (quantity: Placed<Quantity> | undefined) => (quantity ? [quantity] : []);

const text = (name: string, of: (tree: ExportTree) => string | undefined): Column => ({
  name,
  type: 'text',
  of,
});
const asWritten = (field: string): Column => text(field.replaceAll('-', '_'), writtenOf(field));

/** Control characters and runs of white space can't be told apart in a table: they become one space. */
export const oneSpaced = (value: string): string => value.replace(/[\s\0-\x1F\x7F\uFFFD]+/g, ' ').trim();

/** Fields of the tree that are more than one column, or another one. */
const COLUMNS_OF: Readonly<Record<string, readonly Column[]>> = {
  planted: [{ name: 'planted', type: 'day', of: ({ placed }) => latestState(placed.fact).planted?.value }],
  felled: [{ name: 'felled', type: 'day', of: ({ placed }) => latestState(placed.fact).felled?.value }],
  position: [
    {
      name: 'latitude_deg',
      type: 'number',
      of: ({ placed }) => placed.fact.position && degrees(placed.fact.position.latitude),
    },
    {
      name: 'longitude_deg',
      type: 'number',
      of: ({ placed }) => placed.fact.position && degrees(placed.fact.position.longitude),
    },
  ],
  dbh: [diametersOf('dbh')],
  girth: [
    diametersOf('girth'),
    // From the girth where no diameter was taped.
    ...ends('dbh', tree => tree.diameters),
  ],
  height: [
    text('height', tree => oneValue(tree, latestState(tree.placed.fact).height)),
    ...ends('height', ({ height }) => one(height)),
  ],
  crown: [
    text('crown_base', tree => oneValue(tree, latestState(tree.placed.fact).crownBase)),
    ...ends('crown_base', ({ crownBase }) => one(crownBase)),
    text('crown_spread', tree => oneValue(tree, latestState(tree.placed.fact).crownSpread)),
    ...ends('crown_spread', ({ crownSpread }) => one(crownSpread)),
  ],
  formerly: [
    text('formerly', ({ placed }) => placed.fact.formerly.map(({ value }) => value).join(', ') || undefined),
  ],
  photo: [],
  // One in each line of the cell.
  note: [
    text(
      'notes',
      ({ placed }) =>
        placed.fact.notes
          .map(({ value }) => oneSpaced(value))
          .filter(note => note !== '')
          .join('\n') || undefined,
    ),
  ],
};

/** What an import of the table gives back. */
export const RECORD_COLUMNS: readonly Column[] = [
  text('tag', ({ placed }) => placed.fact.tag.value),
  text('name', ({ placed }) => placed.fact.name && oneSpaced(placed.fact.name.value)),
  ...[...TREE.fields.values()].flatMap(({ word, alias }) =>
    alias === undefined ? (COLUMNS_OF[word] ?? [asWritten(word)]) : [],
  ),
];

/** What is next, what is due, and what is worst: of those that are open. */
const JUDGED_COLUMNS: readonly Column[] = [
  text('next_work', tree => {
    const next = nextWork(tree);
    return next && jobName(next);
  }),
  { name: 'next_work_from', type: 'day', of: tree => nextWork(tree)?.between?.from },
  { name: 'next_work_to', type: 'day', of: tree => nextWork(tree)?.between?.to },
  { name: 'due_day', type: 'day', of: ({ judged }) => judged && firstDue(judged)?.to },
  text('due_for', ({ judged }) => judged && firstDue(judged)?.title),
  text('worst_finding', ({ judged }) => judged && worstFinding(judged)?.rule),
  text('worst_finding_level', ({ judged }) => judged && worstFinding(judged)?.level),
  text('worst_finding_message', ({ judged }) => judged && worstFinding(judged)?.message),
  // Not rated is not low.
  text('risk', ({ judged }) => {
    if (!judged) return undefined;
    const ratings = currentRisks(judged.context.tree).flatMap(risk => ratingToActOn(risk) ?? []);
    return ratings.length === 0 ? 'not rated' : ratings.reduce(worseRating);
  }),
  text('standing', ({ judged }) => {
    if (!judged) return undefined;
    const { tree, today } = judged.context;
    if (tree.felled) return 'felled';
    const signs = signsOf(judged.context);
    if (signs.length > 0) return gravest(signs);
    return lastLook(tree, today) ? 'no sign on record' : 'never inspected';
  }),
];

const begins = ({ between }: Prescription): number => between?.from ?? Number.POSITIVE_INFINITY;

/** The open work that begins first; work without a window last. */
const nextWork = ({ judged }: ExportTree): Prescription | undefined =>
  judged &&
  openWork(judged.context.tree).reduce<Prescription | undefined>(
    (first, one) => (first && begins(first) <= begins(one) ? first : one),
    undefined,
  );

/** What is due first; a window of work is no day to keep. */
const firstDue = memo(({ context }: JudgedTree): Appointment | undefined =>
  appointmentsOf(context)
    .filter(({ kind }) => kind !== 'window')
    .reduce<Appointment | undefined>((first, one) => (first && first.to <= one.to ? first : one), undefined),
);

const worstFinding = ({ findings }: JudgedTree): Finding | undefined =>
  findings
    .filter(({ accepted }) => !accepted)
    .reduce<Finding | undefined>(
      (worst, one) => (worst && gravityOf(worst) <= gravityOf(one) ? worst : one),
      undefined,
    );

/** Where a tree stands in the inventory, and what is open of it: for maps and queries. */
export const CONTEXT_COLUMNS: readonly Column[] = [
  text('file', ({ file }) => file),
  { name: 'line', type: 'count', of: ({ placed }) => placed.firstLine + 1 },
  text('site', ({ site }) => site?.name.value),
  {
    name: 'last_inspection',
    type: 'day',
    of({ placed }) {
      const days = placed.fact.inspections.map(({ date }) => date.value);
      return days.length === 0 ? undefined : Math.max(...days);
    },
  },
  { name: 'open_defects', type: 'count', of: ({ placed }) => openDefects(latestState(placed.fact)).length },
  {
    name: 'open_prescriptions',
    type: 'count',
    of: ({ placed }) => openPrescriptionsOfAnyKind(latestState(placed.fact)).length,
  },
  ...JUDGED_COLUMNS,
  ...millColumns('mill_volume', 'm3', ({ volume }) => volume),
  ...millColumns('mill_international', 'board_feet', ({ boards }) => boards?.['International 1/4-inch']),
  text('mill_not_judged', ({ placed, settings }) => {
    const mill = millOf(latestState(placed.fact), settings);
    if (mill === undefined || typeof mill === 'string') return mill;
    return mill.logs.find(({ notJudged }) => notJudged)?.notJudged;
  }),
];

/** Both ends of what all logs of a tree yield, net of rot; none unless all are judged. */
function millColumns(
  name: string,
  unit: string,
  of: (log: MillLog) => Interval | undefined,
): readonly Column[] {
  const end = (side: 'low' | 'high'): Column => ({
    name: `${name}_${side}_${unit}`,
    type: 'number',
    of({ placed, settings }) {
      const mill = millOf(latestState(placed.fact), settings);
      if (mill === undefined || typeof mill === 'string') return undefined;
      const yields = mill.logs.map(log => of(log)?.[side]);
      return yields.every(one => one !== undefined)
        ? Number(
            plainNumber(
              yields.reduce((sum, one) => sum + one, 0),
              3,
            ),
          )
        : undefined;
    },
  });
  return [end('low'), end('high')];
}

/** Counts what trees have below them and no column for. */
export class BelowTrees {
  private readonly counts = new Map<keyof typeof BELOW_A_TREE, number>();

  add(tree: WrittenTree): void {
    for (const list of LISTS)
      if (tree[list].length > 0) this.counts.set(list, (this.counts.get(list) ?? 0) + tree[list].length);
  }

  /** In words; undefined where there is nothing of the kind. */
  get words(): string | undefined {
    const kinds = LISTS.flatMap(list => {
      const count = this.counts.get(list);
      return count === undefined ? [] : [counted(count, ...BELOW_A_TREE[list])];
    });
    return kinds.length > 0 ? kinds.join(', ') : undefined;
  }
}

/** One of each list, and several where that is not the same with an s. */
const BELOW_A_TREE: Readonly<Record<'photos' | TreeList, readonly [one: string, many?: string]>> = {
  photos: ['photograph'],
  inspections: ['inspection'],
  parts: ['part'],
  supports: ['support'],
  defects: ['defect'],
  drillings: ['drilling'],
  tomograms: ['tomogram'],
  joined: ['joined hollow'],
  targets: ['target'],
  risks: ['risk'],
  conductors: ['conductor'],
  nestChecks: ['nest check'],
  batChecks: ['bat check'],
  pullTests: ['pull test'],
  views: ['view'],
  prescriptions: ['prescription'],
  works: ['job done', 'jobs done'],
  followUps: ['follow-up'],
  accepts: ['exception'],
};

const LISTS = Object.keys(BELOW_A_TREE) as (keyof typeof BELOW_A_TREE)[];
