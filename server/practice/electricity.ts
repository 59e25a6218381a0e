/**
 * Minimum approach distances of unqualified persons to energized overhead lines.
 *
 * 29 CFR 1910.333(c)(3)(i), for persons and anything they hold or stand on: 10 ft up to 50 kV, plus 4 in for every 10
 * kV above. The definition of line-clearance tree trimming in 29 CFR 1910.269 has the same values, with voltage to
 * ground.
 */

import { METRES_PER_INCH } from '../base/quantity.ts';
import { type Citation, type Confidence, cite } from './citation.ts';

const VOLTS_PER_STEP = 10_000;

export const approachLaw: {
  /** m, up to `baseVoltage`. */
  readonly baseDistance: number;
  /** V. */
  readonly baseVoltage: number;
  /** m per 10 kV above it. */
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

/**
 * Distance of an unqualified person with tools, m. Each 10 kV or part of it above 50 kV counts in full, the stricter
 * reading of the law.
 */
export const approachDistance = (volts: number): number =>
  approachLaw.baseDistance + approachLaw.stepDistance * Math.ceil(stepsAbove(volts));
