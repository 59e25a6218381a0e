/**
 * Volume and mass of logs and stems. Lengths in metres, volumes in cubic metres, masses in kilograms; log rules in
 * board feet, the unit they are defined in. Diameters are inside the bark.
 */

import { exact, type Interval, interval } from '../base/interval.ts';
import { METRES_PER_FOOT, METRES_PER_INCH } from '../base/quantity.ts';
import { BLACK_CHERRIES, type MeasuredTree } from './black-cherry.ts';

export interface Log<Q = number> {
  readonly length: Q;
  readonly smallEnd: Q;
  /** Same as the small end by default. */
  readonly largeEnd?: Q;
  /** Mean of both ends by default. */
  readonly middle?: Q;
  /** Diameter of a hollow over the full length, deducted as a cylinder. */
  readonly hollow?: Q;
}

export const LOG_RULES = ['Doyle', 'Scribner', 'International 1/4-inch'] as const;
export type LogRule = (typeof LOG_RULES)[number];

const BOARD_FEET_PER_CUBIC_METRE = 12 / METRES_PER_FOOT ** 3;

const circleArea = (diameter: number): number => (Math.PI / 4) * diameter ** 2;

function requireLog({ length, smallEnd, largeEnd, middle, hollow }: Log): void {
  const sizes = { length, 'small end': smallEnd, 'large end': largeEnd, middle };
  for (const [what, size] of Object.entries(sizes))
    if (size !== undefined && !(size > 0 && size < Number.POSITIVE_INFINITY))
      throw new RangeError(`a log needs a ${what} of more than nothing: ${size} m`);
  if (hollow !== undefined && !(hollow >= 0 && hollow < Number.POSITIVE_INFINITY))
    throw new RangeError(`a hollow of ${hollow} m`);
}

/** Mean sectional area times length, less the hollow, at least 0. */
function volume(log: Log, meanArea: (small: number, middle: number, large: number) => number): number {
  requireLog(log);
  const { length, smallEnd, largeEnd = smallEnd, middle = (smallEnd + largeEnd) / 2, hollow = 0 } = log;
  const area = meanArea(circleArea(smallEnd), circleArea(middle), circleArea(largeEnd));
  return length * Math.max(0, area - circleArea(hollow));
}

/** Mean of both ends (Smalian). @throws RangeError for a dimension of zero. @public */
export const smalianVolume = (log: Log): number => volume(log, (small, _, large) => (small + large) / 2);

/** Middle diameter (Huber). @throws RangeError for a dimension of zero. @public */
export const huberVolume = (log: Log): number => volume(log, (_, middle) => middle);

/** Both ends and four times the middle, over six (Newton). @throws RangeError for a dimension of zero. */
export const newtonVolume = (log: Log): number =>
  volume(log, (small, middle, large) => (small + 4 * middle + large) / 6);

/** International rule: 4-ft sections with half an inch of taper each (Freese 1974, FPL-GTR-1, from memory). */
const INTERNATIONAL_SECTION = 4;
const INTERNATIONAL_TAPER = 0.5;

/** Board feet of a section of up to 4 ft by its small end. */
const internationalSection = (inches: number, feet: number): number =>
  Math.max(0, 0.905 * (0.22 * inches ** 2 - 0.71 * inches)) * (feet / INTERNATIONAL_SECTION);

function internationalQuarterInch(inches: number, feet: number): number {
  // Tolerance for rounding: 16 ft converted to metres and back must not gain a section.
  const sections = Math.ceil(feet / INTERNATIONAL_SECTION - 1e-9);
  let boards = 0;
  for (let i = 0; i < sections; i++) {
    const left = feet - i * INTERNATIONAL_SECTION;
    boards += internationalSection(inches + i * INTERNATIONAL_TAPER, Math.min(INTERNATIONAL_SECTION, left));
  }
  return boards;
}

/**
 * Board feet of a sound log from its small end in inches and its length in feet (Freese 1974, A collection of log
 * rules, FPL-GTR-1, from memory).
 */
const RULES: Readonly<Record<LogRule, (inches: number, feet: number) => number>> = {
  // Zero up to the 4 in deducted for slabs, below which the square would rise again.
  Doyle: (inches, feet) => (Math.max(0, inches - 4) / 4) ** 2 * feet,
  'International 1/4-inch': internationalQuarterInch,
  // Formula fitted to the diagram table, from which it differs by a few boards (30 in by 16 ft: 660 vs. 647).
  Scribner: (inches, feet) => (Math.max(0, 0.79 * inches ** 2 - 2 * inches - 4) * feet) / 16,
};

/**
 * Board feet by a log rule's formula, unrounded (tables round International to 5, Scribner Decimal C to 10). A hollow
 * is deducted as a cylinder, at 12 board feet per cubic foot.
 *
 * @throws RangeError for a dimension of zero.
 */
