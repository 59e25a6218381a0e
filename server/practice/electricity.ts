/**
 * How near to energised overhead lines people may come.
 *
 * 29 CFR 1910.333(c)(3)(i) for unqualified persons and whatever they hold or stand on: 10 ft to 50 kV, and
 * 4 in more for every 10 kV above. The definition of line-clearance tree trimming in 29 CFR 1910.269 gives the
 * same figures, with the voltage taken to ground.
 */

import { METRES_PER_INCH } from '../base/quantity.ts';
import { type Citation, type Confidence, cite } from './citation.ts';

const VOLTS_PER_STEP = 10_000;

export const approachLaw: {
  /** m, to `baseVoltage`. */
  readonly baseDistance: number;
  /** V. */
  readonly baseVoltage: number;
  /** m for each 10 kV above. */
  readonly stepDistance: number;
  readonly citation: Citation;
  readonly confidence: Confidence;
} = {
  baseDistance: 120 * METRES_PER_INCH,
  baseVoltage: 50_000,
  stepDistance: 4 * METRES_PER_INCH,
  citation: cite('osha-333'),
  confidence: 'published',
};

const stepsAbove = (volts: number): number => Math.max(0, volts - approachLaw.baseVoltage) / VOLTS_PER_STEP;

/** Metres for a line of so many volts, the addition taken in proportion to the voltage. */
export const approachDistanceInProportion = (volts: number): number =>
  approachLaw.baseDistance + approachLaw.stepDistance * stepsAbove(volts);

/**
 * Metres that an unqualified person, with tools, keeps from a line of so many volts: every 10 kV begun above
 * 50 kV counts whole, which is the stricter reading of the law. A voltage that is not known has no distance:
 * ask the line's owner.
 */
export const approachDistance = (volts: number): number =>
  approachLaw.baseDistance + approachLaw.stepDistance * Math.ceil(stepsAbove(volts));

/** Distance of qualified line-clearance arborists, by voltage between phases. */
export interface LineClearance {
  /** V, the range's ends included. */
  readonly above: number;
  readonly to: number;
  /** m, between phase and ground, up to 900 m (3,000 ft) above the sea. */
  readonly distance: number;
}

/**
 * 29 CFR 1910.269 Table R-6 (AC live-line work, phase to ground), from memory. For qualified line-clearance
 * arborists only; it is never a distance for anybody else.
 */
export const lineClearance: {
  readonly rows: readonly LineClearance[];
  readonly citation: Citation;
  readonly confidence: Confidence;
} = {
  rows: [
    { above: 300, to: 750, distance: 0.33 },
    { above: 750, to: 5_000, distance: 0.63 },
    { above: 5_000, to: 15_000, distance: 0.65 },
    { above: 15_000, to: 36_000, distance: 0.77 },
    { above: 36_000, to: 46_000, distance: 0.84 },
    { above: 46_000, to: 72_500, distance: 1.0 },
  ],
  citation: cite('osha-269'),
  confidence: 'from memory',
};

/** Metres for a qualified line-clearance arborist; undefined outside the table's voltages. */
export const lineClearanceDistance = (volts: number): number | undefined =>
  lineClearance.rows.find(({ above, to }) => volts > above && volts <= to)?.distance;
