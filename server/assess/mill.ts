/** What the logs of a stem would yield at a mill, with the rotten core taken off. */

import { clip, exact, type Interval, interval, isLess } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import type { Quantity } from '../base/quantity.ts';
import { METRES_PER_FOOT } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, Placed, Tree } from '../facts/types.ts';
import { diameterAt, exponentOfForm, exponentOfTaper, type Stem } from '../mechanics/taper.ts';
import { FORM_FACTOR, LOG_RULES, type LogRule, newtonVolume, soundBoardFeet } from '../mechanics/timber.ts';
import { barkShare } from '../practice/bark.ts';
import { lookupGenus } from '../practice/species.ts';
import { openDefects } from './evidence.ts';
import { hollowOf, hollowsOf, isUnread } from './hollows.ts';
import { openPrescriptions } from './jobs.ts';
import { fellsTree } from './prescriptions.ts';
import { type Units, unitsOf } from './units.ts';

export interface MillLog {
  /** From the butt up. */
  readonly number: number;
  /** m. */
  readonly length: number;
  /** Inside bark, m. */
  readonly smallEnd: Interval;
  /** m³, net of the core. */
  readonly volume: Interval | undefined;
  /** Net board feet. */
  readonly boards: Readonly<Record<LogRule, Interval>> | undefined;
  /** Defects taken off, by name. */
  readonly off: readonly string[];
  /** Whether the length of the rot along the log is assumed. */
  readonly isLengthAssumed: boolean;
  /** Why it is not judged, for the middle of a sentence. */
  readonly notJudged?: string;
}

export interface Mill {
  readonly logs: readonly MillLog[];
  /** Number of the log that certainly yields most. */
  readonly first: number | undefined;
  /** Where the diameters come from, for the middle of a sentence. */
  readonly form: string;
  readonly areLengthsStated: boolean;
  readonly units: Units;
}

/** Height of the stump and customary length of a log, m: custom of the mills. */
const STUMP = METRES_PER_FOOT;
const LOG = 16 * METRES_PER_FOOT;
const HALF_LOG = LOG / 2;
/** Least small end of a customary log, inside bark, m: custom of the mills. */
const SMALL_END = 10 * 0.0254;

/** Defects of the trunk without a size: what they take from a log is not known. */
const UNSIZED: ReadonlySet<Defect['kind']['value']> = new Set([
  'crack',
  'canker',
  'root decay',
  'woodpecker holes',
]);
const ROTTEN: ReadonlySet<Defect['kind']['value']> = new Set(['cavity', 'decay']);

const bounded = (quantity: Placed<Quantity> | undefined, settings: Settings): Interval | undefined => {
  const read = quantity && valuesOf(quantity.value, settings);
  return read && read.low > 0 && Number.isFinite(read.high) ? read : undefined;
};

/** Why not, where that is not known; undefined for a tree with no logs on record that is too thin for a mill. */
export const millOf = memo((tree: Tree, settings: Settings): Mill | string | undefined => {
  if (tree.felled) return undefined;
  const stated = openPrescriptions(tree).find(one => fellsTree(one) && one.logs.length > 0)?.logs ?? [];
  const dbh = tree.diameters.length === 1 ? bounded(tree.diameters[0], settings) : undefined;
  const isThick = dbh && !isLess(dbh.low, settings.limit('salvage-diameter').value);
  if (stated.length === 0 && !isThick) return undefined;
  if (tree.diameters.length > 1) return 'no logs are computed for several stems';
  const height = bounded(tree.height, settings);
  if (!dbh || !height || height.low < 3) return 'the logs require dbh and height';
  const fungus = openDefects(tree).find(
    defect => defect.kind.value === 'fungus' && isOnTrunk(defect) && !isProbed(tree, defect, settings),
  );
  if (fungus)
    return `the extent of decay behind fungus ${fungus.id.value} is unknown: probe or drill there, and record it as decay with its walls`;
  const { form, stem } = stemOf(tree, dbh, height, settings);
  const read = stated.map(length => bounded(length, settings));
  if (read.some(length => !length)) return 'a length of a log is not stated';
  const lengths = stated.length > 0 ? read.map(length => length!.high) : customary(tree, stem, settings);
  if (typeof lengths === 'string') return lengths;
  if (STUMP + lengths.reduce((sum, length) => sum + length, 0) >= height.low)
    return 'the stated logs are longer than the tree is tall';
  let at = STUMP;
  const logs = lengths.map((length, i) => {
    const from = at;
    at += length;
    return logOf(tree, stem, i + 1, interval(from, at), settings);
  });
  return { logs, first: bestOf(logs), form, areLengthsStated: stated.length > 0, units: unitsOf(tree) };
});

const isOnTrunk = ({ part }: Defect): boolean => part === undefined || part.value === 'trunk';

/** How near a decay has to be measured to a fruiting body to count for it, m: judged. */
const NEAR = 1;

/** Whether the extent of decay was measured beside a fruiting body. */
function isProbed(tree: Tree, { height: own }: Defect, settings: Settings): boolean {
  const at = own && valuesOf(own.value, settings);
  return hollowsOf(tree, settings).some(hollow => {
    const height = hollow.defect.height && valuesOf(hollow.defect.height.value, settings);
    const isNear = !at || !height || (height.low - at.high <= NEAR && at.low - height.high <= NEAR);
    return isOnTrunk(hollow.defect) && !isUnread(hollow) && isNear;
  });
}

function stemOf(
  { taper }: Tree,
  diameter: Interval,
  height: Interval,
  settings: Settings,
): { readonly form: string; readonly stem: Stem } {
  const upper = bounded(taper?.diameter, settings);
  const at = bounded(taper?.height, settings);
  const exponent = upper && at && exponentOfTaper(diameter, height, upper, at);
  return exponent
    ? { form: 'by the taper between two diameters', stem: { diameter, height, exponent } }
    : {
        form: 'by the form of measured forest-grown trees, from which trees grown in the open differ',
        stem: { diameter, height, exponent: exponentOfForm(FORM_FACTOR, height) },
      };
}

