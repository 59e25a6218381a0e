/** Which limits, seasons and severities apply in a folder, and where each of them comes from. */

import { isLess } from '../base/interval.ts';
import { lengthUnitOf, type Quantity } from '../base/quantity.ts';
import { covers, daysIn, type YearlyWindow } from '../base/yearly-window.ts';
import { cite } from '../practice/citation.ts';
import type { ApproachRule } from '../practice/law/law-row.ts';
import { cited } from '../practice/law/laws-of.ts';
import type { LimitDimension } from '../practice/limit-row.ts';
import { findLimit, type LimitEntry, limits } from '../practice/limits.ts';
import type { ClosedSeason, PackValue, RegionPack } from '../practice/region-pack.ts';
import { type AppliedRegion, isStandIn, regionPack } from '../practice/regions.ts';
import type { SourceRow } from '../practice/source-row.ts';
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
  readonly direction: LimitEntry['direction'];
  readonly citation: SourceRow;
  readonly origin: Origin;
  /** What allows it to be looser than the law, up to its last day. */
  readonly authorized?: { readonly by: string; readonly until: number };
}

export type PlacedSeason = ClosedSeason & { readonly origin: Origin };
type Approaches = Pick<PackValue<ApproachRule>, 'value' | 'citation'> & {
  /** `stand-in` where neither the region nor the office has distances. */
  readonly from: 'region' | 'practice' | 'stand-in';
};
export type SeveritySetting = 'error' | 'warning' | 'note' | 'off';

