/** All rows of law, guidance and custom, and those of a place. */

import { parseDate } from '../../base/dates.ts';
import { britainRows } from './britain-ireland.ts';
import { canadaRows } from './canada.ts';
import { customRows, EVERYWHERE } from './customs.ts';
import { elsewhereRows } from './elsewhere.ts';
import { europeRows } from './europe.ts';
import { type Force, LAST_READ, type LawRow, type LawRule, type ReadState } from './law-row.ts';
import { unitedStatesRows } from './united-states.ts';
import { stateRows } from './us-states.ts';
import { woodRows } from './wood.ts';

export const lawRows: readonly LawRow[] = [
  ...customRows,
  ...unitedStatesRows,
  ...stateRows,
  ...canadaRows,
  ...britainRows,
  ...europeRows,
  ...elsewhereRows,
  ...woodRows,
];

/** Members of the European Union with rows of their own. */
const MEMBERS: ReadonlySet<string> = new Set(
  'AT BE BG CY CZ DE DK EE ES FI FR GR HR HU IE IT LT LU LV MT NL PL PT RO SE SI SK'.split(' '),
);

/** The codes whose rows hold in a place, from the widest: `everywhere`, `EU`, `DE`, `DE-BY`. */
function codesOf(region: string): readonly string[] {
  const code = region.toUpperCase();
  const country = code.split('-')[0]!;
  return [EVERYWHERE, ...(MEMBERS.has(country) ? ['EU'] : []), country, ...(code === country ? [] : [code])];
}

/** Rows of a place, from the widest area to the narrowest, whether in force or not. */
const allIn = (region: string): readonly LawRow[] =>
  codesOf(region).flatMap(code =>
    lawRows.filter(row => row.region.includes(code) && !row.notIn?.includes(region.toUpperCase())),
  );

const beginsBy = ({ from }: LawRow, on: string): boolean => from === undefined || from <= on;

/** Rows of a place, from the widest area to the narrowest, in force on an ISO date. */
export const lawsIn = (region: string, on: string): readonly LawRow[] =>
  allIn(region).filter(row => beginsBy(row, on) && (row.until === undefined || on <= row.until));

/** Rows of a place that came into force after an ISO date. */
export const laterLawsIn = (region: string, on: string): readonly LawRow[] =>
  allIn(region).filter(row => !beginsBy(row, on));

/** The day on which the rows were gathered, as a day number. */
export const GATHERED: number = parseDate(LAST_READ)!;

/** Day numbers on which some row begins, or no longer holds, in order. */
const CHANGES: readonly number[] = [
  ...new Set(
    lawRows.flatMap(({ from, until }) => [
      ...(from === undefined ? [] : [parseDate(from)!]),
      ...(until === undefined ? [] : [parseDate(until)! + 1]),
    ]),
  ),
].sort((a, b) => a - b);

/** The last day up to a day on which some row changed: all days with the same one have the same rows. */
export const lastChange = (on: number): number =>
  CHANGES.findLast(day => day <= on) ?? Number.NEGATIVE_INFINITY;

export type RowOf<Kind extends LawRule['kind']> = LawRow & {
  readonly rule: Extract<LawRule, { kind: Kind }>;
};

/** The rows with a rule of one kind. */
export const ofKind = <Kind extends LawRule['kind']>(
  rows: readonly LawRow[],
  kind: Kind,
): readonly RowOf<Kind>[] => rows.filter((row): row is RowOf<Kind> => row.rule.kind === kind);

/** Whether nothing of the row was read. */
export const isFromMemory = ({ read }: LawRow): boolean => read === 'memory' || read === 'name';

/** ISO date. */
export const readOn = ({ readOn: day = LAST_READ }: LawRow): string => day;

/** Whether a row was read more than a year before an ISO date; what nobody read is not older for it. */
export function isReadLongAgo(row: LawRow, on: string): boolean {
  const day = readOn(row);
  return !isFromMemory(row) && `${Number(day.slice(0, 4)) + 1}${day.slice(4)}` < on;
}

/** Rows that name a region itself, not an area around it. */
export const ownRows = (code: string): readonly LawRow[] =>
  lawRows.filter(({ region }) => region.includes(code));

export const FORCES = {
  law: 'law',
  'logging law': 'law for logging',
  guidance: 'guidance',
  custom: 'custom',
} as const satisfies Record<Force, string>;

/** From the most binding to the least. */
export const BINDING: readonly Force[] = ['law', 'logging law', 'guidance', 'custom'];

const DOUBTS: Partial<Record<ReadState, string>> = {
  'second-hand': ', second-hand',
  'in part': ', partly from memory',
  name: ', from memory',
  memory: ', from memory',
};

/** As a finding cites a row: `29 CFR 1910.333(c)(3)(i)(A), law`. */
export const cited = ({ act, source, force, read }: LawRow): string =>
  `${act ?? source}, ${FORCES[force]}${DOUBTS[read] ?? ''}`;
