/** Packs of regions, built from the rows of law, guidance and custom. Local orders and permits come on top. */

import { formatDate } from '../base/dates.ts';
import { inTable } from '../base/memo.ts';
import { covers } from '../base/yearly-window.ts';
import { EVERYWHERE, UNSTATED } from './law/customs.ts';
import { type DroneRule, LAST_READ, type LawRow, type SeasonOf } from './law/law-row.ts';
import { BINDING, GATHERED, lastChange, lawRows, lawsIn, ofKind, type RowOf } from './law/laws-of.ts';
import { REGION_NAMES } from './law/region-names.ts';
import type { ClosedSeason, PackValue, PruningWindow, RegionPack, Statute } from './region-pack.ts';
import type { Confidence, SourceRow } from './source-row.ts';

/** How far the value of a row is sure; what was read of another's report counts as memory. */
function confidenceOf({ read, force, source }: LawRow): Confidence {
  if (read === 'text' || read === 'older text') return 'published';
  return force === 'custom' && (source === 'common practice' || read === 'conclusion')
    ? 'common practice'
    : 'from memory';
}

const citationOf = (row: LawRow): SourceRow => ({
  short: row.act ?? row.source,
  full: row.source,
  confidence: confidenceOf(row),
});

const packValue = <Value>(row: LawRow, value: Value): PackValue<Value> => ({
  value,
  citation: citationOf(row),
  row,
});

type SeasonRow = RowOf<'season'>;

const closedSeason = (row: SeasonRow | RowOf<'pest'>): ClosedSeason => ({
  window: row.rule.closed,
  ...(row.force === 'law' ? { rests: 'law' } : {}),
  citation: citationOf(row),
  confidence: confidenceOf(row),
});

/** The row of the narrowest area. */
const seasonRow = (rows: readonly LawRow[], of: SeasonOf): SeasonRow | undefined =>
  ofKind(rows, 'season').findLast(({ rule }) => rule.of === of && isWhole(rule));

/** Whether a season holds in all of the region, for trees of every height. */
const isWhole = ({ onlyIf, tallerThan }: SeasonRow['rule']): boolean =>
  onlyIf === undefined && tallerThan === undefined;

const season = (rows: readonly LawRow[], of: SeasonOf): ClosedSeason | undefined => {
  const row = seasonRow(rows, of);
  return row && closedSeason(row);
};

/** A cutting ban on most land that contains the nesting season takes its place: its days rest on law. */
function nestingOf(rows: readonly LawRow[]): ClosedSeason | undefined {
  const nesting = season(rows, 'birds');
  const ban = ofKind(rows, 'season').findLast(
    ({ rule, force }) => rule.of === 'cutting' && rule.land === undefined && force === 'law',
  );
  return ban && (!nesting || covers(ban.rule.closed, nesting.window)) ? closedSeason(ban) : nesting;
}

/** For each pest the window of the narrowest area, those of narrow areas first. */
function pruningOf(rows: readonly LawRow[]): readonly PruningWindow[] {
  const byPest = new Map<string, PruningWindow>();
  for (const row of ofKind(rows, 'pest').toReversed()) {
    const { pest, genera, paint = false } = row.rule;
    if (!byPest.has(pest)) byPest.set(pest, { ...closedSeason(row), pest, genera, paint });
  }
  return [...byPest.values()];
}

/** Each field from the narrowest area that states it. */
function droneOf(rows: readonly LawRow[]): RegionPack['drone'] {
  const drone: Partial<Record<keyof DroneRule, PackValue<unknown>>> = {};
  for (const row of ofKind(rows, 'drone')) {
    const { kind: _, ...fields } = row.rule;
    for (const [field, value] of Object.entries(fields))
      drone[field as keyof DroneRule] = packValue(row, value);
  }
  return drone as RegionPack['drone'];
}

function statutesOf(rows: readonly LawRow[]): readonly Statute[] {
  const all = rows.flatMap(row =>
    row.protects === undefined ? [] : [{ protects: row.protects, citation: citationOf(row) }],
  );
  const isFirst = ({ protects, citation }: Statute, i: number): boolean =>
    all.findIndex(other => other.protects === protects && other.citation.short === citation.short) === i;
  return all.filter(isFirst);
}

