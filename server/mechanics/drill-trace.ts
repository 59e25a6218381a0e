/**
 * The trace of a resistance drill: the table of depth and amplitude as its software exports it, and what it says of the
 * wood along the path. Lengths in m.
 */

import { type Interval, interval } from '../base/interval.ts';
import { unitOf } from '../base/quantity.ts';

export interface TracePoint {
  readonly depth: number;
  /** In whatever the drill counts. */
  readonly amplitude: number;
}

/** The points by depth, or why there are none. */
export type DrillTrace = { readonly points: readonly TracePoint[] } | { readonly damaged: string };

/** Lines before the heading that may say something else. */
const PREAMBLE = 60;
const DEPTH = /depth|\bfeed path\b|distance|position/i;
const AMPLITUDE = /amplitude|resistance|torque|force|drill/i;
const UNIT = /\b(mm|cm|m|in|inch|inches|ft)\b/i;

/** A heading is the first line with a column of depth and one of amplitude; columns are split by `;`, tab or comma. */
export function readTrace(text: string): DrillTrace {
  const lines = text.split(/\r\n|\n|\r/);
  for (const [i, line] of lines.slice(0, PREAMBLE).entries()) {
    const split = [';', '\t', ','].find(mark => line.includes(mark));
    if (split === undefined) continue;
    const cells = cellsOf(line, split);
    const depth = cells.findIndex(cell => DEPTH.test(cell));
    const amplitude = cells.findIndex((cell, column) => column !== depth && AMPLITUDE.test(cell));
    if (depth < 0 || amplitude < 0) continue;
    const word = UNIT.exec(cells[depth]!)?.[1]
      ?.toLowerCase()
      .replace(/^inch(es)?$/, 'in');
    const unit = word === undefined ? undefined : unitOf(word);
    if (!unit) return { damaged: 'does not say the unit of depth in its heading: depth (mm), for example' };
    return pointsIn(lines, i + 1, split, { depth, amplitude, factor: unit.factor });
  }
  return { damaged: 'has no heading with a column of depth and one of amplitude' };
}

const cellsOf = (line: string, split: string): readonly string[] =>
  line.split(split).map(cell => cell.trim().replace(/^"(.*)"$/, '$1'));

const FEWEST = 10;

function pointsIn(
  lines: readonly string[],
  from: number,
  split: string,
  columns: { readonly depth: number; readonly amplitude: number; readonly factor: number },
): DrillTrace {
  const points: TracePoint[] = [];
  for (let i = from; i < lines.length; i++) {
    if (lines[i]!.trim() === '') continue;
    const cells = cellsOf(lines[i]!, split);
    const depth = numberIn(cells[columns.depth], split) * columns.factor;
    const amplitude = numberIn(cells[columns.amplitude], split);
    const last = points.at(-1);
    if (!Number.isFinite(depth) || !Number.isFinite(amplitude) || depth < 0)
      return { damaged: `has no depth and amplitude on line ${i + 1}` };
    if (last && depth <= last.depth) return { damaged: `goes back in depth on line ${i + 1}` };
    points.push({ depth, amplitude });
  }
  return points.length < FEWEST ? { damaged: `has fewer than ${FEWEST} points` } : { points };
}

/** A decimal comma can only stand where columns are not split by one. */
function numberIn(cell: string | undefined, split: string): number {
  const text = split === ',' ? cell : cell?.replace(',', '.');
  return text !== undefined && /^[-+]?\d*\.?\d+(e[-+]?\d+)?$/i.test(text) ? Number(text) : Number.NaN;
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

export interface TraceReading {
  /** Mean amplitude of the sound wood, and the amplitude below which wood counts as decayed. */
  readonly sound: number;
  readonly cut: number;
  /** Depth at which the drill met wood: the bark before it is not counted. */
  readonly entry: number;
  /** Depth at which it ended. */
  readonly end: number;
  /** Sound wood from the surface inward, give or take the error; no upper end where no decay was met. */
  readonly wall: Interval;
  readonly decay: readonly Stretch[];
  /** Narrow gaps: cracks, or soft early wood. */
  readonly gaps: readonly Stretch[];
}

/** Over how much of the path amplitudes are averaged, m. */
const SMOOTHED = 0.003;
/** A gap as narrow is a crack rather than decay, m: a judgment. */
const NARROW = 0.01;
/** Amplitudes of at least half of that below which this share of the path lies count as sound: a judgment. */
const UPPER = 0.9;

/**
 * Wood counts as decayed where the amplitude falls below a share of the mean of the sound wood. A path all in decay has
 * no sound wood to be compared with, and no trace tells. Undefined for a trace that met no wood.
 *
 * @param threshold share of the mean amplitude of the sound wood
 * @param error m, of a depth
 */
export function evaluateTrace(
  points: readonly TracePoint[],
  threshold: number,
  error: number,
): TraceReading | undefined {
  const smooth = smoothed(points);
  const amplitudes = smooth.map(({ amplitude }) => amplitude);
  const upper = [...amplitudes].sort((x, y) => x - y)[Math.floor(UPPER * (amplitudes.length - 1))] ?? 0;
  const sound = mean(amplitudes.filter(amplitude => amplitude >= upper / 2));
  const cut = threshold * sound;
  const first = smooth.findIndex(({ amplitude }) => amplitude >= cut);
  if (!(sound > 0) || first < 0) return undefined;
  const entry = smooth[first]!.depth;
  const end = smooth.at(-1)!.depth;
  const low = below(smooth.slice(first), cut);
  const decay = low.filter(({ from, to }) => to - from > NARROW);
  const wall = (decay[0]?.from ?? end) - entry;
  return {
    sound,
    cut,
    entry,
    end,
    wall: interval(Math.max(0, wall - error), decay.length > 0 ? wall + error : Number.POSITIVE_INFINITY),
    decay,
    gaps: low.filter(stretch => !decay.includes(stretch)),
  };
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);

/** Each amplitude as the mean of those within half the window. */
function smoothed(points: readonly TracePoint[]): readonly TracePoint[] {
  let [from, to, sum] = [0, 0, 0];
  return points.map(({ depth }) => {
    while (to < points.length && points[to]!.depth <= depth + SMOOTHED / 2) sum += points[to++]!.amplitude;
    while (points[from]!.depth < depth - SMOOTHED / 2) sum -= points[from++]!.amplitude;
    return { depth, amplitude: sum / (to - from) };
  });
}

/** Stretches below an amplitude. */
function below(points: readonly TracePoint[], cut: number): readonly Stretch[] {
  const found: { from: number; to: number }[] = [];
  let last: { from: number; to: number } | undefined;
  for (const { depth, amplitude } of points) {
    if (amplitude >= cut) last = undefined;
    else if (last) last.to = depth;
    else found.push((last = { from: depth, to: depth }));
  }
  return found;
}
