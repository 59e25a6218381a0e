/** Cables, braces, props and guys: their age and inspection, and of cables what they have to carry. */

import { type Interval, interval, type LimitVerdict } from '../base/interval.ts';
import type { Quantity } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import { UNREAD } from '../facts/placed.ts';
import type { Settings } from '../facts/settings.ts';
import type { Placed, Site, Support, Tree } from '../facts/types.ts';
import { cableTension } from '../mechanics/forks.ts';
import { type Strand, strandFor, USUAL_SLOPE, WORKING_SHARE } from '../practice/cables.ts';
import { type ForkSafety, forkNamed, forkSafety } from './fork-safety.ts';
import { type Judged, judge } from './judge.ts';

const NO_SUPPORTS: readonly Support[] = [];

/** In place on a day: not removed. */
export const supportsInPlace = ({ supports, felled }: Tree): readonly Support[] =>
  felled || supports.length === 0
    ? NO_SUPPORTS
    : supports.filter(({ removed, kind }) => !removed && kind.value !== UNREAD);

/** `cable C1`. */
export const supportName = ({ kind, id }: Support): string => `${kind.value} ${id.value}`;

/** When it was installed, as its newest reading says that speaks of it. */
export const installedOn = ({ installed, earlier }: Support): Placed<number> | undefined =>
  installed ?? earlier.find(one => one.installed)?.installed;

/** Day of the last look at it; the day it was installed counts as one. Undefined if neither is on record. */
export function lastLookAt({ looks, installed }: Support, today: number): number | undefined {
  const days = [...looks.map(({ date }) => date), ...(installed ? [installed.value] : [])].filter(
    day => day <= today,
  );
  return days.length === 0 ? undefined : Math.max(...days);
}

/** Day by which it has to be inspected. */
export function inspectionDue(support: Support, settings: Settings, today: number): number | undefined {
  const last = lastLookAt(support, today);
  return last === undefined ? undefined : last + Math.floor(settings.limit('support-inspection').value);
}

/** Last day of the service life. */
export function serviceEnd(support: Support, settings: Settings): number | undefined {
  const installed = installedOn(support);
  return installed && installed.value + Math.floor(settings.limit('support-life').value);
}

type Rated = Pick<Support, 'rated' | 'breaking'>;

/** Working load, N: as stated, or the share of the breaking load that counts, whichever is less. */
export function workingLoad({ rated, breaking }: Rated, settings: Settings): Interval | undefined {
  const stated = rated && valuesOf(rated.value, settings);
  const broken = breaking && valuesOf(breaking.value, settings);
  const share = broken && interval(broken.low * WORKING_SHARE, broken.high * WORKING_SHARE);
  if (!stated || !share) return stated ?? share;
  return interval(Math.min(stated.low, share.low), Math.min(stated.high, share.high));
}

export interface CableLoad {
  readonly fork: ForkSafety;
  /** With the margin, less what the fork bears; of a cracked fork nothing. N. */
  readonly tension: Interval;
  /** As if the fork bore nothing, without a margin. N. */
  readonly fullRelief: Interval;
  /** From the least that the fork leaves to the greater of both. N. */
  readonly needed: Interval;
  /** Thinnest strand that may carry it; undefined if none of the table may. */
  readonly strand: Strand | undefined;
}

/** Height of the cable above the fork over the length of the shorter stem, against its limit. */
export function cableHeight(
  fixed: Placed<Quantity> | undefined,
  fork: Pick<ForkSafety, 'height' | 'length'>,
  settings: Settings,
): Judged | undefined {
  const read = fixed && valuesOf(fixed.value, settings);
  if (!read || !Number.isFinite(read.high)) return undefined;
  const share = interval(
    Math.max(0, read.low - fork.height.high) / fork.length.high,
    Math.max(0, read.high - fork.height.low) / fork.length.low,
  );
  return judge(share, 'cable-height', settings);
}