export function boardFeet(rule: LogRule, log: Log): number {
  requireLog(log);
  const { length, smallEnd, hollow = 0 } = log;
  const sound = RULES[rule](smallEnd / METRES_PER_INCH, length / METRES_PER_FOOT);
  return Math.max(0, sound - BOARD_FEET_PER_CUBIC_METRE * circleArea(hollow) * length);
}

/** A rotten core along part of a log. */
export interface Core {
  /** Width of the rot, square, m. */
  readonly width: number;
  /** Along the log, m. */
  readonly length: number;
}

/**
 * Board feet of a square of rot with an inch on either side, over its product in inches and feet: 15 by Scribner's kerf of
 * ¼ in, 16 by that of the International rule (handbook and textbook, from memory; 12 over the share of boards gives 15
 * and 15.75).
 */
const SQUARED = { Scribner: 15, 'International 1/4-inch': 16 } as const;
/** Least shell of sound wood inside the scaling cylinder that is sawn: judged, from the narrowest board of 4 in. */
const LEAST_SHELL = 4 * METRES_PER_INCH;

/** Share of a log lost to a core, by any rule: (w + 1)² / (D − 1)² · l / L, in inches (Grosenbaugh 1952, formula from memory). */
export function cullShare(smallEnd: number, length: number, core: Core): number {
  if (!(core.width > 0)) return 0;
  const along = Math.min(1, core.length / length);
  const [d, w] = [smallEnd / METRES_PER_INCH, core.width / METRES_PER_INCH];
  return d > 1 ? Math.min(1, ((w + 1) / (d - 1)) ** 2) * along : along;
}

/** Board feet squared out for a core; undefined for Doyle, which has no such rule. */
export function squaredDefect(rule: LogRule, { width, length }: Core): number | undefined {
  if (rule === 'Doyle') return undefined;
  if (!(width > 0)) return 0;
  return ((width / METRES_PER_INCH + 1) ** 2 * (length / METRES_PER_FOOT)) / SQUARED[rule];
}

/**
 * Board feet left beside a rotten core: between the share and the squared defect. Where the shell is thinner than a
 * board, its whole length is lost.
 *
 * @throws RangeError for a dimension of zero.
 */
export function soundBoardFeet(rule: LogRule, log: Log, core: Core): Interval {
  const gross = boardFeet(rule, log);
  const { smallEnd, length } = log;
  const along = Math.min(1, core.length / length);
  if (core.width > 0 && (smallEnd - core.width) / 2 < LEAST_SHELL) return exact(gross * (1 - along));
  const byShare = gross * (1 - cullShare(smallEnd, length, core));
  const squared = squaredDefect(rule, { ...core, length: Math.min(core.length, length) });
  if (squared === undefined) return exact(byShare);
  const bySquare = Math.max(0, gross - squared);
  return interval(Math.min(byShare, bySquare), Math.max(byShare, bySquare));
}

/** Volume over basal area times height. */
export const formFactor = ({ diameter, height, volume }: MeasuredTree): number =>
  volume / (circleArea(diameter) * height);

/** Range over the measured black cherries; open-grown stems may lie outside. */
export const FORM_FACTOR: Interval = interval(
  Math.min(...BLACK_CHERRIES.map(formFactor)),
  Math.max(...BLACK_CHERRIES.map(formFactor)),
);

/**
 * Volume of a whole stem from its diameter at breast height and the tree's height.
 *
 * @throws RangeError if a diameter, a height or the form factor may be zero.
 */
export function stemVolume(diameter: Interval, height: Interval, form = FORM_FACTOR): Interval {
  if (!(diameter.low > 0 && height.low > 0 && form.low > 0))
    throw new RangeError(`a stem of ${diameter.low} m by ${height.low} m with form factor ${form.low}`);
  return interval(
    form.low * circleArea(diameter.low) * height.low,
    form.high * circleArea(diameter.high) * height.high,
  );
}

function requireDensity(density: Interval): void {
  if (!(density.low > 0)) throw new RangeError(`green wood of ${density.low} kg/m³`);
}

/** kg from m³ and kg/m³. @throws RangeError for a negative volume or a density that may be zero. */
export function greenMass(volume: Interval, greenDensity: Interval): Interval {
  requireDensity(greenDensity);
  if (!(volume.low >= 0)) throw new RangeError(`a volume of ${volume.low} m³`);
  return interval(volume.low * greenDensity.low, volume.high * greenDensity.high);
}

/**
 * Length at which a cylinder of this diameter reaches the mass limit (kg). Up to `low` a piece is certainly within it.
 *
 * @throws RangeError if the limit, the diameter or the density may be zero.
 */
export function longestPiece(massLimit: number, diameter: Interval, greenDensity: Interval): Interval {
  requireDensity(greenDensity);
  if (!(massLimit > 0)) throw new RangeError(`a mass limit of ${massLimit} kg`);
  if (!(diameter.low > 0)) throw new RangeError(`a piece ${diameter.low} m thick`);
  return interval(
    massLimit / (greenDensity.high * circleArea(diameter.high)),
    massLimit / (greenDensity.low * circleArea(diameter.low)),
  );
}
