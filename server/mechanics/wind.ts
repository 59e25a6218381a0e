/**
 * Wind load on a crown and the bending moment at a height of the stem. Metres, m/s, Pa, N·m.
 *
 * Velocity pressure by ASCE 7 with Kd = Ke = 1. Seen from the side a crown is half an ellipse above and half an
 * ellipse below the level of its greatest width; the drag coefficient refers to this silhouette in still air. A
 * comparative estimate that ignores gusts, sway and shelter by neighbors.
 */

import { add, hull, type Interval, interval, multiply } from '../base/interval.ts';
import { METRES_PER_FOOT } from '../base/quantity.ts';
import { bounds, type Direction, widened } from './bounds.ts';
import { type Crown, crownAt, crownInputs, requireCrown, uncutOf, widestOf } from './crown.ts';

export type Exposure = 'B' | 'C' | 'D';
export type WindEdition = 'ASCE 7-10' | 'ASCE 7-16' | 'ASCE 7-22';

export interface WindSite {
  readonly exposure: Exposure;
  readonly edition: WindEdition;
  /** Over a hill; none on flat ground. */
  readonly hill?: SpeedUp | undefined;
}

/** Kzt = (1 + rise · exp(−fading · z))². */
export interface SpeedUp {
  /** K1 K2. */
  readonly rise: number;
  /** γ / Lh, 1/m. */
  readonly fading: number;
}

interface Terrain {
  readonly alpha: number;
  /** zg, ft. */
  readonly gradientHeight: number;
}
interface PressureLaw {
  readonly factor: number;
  readonly terrain: Readonly<Record<Exposure, Terrain>>;
}

/** ASCE 7-10 table 26.9-1 and 7-16 table 26.11-1. */
const UNTIL_2016: PressureLaw = {
  factor: 2.01,
  terrain: {
    B: { alpha: 7, gradientHeight: 1200 },
    C: { alpha: 9.5, gradientHeight: 900 },
    D: { alpha: 11.5, gradientHeight: 700 },
  },
};
const LAWS: Readonly<Record<WindEdition, PressureLaw>> = {
  'ASCE 7-10': UNTIL_2016,
  'ASCE 7-16': UNTIL_2016,
  // Table 26.11-1, from memory.
  'ASCE 7-22': {
    factor: 2.41,
    terrain: {
      B: { alpha: 7.5, gradientHeight: 3280 },
      C: { alpha: 9.8, gradientHeight: 2460 },
      D: { alpha: 11.5, gradientHeight: 1935 },
    },
  },
};
/** Height below which Kz is constant, m (ASCE 7-10 table 27.3-1, note 1: 15 ft). */
const LOWEST = 15 * METRES_PER_FOOT;
/** Of air at 15 °C and sea level, kg/m³: 0.00256 V² psf with V in mph. */
const AIR_DENSITY = 1.225;

/** Drag coefficient of a crown on its silhouette in still air, by default. */
const DRAG_COEFFICIENT = 0.25;
/**
 * Factor of gusts and sway on the moment of the steady gust: 0.85 is the gust effect factor of a rigid structure (ASCE
 * 7, in a secondary copy), the upper end for sway is from memory.
 */
export const GUST_EFFECT: Interval = interval(0.85, 1.15);

/**
 * Kz of ASCE 7: 2.01 (max(z, 15 ft) / zg)^(2/α), with 2.41 and other constants from the edition of 2022 on.
 *
 * @throws RangeError for a height below ground.
 */
export function pressureCoefficient(height: number, { exposure, edition }: WindSite): number {
  if (!(height >= 0 && height < Number.POSITIVE_INFINITY))
    throw new RangeError(`no wind at a height of ${height} m`);
  const { factor, terrain } = LAWS[edition];
  const { alpha, gradientHeight } = terrain[exposure];
  return factor * (Math.max(height, LOWEST) / (gradientHeight * METRES_PER_FOOT)) ** (2 / alpha);
}

/** Kzt of ASCE 7: the pressure over that on flat ground. @public */
export const topographicFactor = (height: number, { rise, fading }: SpeedUp): number =>
  (1 + rise * Math.exp(-fading * height)) ** 2;

/** Kz Kzt. */
const coefficient = (height: number, site: WindSite): number =>
  pressureCoefficient(height, site) * (site.hill ? topographicFactor(height, site.hill) : 1);

/**
 * q = ½ ρ Kz Kzt V², Pa, from the design gust V in m/s at 33 ft in open terrain.
 *
 * @throws RangeError for a height below ground or a negative speed.
 * @public
 */
export function velocityPressure(height: number, speed: number, site: WindSite): number {
  if (!(speed >= 0 && speed < Number.POSITIVE_INFINITY)) throw new RangeError(`a wind of ${speed} m/s`);
  return 0.5 * AIR_DENSITY * coefficient(height, site) * speed ** 2;
}