/** What a rule decides, if a narrower row for the same takes its place. */
function decides({ rule }: LawRow): string | undefined {
  switch (rule.kind) {
    case 'season':
      return `${rule.kind} ${rule.of}`;
    case 'pest':
      return `${rule.kind} ${rule.pest}`;
    case 'approach':
      return `${rule.kind} ${rule.who}`;
    case 'breast height':
    case 'nest survey':
      return rule.kind;
    default:
      return undefined;
  }
}

/** Without customs in whose place a narrower area has a row of its own. */
const withoutReplaced = (rows: readonly LawRow[]): readonly LawRow[] =>
  rows.filter((row, i) => {
    const what = decides(row);
    return (
      row.force !== 'custom' ||
      what === undefined ||
      !rows.slice(i + 1).some(other => decides(other) === what)
    );
  });

/** Whether a distance to lines is only the stand-in for places without one on record. */
export const isStandIn = ({ region }: LawRow): boolean => region.includes(EVERYWHERE);

/** The most binding row; of equally binding ones that of the narrowest area. */
const fellingZoneOf = (rows: readonly LawRow[]): RowOf<'felling zone'> | undefined =>
  ofKind(rows, 'felling zone')
    .toSorted((a, b) => BINDING.indexOf(b.force) - BINDING.indexOf(a.force))
    .at(-1);

function buildPack(code: string, name: string, all: readonly LawRow[]): RegionPack {
  const rows = withoutReplaced(all);
  const survey = ofKind(rows, 'nest survey').at(-1)!;
  const breastHeight = ofKind(rows, 'breast height').at(-1)!;
  const approach = ofKind(rows, 'approach').findLast(({ rule }) => rule.who === 'anyone')!;
  const zone = fellingZoneOf(rows);
  return {
    code,
    name,
    rows,
    nesting: nestingOf(rows),
    raptorNesting: season(rows, 'birds of prey'),
    batMaternity: season(rows, 'bat maternity'),
    eagleNesting: season(rows, 'eagles'),
    batTrees: season(rows, 'bats'),
    nestSurvey: packValue(survey, survey.rule.days),
    pruning: pruningOf(rows),
    statutes: statutesOf(rows),
    breastHeight: packValue(breastHeight, breastHeight.rule.height),
    approach: packValue(approach, approach.rule),
    fellingZone: zone && packValue(zone, zone.rule.ratio),
    drone: droneOf(rows),
  };
}

const defaultPack = buildPack(
  'default',
  'no region',
  lawRows.filter(({ region }) => region.includes(EVERYWHERE) || region.includes(UNSTATED)),
);

/** The packs of all regions with rows of their own. */
export const regionPacks: readonly RegionPack[] = Object.entries(REGION_NAMES).map(([code, name]) =>
  buildPack(code, name, lawsIn(code, LAST_READ)),
);

export interface AppliedRegion {
  readonly requested: string | undefined;
  readonly pack: RegionPack;
  /** `country` for a subdivision without rows of its own, `none` for a country without any. */
  readonly applied: 'exact' | 'country' | 'none' | 'unstated';
}

const NAMES: Readonly<Record<string, string>> = REGION_NAMES;

const packs = new Map<string, RegionPack>();

/** The pack of a place as of a day; those of the day on which the rows were gathered are built already. */
function packOf(code: string, on: number): RegionPack {
  const since = lastChange(on);
  return inTable(packs, `${code} ${since}`, () => {
    const gathered = since === lastChange(GATHERED) && regionPacks.find(pack => pack.code === code);
    return gathered || buildPack(code, NAMES[code] ?? code, lawsIn(code, formatDate(on)));
  });
}

/**
 * The pack for an ISO 3166 code: of the subdivision (`US-OR`), else of its country (`US`), else one with what holds
 * everywhere alone. Case-insensitive.
 * @param on the day of which the rows are in force; that on which they were gathered if not given
 */
export function regionPack(code: string | undefined, on = GATHERED): AppliedRegion {
  if (!code) return { requested: code, pack: defaultPack, applied: 'unstated' };
  const wanted = code.toUpperCase();
  const country = wanted.split('-')[0]!;
  if (Object.hasOwn(NAMES, wanted)) return { requested: code, pack: packOf(wanted, on), applied: 'exact' };
  if (Object.hasOwn(NAMES, country))
    return { requested: code, pack: packOf(country, on), applied: 'country' };
  return { requested: code, pack: packOf(wanted, on), applied: 'none' };
}
