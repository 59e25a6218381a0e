/**
 * Limits of 14 CFR Part 107 for small unmanned aircraft, and the closure of national parks. US law; elsewhere the
 * region's own law applies.
 */

import { KILOGRAMS_PER_POUND, METRES_PER_FOOT } from '../base/quantity.ts';
import { type Citation, type Confidence, cite } from './citation.ts';

export interface AircraftRule {
  readonly section: string;
  readonly summary: string;
  /** m, m/s or kg, if the rule is numerical. */
  readonly value?: number;
  readonly dimension?: 'length' | 'speed' | 'mass';
  readonly direction?: 'at most' | 'at least';
  readonly citation: Citation;
  readonly confidence: Confidence;
}

const METRES_PER_STATUTE_MILE = 1609.344;
const METRES_PER_SECOND_PER_MPH = 0.44704;

const rule = (section: string, summary: string, confidence: Confidence): AircraftRule => ({
  section,
  summary,
  citation: cite('part-107'),
  confidence,
});

/** In the order of their sections, limits first. */
export const aircraftRules: readonly AircraftRule[] = [
  {
    ...rule('107.3', 'The aircraft, with all it carries, weighs less than 55 lb at take-off.', 'published'),
    value: 55 * KILOGRAMS_PER_POUND,
    dimension: 'mass',
    direction: 'at most',
  },
  {
    ...rule('107.51(a)', 'Speed over the ground is no more than 100 mph (87 knots).', 'published'),
    value: 100 * METRES_PER_SECOND_PER_MPH,
    dimension: 'speed',
    direction: 'at most',
  },
  {
    ...rule(
      '107.51(b)',
      'No higher than 400 ft above ground, unless within 400 ft of a structure and no more than 400 ft above its top. The rule does not name trees as structures.',
      'published',
    ),
    value: 400 * METRES_PER_FOOT,
    dimension: 'length',
    direction: 'at most',
  },
  {
    ...rule('107.51(c)', 'Visibility from the control station is 3 statute miles or more.', 'published'),
    value: 3 * METRES_PER_STATUTE_MILE,
    dimension: 'length',
    direction: 'at least',
  },
  {
    ...rule('107.51(d)(1)', 'The aircraft keeps 500 ft or more below clouds.', 'published'),
    value: 500 * METRES_PER_FOOT,
    dimension: 'length',
    direction: 'at least',
  },
  {
    ...rule('107.51(d)(2)', 'The aircraft keeps 2,000 ft or more from clouds to the side.', 'published'),
    value: 2000 * METRES_PER_FOOT,
    dimension: 'length',
    direction: 'at least',
  },
  rule('107.12', 'The pilot in command holds a remote pilot certificate.', 'from memory'),
  rule('107.25', 'Flown from a moving vehicle only over a sparsely populated area.', 'published'),
  rule(
    '107.29',
    'Flights at night and in civil twilight require anti-collision lights visible for 3 statute miles; since 2021-04-06, night flights also require training for them.',
    'published',
  ),
  rule('107.31', 'Somebody of the crew sees the aircraft all the time with unaided eyes.', 'published'),
  rule(
    '107.39',
    'No flight over people who are not taking part, unless they are under cover or the aircraft is of a category that allows it.',
    'from memory',
  ),
  rule('107.41', 'Controlled airspace requires authorization.', 'from memory'),
  {
    section: '36 CFR 1.5',
    summary:
      'Units of the National Park Service are closed to launching, landing and operating drones from them.',
    citation: cite('nps-14-05'),
    confidence: 'published',
  },
  rule('107.145', 'Not over moving vehicles, but for the exceptions of its categories.', 'from memory'),
];

export const aircraftRule = (section: string): AircraftRule | undefined =>
  aircraftRules.find(entry => entry.section === section);