/** Velocity pressure of a gust of 1 m/s anywhere between two heights, Pa. */
export function pressureBounds({ low, high }: Interval, site: WindSite): Interval {
  const speedUp = (height: number) => (site.hill ? topographicFactor(height, site.hill) : 1);
  const half = 0.5 * AIR_DENSITY;
  return interval(
    half * pressureCoefficient(low, site) * speedUp(high),
    half * pressureCoefficient(high, site) * speedUp(low),
  );
}

/**
 * Abscissas and weights of ten-point Gauss–Legendre quadrature on −1..1 (Abramowitz and Stegun 1964, table 25.4); the
 * other five are symmetric. On each smooth piece the error is below 1e-9 of the moment.
 */
const GAUSS: readonly (readonly [at: number, weight: number])[] = [
  [0.148874338981631, 0.295524224714753],
  [0.433395394129247, 0.269266719309996],
  [0.679409568299024, 0.219086362515982],
  [0.865063366688985, 0.149451349150581],
  [0.973906528517172, 0.066671344308688],
];

function integral(figure: (at: number) => number, from: number, to: number): number {
  const middle = (from + to) / 2;
  const half = (to - from) / 2;
  let sum = 0;
  for (const [at, weight] of GAUSS) sum += weight * (figure(middle - half * at) + figure(middle + half * at));
  return sum * half;
}

/**
 * ∫ Kz(z) Kzt(z) w(z) (z − h) dz over the crown above h, m³: the moment without speed, drag and density. Each half is
 * integrated over the parameter of its ellipse, z = widest + half · sin θ, in which width and height are smooth, and
 * split where Kz begins to rise.
 */
function momentIntegral(crown: Crown, height: number, site: WindSite): number {
  const { base, top, spread } = crown;
  const widest = widestOf(crown);
  const whole = uncutOf(crown);
  const half = (from: number, to: number, extent: number): number => {
    const angle = (z: number) => Math.asin(Math.min(1, Math.max(-1, (z - widest) / extent)));
    const lower = Math.max(from, height);
    if (extent <= 0 || lower >= to) return 0;
    const cuts = LOWEST > lower && LOWEST < to ? [lower, LOWEST, to] : [lower, to];
    const at = (theta: number) => {
      const z = Math.max(0, widest + extent * Math.sin(theta));
      const cos = Math.cos(theta);
      return coefficient(z, site) * spread * extent * cos * cos * (z - height);
    };
    let sum = 0;
    for (let i = 1; i < cuts.length; i++) sum += integral(at, angle(cuts[i - 1]!), angle(cuts[i]!));
    return sum;
  };
  return (
    half(base, Math.min(widest, top), widest - whole.base) +
    half(Math.max(widest, base), top, whole.top - widest)
  );
}

/**
 * The moment at a height without speed, drag and density of air, m³. Several crowns (leaders, limbs) are summed, so
 * overlapping silhouettes count twice.
 *
 * @throws RangeError without a crown, for an impossible crown, or a height below ground.
 */
export function momentShape(crowns: readonly Crown[], height: number, site: WindSite): number {
  if (crowns.length === 0) throw new RangeError('no crown that the wind could load');
  if (!(height >= 0 && height < Number.POSITIVE_INFINITY))
    throw new RangeError(`no moment at a height of ${height} m`);
  for (const crown of crowns) requireCrown(crown);
  return crowns.reduce((sum, crown) => sum + momentIntegral(crown, height, site), 0);
}

/**
 * M(h) = ∫ q(z) Cd w(z) (z − h) dz over the crowns above h, N·m.
 *
 * @throws RangeError without a crown, for an impossible crown, a height below ground, or a negative speed or drag.
 * @public
 */
export function windMoment(
  crowns: readonly Crown[],
  height: number,
  speed: number,
  site: WindSite,
  drag: number = DRAG_COEFFICIENT,
): number {
  if (!(drag >= 0 && drag < Number.POSITIVE_INFINITY)) throw new RangeError(`a drag coefficient of ${drag}`);
  if (!(speed >= 0 && speed < Number.POSITIVE_INFINITY)) throw new RangeError(`a wind of ${speed} m/s`);
  return 0.5 * AIR_DENSITY * speed ** 2 * drag * momentShape(crowns, height, site);
}

/** What the search along base and widest level may miss; see bounds.ts. */
const SEARCH_SLACK = 0.002;

/** How `momentShape` follows [height, ...crownInputs]. */
function directionsOf({ base, top, widest }: Crown<Interval>): readonly Direction[] {
  // A lower base means more crown, but on a shorter arm where the widest level moves with it.
  if (!widest) return ['falling', 'unknown', 'rising', 'rising'];
  // Overlapping readings are clipped to a possible crown, which is monotone in none of them.
  const apart = base.high <= widest.low && widest.high <= top.low;
  return apart
    ? ['falling', 'falling', 'rising', 'rising', 'rising']
    : ['falling', 'unknown', 'unknown', 'rising', 'unknown'];
}

function momentShapeBounds(crown: Crown<Interval>, height: Interval, site: WindSite): Interval {
  const shape = ([h, ...values]: readonly number[]) => {
    const at = crownAt(values);
    return at ? momentShape([at], h!, site) : 0;
  };
  const inputs = [height, ...crownInputs(crown)];
  const directions = directionsOf(crown);
  const found = bounds(shape, inputs, directions);
  const searched = inputs.some((input, i) => directions[i] === 'unknown' && input.low < input.high);
  const { low, high } = searched ? widened(found, SEARCH_SLACK) : found;
  return interval(Math.max(0, low), high);
}

