/** Terms that messages and pages no longer use, with the one to use instead. */

export interface DroppedTerm {
  /** Not part of a longer word. */
  readonly dropped: RegExp;
  readonly use: string;
}

const term = (dropped: string, use: string): DroppedTerm => ({
  dropped: new RegExp(`(?<![\\p{L}-])(?:${dropped})(?![\\p{L}-])`, 'iu'),
  use,
});

export const DROPPED: readonly DroppedTerm[] = [
  // Electricity.
  term('electric lines?', 'overhead power line'),
  term('(?:switched off and )?earthed', 'de-energized and grounded'),
  term('un-?qualified people|people not qualified', 'unqualified workers'),
  term('work near an electric line', 'line-clearance work'),

  // Work.
  term('bark to bark', 'included bark'),
  term('cherry picker|bucket truck|MEWP', 'aerial lift'),
  term('standing stem|dead trunk', 'habitat snag'),
  term('walls? off decay', 'compartmentalizes decay'),
  term('what the gear carries', 'working load limit'),
  term('with what a catch adds', 'including shock load'),
  term('wounds? painted|paint(?:ing)? wounds?', 'wound dressing'),
  term('kept clear of people by', 'drop zone'),
  term('read before going|before the first cut', 'job briefing'),
  term('further looks?|follow-up looks?', 'follow-up inspection'),

  // One thing under several names.
  term('foliage taken', 'live foliage removed'),
  term('share of foliage', 'live foliage removed'),
  term('strength lost|lost strength|loss of strength|strength is gone', 'loss of bending strength'),
  term('sound stem', 'intact stem'),
  term('weeks closed to work', 'work window'),
  term('let stand|known and accepted', 'exception'),
  term('what is open', 'options'),
  term('what shall stay hidden', 'screen'),

  // Spelling of the other country, and German word order.
  term(
    'authorisation|authorised|colour|neighbour(?:s|ing)?|centre|metres?|licence|compartmentalis\\p{L}+',
    'American spelling',
  ),
  term('shall', 'will, or is to be'),
  term('somebody|nobody', 'a passive, or a named role'),
  term('stands? against|held against|against which it is held', 'is compared with, is checked against'),
  term('looked at|looks at|a look at', 'inspect, check, compare'),
  term('speaks? (?:for|against)', 'supports, does not support'),
  term('from which on|at which to', 'two sentences'),
  term('is no (?:word|day|tag|size|file|place|text|unit)', 'is not a …'),
  term('holds no', 'contains no'),
  term('nothing is known of', 'there is no record of'),
];