/** A cable between the stems of a fork; at two thirds of the length where its height is not stated. */
export function cableLoad(
  fork: ForkSafety,
  { fixed, slope }: Pick<Support, 'fixed' | 'slope'>,
  isCracked: boolean,
  settings: Settings,
): CableLoad | string {
  const read = fixed && valuesOf(fixed.value, settings);
  const least = settings.limit('cable-height').value;
  const above = read
    ? interval(read.low - fork.height.high, read.high - fork.height.low)
    : interval(least * fork.length.low, least * fork.length.high);
  if (!(above.low > 0) || !Number.isFinite(above.high)) return 'it may be fixed at the fork or below it';
  const angle = slope && valuesOf(slope.value, settings);
  const steep = angle
    ? interval(Math.max(0, angle.low), Math.max(0, angle.high))
    : interval(USUAL_SLOPE.low, USUAL_SLOPE.high);
  if (steep.high >= 90) return 'it may be vertical, and then it supports nothing';
  const geometry = { above, slope: steep };
  const none = interval(0, 0);
  const tension = cableTension(
    fork.moment,
    settings.limit('cable-load-margin').value,
    isCracked ? none : fork.resistance,
    geometry,
  );
  const fullRelief = cableTension(fork.moment, 1, none, geometry);
  const needed = interval(tension.low, Math.max(tension.high, fullRelief.high));
  return { fork, tension, fullRelief, needed, strand: strandFor(needed.high) };
}

interface HeldFork {
  readonly fork: ForkSafety;
  readonly isCracked: boolean;
}

/** The fork that a cable holds by the names of its stems; why not, where there is no figure; undefined if it names none. */
function forkHeld(
  names: readonly Placed<string>[],
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
): HeldFork | string | undefined {
  const pair = forkNamed(names, tree);
  if (!pair) return undefined;
  const fork = forkSafety(pair[0], pair[1], tree, site, settings);
  return typeof fork === 'string'
    ? fork
    : { fork, isCracked: pair.some(({ union }) => union?.value === 'cracked') };
}

export interface JudgedCable {
  readonly load: CableLoad | string;
  readonly height: Judged | undefined;
  /** Working load on record. */
  readonly rated: Interval | undefined;
  /** Undefined without a load or a rating. */
  readonly standing: LimitVerdict | undefined;
}

type CableLike = Pick<Support, 'fixed' | 'slope' | 'rated' | 'breaking'>;

/** A cable in place or prescribed; undefined if it holds no fork on record. */
export function judgedCable(
  cable: CableLike,
  names: readonly Placed<string>[],
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
): JudgedCable | undefined {
  const held = forkHeld(names, tree, site, settings);
  if (held === undefined) return undefined;
  const rated = workingLoad(cable, settings);
  if (typeof held === 'string') return { load: held, height: undefined, rated, standing: undefined };
  const load = cableLoad(held.fork, cable, held.isCracked, settings);
  return {
    load,
    height: cableHeight(cable.fixed, held.fork, settings),
    rated,
    standing:
      typeof load === 'string' || !rated
        ? undefined
        : rated.low >= load.needed.high
          ? 'within'
          : rated.high < load.needed.low
            ? 'exceeds'
            : 'may exceed',
  };
}

/**
 * Whether a cable in place certainly holds a fork: inspected in time, within its life, high enough and rated for its
 * load.
 */
export function isSoundCable(
  support: Support,
  {
    tree,
    site,
    settings,
  }: { readonly tree: Tree; readonly site: Site | undefined; readonly settings: Settings },
  today: number,
): boolean {
  if (support.kind.value !== 'cable') return false;
  const due = inspectionDue(support, settings, today);
  const end = serviceEnd(support, settings);
  if (due === undefined || due < today || end === undefined || end < today) return false;
  const judged = judgedCable(support, support.holds, tree, site, settings);
  return judged?.standing === 'within' && judged.height?.standing === 'within';
}