export interface Settings {
  /**
   * The limit in force, on a day where one is given: an authorization on record counts on its days alone. Throws
   * RangeError for a name that the table of limits does not have: a mistake of ours.
   */
  limit(name: string, on?: number): Setting;
  /** Undefined where nobody has stated a season: no pack, or one without a row. */
  readonly nesting: PlacedSeason | undefined;
  readonly raptorNesting: PlacedSeason | undefined;
  /** Of places where eagles nest on other days than other birds of prey. */
  readonly eagleNesting: PlacedSeason | undefined;
  readonly batMaternity: PlacedSeason | undefined;
  /** Days on which the place leaves trees in which bats may roost standing. */
  readonly batTrees: PlacedSeason | undefined;
  /** Days on which a practice block does not want cuts; the region's windows against pests come on top. */
  readonly pruning?: PlacedSeason | undefined;
  severity(rule: string): SeveritySetting | undefined;
  readonly region: RegionPack;
  /** Distances to lines of people without a qualification: of the region, else of the office, else a stand-in. */
  readonly approach: Approaches;
  readonly regionApplied: AppliedRegion['applied'];
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
export function fitsLimit({ dimension }: LimitEntry, value: Quantity): boolean {
  if (value.form !== 'exact') return false;
  return value.dimension === writtenDimension(dimension) || (value.low === 0 && value.unit === undefined);
}

/** Whether a value lets pass what another one for the same limit does not. */
export const isLooser = (direction: LimitEntry['direction'], value: number, than: number): boolean =>
  direction === 'at most' ? isLess(than, value) : isLess(value, than);

/** The value of a limit that the pack of the region has, with the unit that people of the region use. */
function regional(
  { name, unit }: LimitEntry,
  { nestSurvey, drone, fellingZone }: RegionPack,
): { readonly of: PackValue<number>; readonly unit: string } | undefined {
  if (name === 'nest-check-validity') return { of: nestSurvey, unit };
  if (name === 'exclusion-ratio' && fellingZone) {
    const { citation, row } = fellingZone;
    return { of: { ...fellingZone, citation: { ...citation, short: cited(row) } }, unit };
  }
  if (name === 'drone-height' && drone.height)
    return { of: drone.height, unit: lengthUnitOf(drone.height.value).symbol };
  return undefined;
}

/** What stands where no practice block speaks: the region's own value, else that of the table. */
export function commonSetting(limit: LimitEntry, pack: RegionPack): Setting {
  const { value, unit, direction, citation } = limit;
  const found = regional(limit, pack);
  if (!found) return { value, unit, direction, citation, origin: { from: 'table' } };
  return {
    value: found.of.value,
    unit: found.unit,
    direction,
    citation: found.of.citation,
    origin: { from: 'region', name: pack.name },
  };
}

export type WrittenLimit = Practice['limits'][number];
export type WrittenSeason = Practice['seasons'][number];

/** How far a practice block may loosen a limit that rests on safety: no further than it stands where the law of the place states it. */
export function floorOf(limit: LimitEntry, pack: RegionPack): number | undefined {
  return regional(limit, pack)?.of.row.force === 'law' ? undefined : limit.floor;
}

/**
 * Whether a practice block may give this value: what rests on law or safety is only ever made stricter, but for a limit
 * with a floor.
 */
export function isAllowed(
  limit: LimitEntry,
  { value, because, authorized }: WrittenLimit,
  pack: RegionPack,
): boolean {
  const given = value.value.low;
  if (limit.rests === 'practice' || (limit.rests === 'law' && authorized !== undefined)) return true;
  const floor = because && floorOf(limit, pack);
  if (floor !== undefined && !isLooser(limit.direction, given, floor)) return true;
  return !isLooser(limit.direction, given, commonSetting(limit, pack).value);
}

/** The season of the region that a practice block may replace; no region has one for pruning as such. */
export function commonSeason(
  name: string,
  { nesting, raptorNesting, batMaternity }: RegionPack,
): ClosedSeason | undefined {
  const seasons: Readonly<Record<string, ClosedSeason | undefined>> = {
    nesting,
    'raptor nesting': raptorNesting,
    'bat maternity': batMaternity,
  };
  return seasons[name];
}

/** Whether a practice block may set these days: what the text of a law closes stays closed. */
export function isAllowedSeason(written: WrittenSeason, pack: RegionPack): boolean {
  const common = commonSeason(written.season.value, pack);
  return common?.rests !== 'law' || covers(written.days, common.window);
}

/**
 * The settings under the practice blocks of these folders, nearest first, and this region code on a day. The nearest folder
 * decides; where it gives a value more than once, the strictest counts. Values that do not fit their limit, and
 * those that a practice block may not give, are passed over.
 */
export function settingsUnder(
  folders: readonly (readonly PracticeSource[])[],
  region: string | undefined,
  on: number,
): Settings {
  const { pack, applied } = regionPack(region, on);
  const values = new Map<string, InForce>(
    limits.map(limit => [limit.name, { setting: commonSetting(limit, pack) }]),
  );
  const fromRegion: Origin = { from: 'region', name: pack.name };
  const seasons = new Map<string, PlacedSeason>();
  for (const name of ['nesting', 'raptor nesting', 'bat maternity']) {
    const season = commonSeason(name, pack);
    if (season) seasons.set(name, { ...season, origin: fromRegion });
  }
  const severities = new Map<string, SeveritySetting>();
  // From the furthest to the nearest, so that the nearest has the last word.
  for (const blocks of folders.toReversed()) {
    applyLimits(blocks, values, pack);
    applySeasons(blocks, seasons, pack);
    applySeverities(blocks, severities);
  }
  return {
    limit(name, on) {
      let found = values.get(name);
      if (!found) throw new RangeError(`no limit is named ${name}`);
      while (found.else && !(on !== undefined && on <= found.setting.authorized!.until)) found = found.else;
      return found.setting;
    },
    nesting: seasons.get('nesting'),
    raptorNesting: seasons.get('raptor nesting'),
    eagleNesting: pack.eagleNesting && { ...pack.eagleNesting, origin: fromRegion },
    batMaternity: seasons.get('bat maternity'),
    batTrees: pack.batTrees && { ...pack.batTrees, origin: fromRegion },
    pruning: seasons.get('pruning'),
    approach: approachesOf(folders, pack),
    severity: rule => severities.get(rule),
    region: pack,
    regionApplied: applied,
  };
}

/** The distances that the nearest folder with any states, by voltage; the last holds for all lines above. */
function approachesOf(folders: readonly (readonly PracticeSource[])[], { approach }: RegionPack): Approaches {
  const { value, citation, row } = approach;
  if (!isStandIn(row)) return { value, citation, from: 'region' };
  const nearest = folders.find(blocks => blocks.some(({ fact }) => fact.approaches.length > 0));
  const block = nearest?.find(({ fact }) => fact.approaches.length > 0);
  if (!nearest || !block) return { value, citation, from: 'stand-in' };
  const written = nearest
    .flatMap(({ fact }) => fact.approaches)
    // Of a reading that is not exact the end that keeps people farther away.
    .map(
      ({ distance, voltage }) =>
        [voltage?.value.low ?? Number.POSITIVE_INFINITY, distance.value.high] as const,
    )
    .toSorted(([a, near], [b, far]) => a - b || far - near);
  const steps = written.filter(([upTo], i) => upTo !== written[i - 1]?.[0]);
  const unknown = Math.max(...steps.map(([, distance]) => distance));
  return {
    value: { kind: 'approach', who: 'anyone', reference: 'between phases', shape: 'sphere', steps, unknown },
    citation: { short: block.fact.name.value, full: block.fact.name.value, confidence: 'common practice' },
    from: 'practice',
  };
}

/** A setting, and under an authorization the one that holds without it. */
interface InForce {
  readonly setting: Setting;
  readonly else?: InForce;
}

const originOf = ({ path, fact }: PracticeSource, because: Placed<string> | undefined): Origin => ({
  from: 'practice',
  name: fact.name.value,
  file: path,
  ...(because ? { because: because.value } : {}),
});

function applyLimits(
  blocks: readonly PracticeSource[],
  values: Map<string, InForce>,
  pack: RegionPack,
): void {
  const before = new Map(values);
  const given = new Map<string, InForce>();
  for (const block of blocks) {
    for (const written of block.fact.limits) {
      const limit = findLimit(written.name.value);
      if (!limit || !fitsLimit(limit, written.value.value) || !isAllowed(limit, written, pack)) continue;
      const { value, because, authorized } = written;
      const { name, direction, citation } = limit;
      const looser = isLooser(direction, value.value.low, commonSetting(limit, pack).value);
      const setting: Setting = {
        value: value.value.low,
        unit: value.value.unit?.symbol ?? limit.unit,
        direction,
        citation,
        origin: originOf(block, because),
        ...(looser && limit.rests === 'law' ? { authorized: authorized! } : {}),
      };
      const other = given.get(name);
      if (other && !isLooser(direction, other.setting.value, setting.value)) continue;
      given.set(name, setting.authorized ? { setting, else: before.get(name)! } : { setting });
    }
  }
  for (const [name, value] of given) values.set(name, value);
}

function applySeasons(
  blocks: readonly PracticeSource[],
  seasons: Map<string, PlacedSeason>,
  pack: RegionPack,
): void {
  const given = new Map<string, PlacedSeason>();
  for (const block of blocks) {
    for (const written of block.fact.seasons) {
      if (!isAllowedSeason(written, pack)) continue;
      const name = written.season.value;
      const { from, to } = written.days;
      const window = { from, to };
      const other = given.get(name);
      if (other && !isLonger(window, other.window)) continue;
      const replaced = seasons.get(name);
      given.set(name, {
        window,
        // The source of what it replaces.
        citation: replaced?.citation ?? cite('practice'),
        confidence: 'common practice',
        origin: originOf(block, written.because),
      });
    }
  }
  for (const [name, season] of given) seasons.set(name, season);
}

/** Of two for one season the longer; of two as long the one that begins earlier in the year. */
const isLonger = (window: YearlyWindow, other: YearlyWindow): boolean => {
  const longer = daysIn(window) - daysIn(other);
  return longer > 0 || (longer === 0 && startOf(window) < startOf(other));
};
const startOf = ({ from }: YearlyWindow): number => from.month * 100 + from.day;

const GRAVITY: readonly SeveritySetting[] = ['off', 'note', 'warning', 'error'];

/** The graver of two levels. */
export const graver = <Of extends SeveritySetting>(one: Of, other: Of): Of =>
  GRAVITY.indexOf(one) >= GRAVITY.indexOf(other) ? one : other;

function applySeverities(blocks: readonly PracticeSource[], severities: Map<string, SeveritySetting>): void {
  const given = new Map<string, SeveritySetting>();
  for (const { fact } of blocks) {
    for (const { rule, level } of fact.severities) {
      const severity = level.value as SeveritySetting;
      given.set(rule.value, graver(severity, given.get(rule.value) ?? severity));
    }
  }
  for (const [rule, severity] of given) severities.set(rule, severity);
}
