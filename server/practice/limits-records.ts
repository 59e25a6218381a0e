/** Limits on the difference between two records of the same quantity. */

import type { LimitRow } from './limit-row.ts';

export const recordLimits = {
  'photo-date-tolerance': {
    summary: 'difference between the date in a photograph’s file and its date on record',
    dimension: 'duration',
    value: 1,
    unit: 'days',
    direction: 'at most',
    rests: 'practice',
    source: 'practice',
    confidence: 'common practice',
    note: 'A camera’s clock may be set to another time zone, which moves an evening to the next day.',
  },
  'photo-position-tolerance': {
    summary: 'distance between the position in a photograph’s file and the tree, beyond the stated distance',
    dimension: 'length',
    value: 30,
    unit: 'm',
    direction: 'at most',
    rests: 'practice',
    source: 'practice',
    confidence: 'common practice',
    note: 'Phone receivers are off by about 5 m under open sky and by several times that under a crown; the position of the tree is a measurement too.',
  },
  'diameter-loss': {
    summary: 'decrease in diameter between two measurements that measurement error explains',
    dimension: 'share',
    value: 0.03,
    unit: '%',
    direction: 'at most',
    rests: 'practice',
    source: 'practice',
    confidence: 'common practice',
    note: 'The tape a hand’s breadth higher, lost bark, a dry summer.',
  },
  'height-loss': {
    summary: 'decrease in height between two measurements that measurement error explains',
    dimension: 'share',
    value: 0.1,
    unit: '%',
    direction: 'at most',
    rests: 'practice',
    source: 'practice',
    confidence: 'common practice',
    note: 'Heights from angle and distance vary by 5 to 10 %, and more in broad crowns.',
  },
  'extent-loss': {
    summary:
      'decrease in the depth of a hollow or the length of a crack between two readings that their error explains',
    dimension: 'length',
    value: 0.0254,
    unit: 'in',
    direction: 'at most',
    rests: 'practice',
    source: 'practice',
    confidence: 'common practice',
    note: 'Half an inch for each of the two readings.',
  },
} as const satisfies Record<string, LimitRow>;