/** Pieces into which the readings of a crown base are cut. */
const BASES = 4;

/**
 * The moment at the ground over all values that the readings allow, for a speed of 1 m/s and a drag coefficient of 1. In
 * the same pressure at every height it is as t² − b², so that over a short piece of bases only the mean pressure between
 * them is unknown: far faster than `windMomentBounds`.
 *
 * @throws RangeError as windMoment, or for a crown whose readings overlap.
 */
export function groundMomentBounds({ base, top, spread }: Crown<Interval>, site: WindSite): Interval {
  if (!(base.high < top.low)) throw new RangeError('no crown for certain');
  const square = (b: number, t: number) => t ** 2 - b ** 2;
  const ends = (t: number, wide: number): Interval => {
    const cuts = base.low === base.high ? 1 : BASES + 1;
    const bases = Array.from({ length: cuts }, (_, i) => base.low + ((base.high - base.low) * i) / BASES);
    const means = bases.map(b => momentShape([{ base: b, top: t, spread: wide }], 0, site) / square(b, t));
    const pieces = bases.slice(0, Math.max(1, cuts - 1)).map((b, i) => {
      const next = Math.min(i + 1, cuts - 1);
      return interval(
        square(bases[next]!, t) * Math.min(means[i]!, means[next]!),
        square(b, t) * Math.max(means[i]!, means[next]!),
      );
    });
    return hull(...pieces);
  };
  const [least, most] = [ends(top.low, spread.low), ends(top.high, spread.high)];
  const found = interval(least.low, most.high);
  const { low, high } = base.low === base.high ? found : widened(found, SEARCH_SLACK);
  return interval(0.5 * AIR_DENSITY * Math.max(0, low), 0.5 * AIR_DENSITY * high);
}

/**
 * The moment over all values that the readings of the crowns, the height and the speed allow. It increases with top,
 * spread, widest level, speed and drag and decreases with the height above ground; the rest is searched.
 *
 * @throws RangeError as windMoment, or if a reading has no upper end.
 */
export function windMomentBounds(
  crowns: readonly Crown<Interval>[],
  height: Interval,
  speed: Interval,
  site: WindSite,
  drag: Interval,
): Interval {
  if (crowns.length === 0) throw new RangeError('no crown that the wind could load');
  if (!(speed.low >= 0 && drag.low >= 0))
    throw new RangeError(`a wind of ${speed.low} m/s and a drag coefficient of ${drag.low}`);
  const pressure = interval(0.5 * AIR_DENSITY * speed.low ** 2, 0.5 * AIR_DENSITY * speed.high ** 2);
  // Crowns have independent readings, and every term of the sum is extreme at the same height.
  const shape = crowns.map(crown => momentShapeBounds(crown, height, site)).reduce(add);
  return multiply(multiply(pressure, drag), shape);
}

const NO_WEIGHT: Interval = interval(0, 0);

/**
 * Strength of green wood (Pa) times section modulus (m³), less the moment of the weight, over that of the wind (N·m); 0
 * if it may fail under its weight, Infinity without wind.
 *
 * @param weight in the direction of the wind; negative against it
 * @throws RangeError for negative input.
 */
export function safetyFactor(
  strength: Interval,
  sectionModulus: Interval,
  moment: Interval,
  weight: Interval = NO_WEIGHT,
): Interval {
  for (const value of [strength, sectionModulus, moment])
    if (!(value.low >= 0)) throw new RangeError(`no safety factor from ${value.low}`);
  const whole = multiply(strength, sectionModulus);
  const capacity = interval(Math.max(0, whole.low - weight.high), Math.max(0, whole.high - weight.low));
  const over = (load: number, borne: number) => (load > 0 ? borne / load : Number.POSITIVE_INFINITY);
  return interval(over(moment.high, capacity.low), over(moment.low, capacity.high));
}

/**
 * Vogel exponent E of crowns that reconfigure in wind, force ∝ V^(2 + E): from −0.7, the lower end in reviews for fast
 * wind (from memory), to the square law.
 */
const VOGEL: Interval = interval(-0.7, 0);

/**
 * Wind speed at which the safety factor is 1, m/s: V · SF^(1/(2 + E)), hull over E.
 *
 * @throws RangeError for a negative factor or speed.
 */
export function criticalWind(speed: number, factor: Interval): Interval {
  if (!(speed >= 0 && factor.low >= 0))
    throw new RangeError(`no critical wind from ${speed} m/s and a factor of ${factor.low}`);
  const at = (value: number, exponent: number) => speed * value ** (1 / (2 + exponent));
  const laws = [VOGEL.low, VOGEL.high];
  return interval(
    Math.min(...laws.map(exponent => at(factor.low, exponent))),
    Math.max(...laws.map(exponent => at(factor.high, exponent))),
  );
}