/** Logs of 16 ft up to the crown, and a last one of half of that. */
function customary(tree: Tree, stem: Stem, settings: Settings): readonly number[] | string {
  const base = bounded(tree.crownBase, settings);
  if (!base) return 'without stated logs, where the crown begins decides how many there are';
  const lengths: number[] = [];
  const top = Math.min(base.low, stem.height.low * 0.9);
  let at = STUMP;
  for (const length of [...Array<number>(20).fill(LOG), HALF_LOG]) {
    const end = at + length;
    if (end > top || underBark(tree, diameterAt(stem, end)).low < SMALL_END) continue;
    lengths.push(length);
    at = end;
  }
  return lengths.length > 0 ? lengths : 'below the crown there is no log';
}

function underBark({ species }: Tree, { low, high }: Interval): Interval {
  const { least, most } = barkShare(species?.value, species && lookupGenus(species.value.genus)?.leaf);
  return interval(low / Math.sqrt(1 + most), high / Math.sqrt(1 + least));
}

interface Rot {
  readonly name: string;
  readonly width: Interval;
  readonly length: Interval;
  readonly isLengthAssumed: boolean;
}

function logOf(
  tree: Tree,
  stem: Stem,
  number: number,
  { low: from, high: to }: Interval,
  settings: Settings,
): MillLog {
  const length = to - from;
  const at = (height: number) => underBark(tree, diameterAt(stem, height));
  const [smallEnd, middle, largeEnd] = [at(to), at((from + to) / 2), at(from)];
  const base = { number, length, smallEnd };
  const rots = rotsIn(tree, interval(from, to), settings);
  if (typeof rots === 'string')
    return {
      ...base,
      volume: undefined,
      boards: undefined,
      off: [],
      isLengthAssumed: false,
      notJudged: rots,
    };
  // Of several, the sections in which they lie may be the same: their lengths add up, and the widest counts.
  const sum = (end: 'low' | 'high') => rots.reduce((total, rot) => total + rot.length[end], 0);
  const widest = (end: 'low' | 'high') => Math.max(0, ...rots.map(({ width }) => width[end]));
  const core = (end: 'low' | 'high') => ({
    width: Math.min(widest(end), smallEnd[end === 'low' ? 'high' : 'low']),
    length: Math.min(sum(end), length),
  });
  const net = (rule: LogRule): Interval =>
    interval(
      soundBoardFeet(rule, { length, smallEnd: smallEnd.low }, core('high')).low,
      soundBoardFeet(rule, { length, smallEnd: smallEnd.high }, core('low')).high,
    );
  const cubic = (end: 'low' | 'high', { width, length: along }: { width: number; length: number }) => {
    const whole = newtonVolume({
      length,
      smallEnd: smallEnd[end],
      middle: middle[end],
      largeEnd: largeEnd[end],
    });
    return Math.max(0, whole - (Math.PI / 4) * width ** 2 * along);
  };
  return {
    ...base,
    volume: interval(cubic('low', core('high')), cubic('high', core('low'))),
    boards: Object.fromEntries(LOG_RULES.map(rule => [rule, net(rule)])) as Record<LogRule, Interval>,
    off: rots.map(({ name }) => name),
    isLengthAssumed: rots.some(rot => rot.isLengthAssumed),
  };
}

/** Rot within a log; why it is not known, for the middle of a sentence. */
function rotsIn(tree: Tree, log: Interval, settings: Settings): readonly Rot[] | string {
  const rots: Rot[] = [];
  const all = log.high - log.low;
  for (const defect of openDefects(tree)) {
    const { kind, id, height } = defect;
    const name = `${kind.value} ${id.value}`;
    const isRotten = ROTTEN.has(kind.value);
    if ((!isRotten && !UNSIZED.has(kind.value)) || !isOnTrunk(defect)) continue;
    const own = defect.length && valuesOf(defect.length.value, settings);
    const measured = own && own.low > 0 && Number.isFinite(own.high) ? own : undefined;
    const read = kind.value === 'root decay' ? exact(0) : height && valuesOf(height.value, settings);
    if (!read || !Number.isFinite(read.high)) return `the location of ${name} is not on record`;
    const reach = interval(read.low - (measured?.high ?? 0) / 2, read.high + (measured?.high ?? 0) / 2);
    // Rot at the butt counts to the butt log.
    const low = log.low <= STUMP ? 0 : log.low;
    if (reach.low > log.high || reach.high < low) continue;
    const hollow = isRotten ? hollowOf(defect, tree, settings) : undefined;
    if (!hollow || isUnread(hollow)) return `the width of ${name} is not known`;
    const { diameterRatio } = hollow.thumbs;
    const isInside = reach.low >= low && reach.high <= log.high;
    const along = measured ? clip(measured, interval(0, all)) : interval(all / 2, all);
    rots.push({
      name,
      width: interval(diameterRatio.low * hollow.wood.low, diameterRatio.high * hollow.wood.high),
      length: isInside ? along : interval(0, along.high),
      isLengthAssumed: !measured,
    });
  }
  return rots;
}

/** The log whose least yield is not below the least of any other; undefined where none is judged. */
function bestOf(logs: readonly MillLog[]): number | undefined {
  const least = ({ boards }: MillLog) => boards!['International 1/4-inch'].low;
  const judged = logs.filter(({ boards }) => boards);
  return judged.length === 0 ? undefined : judged.reduce((a, b) => (least(b) > least(a) ? b : a)).number;
}
