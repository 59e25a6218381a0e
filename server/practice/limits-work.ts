/** Where people stand while the work is done, and what of it needs a permit or is worth keeping. */

import type { LimitRow } from './limit-row.ts';

export const workLimits = {
  'exclusion-ratio': {
    summary: 'radius kept clear of people where a tree is felled whole, over its height',
    dimension: 'ratio',
    value: 1,
    unit: '',
    direction: 'at least',
    source: 'practice',
    confidence: 'common practice',
    note: 'A falling tree reaches as far as it is tall, and what it strikes flies farther: many crews keep one and a half or two heights.',
  },
  'line-crew-ratio': {
    summary:
      'distance to a conductor, over the approach distance, within which a line clearance crew does the work',
    dimension: 'ratio',
    value: 2,
    unit: '',
    direction: 'at least',
    source: 'practice',
    confidence: 'common practice',
    note: 'Branches swing and tools are long; the approach distance itself is law.',
  },
  'line-voltage': {
    summary: 'voltage of an overhead line that stands in for one that nobody stated',
    dimension: 'voltage',
    value: 765_000,
    unit: 'kV',
    direction: 'at most',
    source: 'practice',
    confidence: 'common practice',
    note: 'The highest of the United States, from memory; elsewhere lines of more than 1,000 kV run.',
  },
  'permit-dose': {
    summary: 'live foliage taken from a protected tree without a permit',
    dimension: 'share',
    value: 0.25,
    unit: '%',
    direction: 'at most',
    source: 'practice',
    confidence: 'common practice',
    note: 'Many local orders call more than a quarter of the crown heavy pruning; others ask for a permit for every cut: set 0 % there.',
  },
  'salvage-diameter': {
    summary: 'diameter at breast height from which a sound trunk is looked at for logs',
    dimension: 'length',
    value: 0.508,
    unit: 'in',
    direction: 'at least',
    source: 'practice',
    confidence: 'common practice',
    note: 'Yard trees are seldom worth the haul below 20 in; a local mill says what it takes.',
  },
} as const satisfies Record<string, LimitRow>;
