/** Limits on the difference between two records of the same quantity. */

import type { LimitRow } from './limit-row.ts';

export const recordLimits = {
  'photo-date-tolerance': {
    summary: 'days between the date in a photograph’s file and the day that the record gives it',
    dimension: 'duration',
    value: 1,
    unit: 'days',
    direction: 'at most',
    rests: 'practice',
    source: 'practice',
    confidence: 'common practice',
    note: 'A camera’s clock may keep the time of another zone, so that an evening falls on the next day.',
  },
  'photo-position-tolerance': {
    summary:
      'distance between the position in a photograph’s file and the tree, beyond what the record states',
    dimension: 'length',
    value: 30,
    unit: 'm',
    direction: 'at most',
    rests: 'practice',
    source: 'practice',
    confidence: 'common practice',
    note: 'Receivers in telephones are off by some 5 m under open sky and by several times that beneath a crown; the position of the tree is a reading too.',
  },
  'diameter-loss': {
    summary: 'loss of diameter between two measurements that their repeatability explains',
    dimension: 'share',
    value: 0.03,
    unit: '%',
    direction: 'at most',
    rests: 'practice',
    source: 'practice',
    confidence: 'common practice',
    note: 'A tape laid a hand’s breadth higher, bark that came off, a dry summer.',
  },
  'height-loss': {
    summary: 'loss of height between two measurements that their repeatability explains',
    dimension: 'share',
    value: 0.1,
    unit: '%',
    direction: 'at most',
    rests: 'practice',
    source: 'practice',
    confidence: 'common practice',
    note: 'Heights by angle and distance scatter by a twentieth to a tenth, more in broad crowns.',
  },
} as const satisfies Record<string, LimitRow>;
