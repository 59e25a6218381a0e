/**
 * What findings tell the crew to do, in English, before what is wrong: the remedy of a rule tells the office what to write.
 * A finding of another rule says enough by its message.
 */

/** Sentence, and the rules that it belongs to. */
type Told = readonly (readonly [string, string])[];

const byRule = (told: Told): Readonly<Record<string, string>> =>
  Object.fromEntries(told.flatMap(([words, rules]) => rules.split(' ').map(rule => [rule, words])));

/** Whatever the level of the finding, it keeps the crew from beginning, climbing or cutting. */
export const EN_STOPS = byRule([
  [
    'Do not start.',
    'nest-active nest-check-missing permit-expired permit-missing permit-needed window-unstated',
  ],
  [
    'Do not start until the line is de-energized and grounded, or a qualified crew does the work.',
    'conductor-crew conductor-distance',
  ],
  ['Do not start until the line is de-energized and grounded.', 'conductor-minimum-distance'],
  ['Do not set up the crane until the line is de-energized and grounded.', 'crane-near-conductor'],
  [
    'Do not fell it whole: take it down in pieces that cannot come near the line, or wait until the line is de-energized and grounded.',
    'fall-zone-conductor',
  ],
  ['Do not cut.', 'bat-check-missing bat-roost cutting-ban'],
  ['Do not touch the nest.', 'empty-nest'],
  ['Do not work or climb nearer to the nest.', 'nest-near'],
  ['Do not fell the tree.', 'permit-scope takedown-unstated'],
  ['Do not climb or tie in to this tree.', 'pull-test-inclination unsafe-to-climb'],
  ['Do not install the cable.', 'cable-too-weak'],
  ['Keep everyone away, do not climb, and call a qualified person today.', 'movement'],
  [
    'Cut no live wood until you have in writing how much.',
    'cumulative-dose offset-beyond-season season-dose',
  ],
  ['Do not prune in these weeks.', 'pruning-season'],
  ['Cut no live wood until the tree has recovered.', 'pruning-stressed'],
]);

export const EN_FINDINGS: Readonly<Record<string, string>> = {
  ...EN_STOPS,
  ...byRule([
    ['Nobody works alone.', 'conductor-second-worker'],
    ['Treat the line as the most dangerous kind.', 'conductor-voltage-missing'],
    ['Do not take the wood away.', 'wood-under-quarantine'],
    [
      'Close the whole area before the first cut.',
      'target-without-occupancy work-over-target-without-exclusion',
    ],
    ['Do not lower the piece this way.', 'rigging-overload'],
    ['Nobody climbs or ties in above the union before it has been examined.', 'included-bark-union'],
    ['Do not tie in to the damaged part.', 'strength-loss'],
    ['Keep people out.', 'rating-unanswered'],
    ['Do not remove the inner branches.', 'lion-tailing'],
  ]),
};
