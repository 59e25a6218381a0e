/** Which limits, seasons and severities apply in a folder, and where each of them comes from. */

import type { Quantity } from '../../grammar/quantity.ts';
import {
  type Citation,
  cite,
  findLimit,
  type Limit,
  type LimitDimension,
  limits,
  type RegionPack,
  regionPack,
  type Season,
} from '../practice/index.ts';
import type { Placed, Practice } from './types.ts';

/** Where a value comes from: a practice block (by name and file), the region's pack, or the table of limits. */
export interface Origin {
  readonly from: 'practice' | 'region' | 'table';
  readonly name?: string;
  readonly file?: string;
  readonly because?: string;
}

export interface Setting {
  /** In the inside unit of the limit's dimension. */
  readonly value: number;
  /** Symbol of the unit to show it in (`%`, `ft`, `days`). */
  readonly unit: string;
  readonly direction: Limit['direction'];
  readonly citation: Citation;
  readonly origin: Origin;
}

export type PlacedSeason = Season & { readonly origin: Origin };
export type Severity = 'error' | 'warning' | 'note' | 'off';

export interface Settings {
  /** Throws RangeError for a name that the table of limits does not have: a mistake of ours. */
  limit(name: string): Setting;
  readonly nesting: PlacedSeason;
  readonly raptorNesting: PlacedSeason;
  readonly batMaternity: PlacedSeason | undefined;
  /** Days on which a practice block does not want cuts; the region's windows against pests come on top. */
  readonly pruning?: PlacedSeason | undefined;
  severity(rule: string): Severity | undefined;
  readonly region: RegionPack;
  /** Whether the region is stated and known, or a default stands in for it. */
  readonly regionApplied: 'exact' | 'country' | 'default' | 'unstated';
}

/** A practice block and the file it stands in. */
export interface PracticeSource {
  readonly path: string;
  readonly fact: Practice;
}

/** The dimension in which a limit is written; ratios and counts are plain numbers. */
export const writtenDimension = (dimension: LimitDimension): Quantity['dimension'] =>
  dimension === 'ratio' || dimension === 'count' ? 'number' : dimension;

/** Whether a value can stand for a limit: one figure, in the limit's dimension (zero has every dimension). */
export function fitsLimit({ dimension }: Limit, value: Quantity): boolean {
  if (value.form !== 'exact') return false;
  return value.dimension === writtenDimension(dimension) || (value.low === 0 && value.unit === undefined);
}

/**
 * The settings under these practice blocks, nearest first, and this region code. Where several blocks give the
 * same value, the first of them counts; values that do not fit their limit are passed over.
 */
export function settingsUnder(practices: readonly PracticeSource[], region: string | undefined): Settings {
  const { pack, applied } = regionPack(region);
  const values = new Map<string, Setting>(limits.map(limit => [limit.name, fromTable(limit)]));
  const fromRegion: Origin = { from: 'region', name: pack.name };
  values.set('nest-check-validity', {
    value: pack.nestSurveyValidity.days,
    unit: 'days',
    direction: 'at most',
    citation: pack.nestSurveyValidity.citation,
    origin: fromRegion,
  });
  const seasons = new Map<string, PlacedSeason>([
    ['nesting', { ...pack.nesting, origin: fromRegion }],
    ['raptor nesting', { ...pack.raptorNesting, origin: fromRegion }],
    ['bat maternity', { ...pack.batMaternity, origin: fromRegion }],
  ]);
  const severities = new Map<string, Severity>();
  // From the furthest to the nearest, so that the nearest has the last word.
  for (const source of practices.toReversed()) apply(source, values, seasons, severities);
  return {
    limit(name) {
      const setting = values.get(name);
      if (!setting) throw new RangeError(`no limit is named ${name}`);
      return setting;
    },
    nesting: seasons.get('nesting')!,
    raptorNesting: seasons.get('raptor nesting')!,
    batMaternity: seasons.get('bat maternity'),
    pruning: seasons.get('pruning'),
    severity: rule => severities.get(rule),
    region: pack,
    regionApplied: region === undefined ? 'unstated' : applied,
  };
}

const fromTable = ({ value, unit, direction, citation }: Limit): Setting => ({
  value,
  unit,
  direction,
  citation,
  origin: { from: 'table' },
});

function apply(
  { path, fact }: PracticeSource,
  values: Map<string, Setting>,
  seasons: Map<string, PlacedSeason>,
  severities: Map<string, Severity>,
): void {
  const origin = (because: Placed<string> | undefined): Origin => ({
    from: 'practice',
    name: fact.name.value,
    file: path,
    ...(because ? { because: because.value } : {}),
  });
  for (const { name, value, because } of fact.limits.toReversed()) {
    const limit = findLimit(name.value);
    if (!limit || !fitsLimit(limit, value.value)) continue;
    values.set(limit.name, {
      value: value.value.low,
      unit: value.value.unit?.symbol ?? limit.unit,
      direction: limit.direction,
      citation: limit.citation,
      origin: origin(because),
    });
  }
  for (const { season, from, to, because } of fact.seasons.toReversed()) {
    seasons.set(season.value, {
      window: { from, to },
      // The source of what it replaces; no region has a season for pruning as such.
      citation: seasons.get(season.value)?.citation ?? cite('practice'),
      confidence: 'common practice',
      origin: origin(because),
    });
  }
  for (const { rule, level } of fact.severities.toReversed()) {
    severities.set(rule.value, level.value as Severity);
  }
}
