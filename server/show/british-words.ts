/**
 * Words that people in Britain and Ireland use or spell in another way than the canonical American text of findings. What
 * is quoted, because it is to be typed, stays as the notation has it; it reads `vigour` too.
 */

export interface BritishWord {
  /** In lower case; a plural and other forms are rows of their own. */
  readonly american: string;
  readonly british: string;
  /** `spelling`, a source, or `common practice`. */
  readonly source: string;
}

const SPELLING = 'spelling';
const PRACTICE = 'common practice';
const ISOLATED = 'isolated and earthed: term of the trade in Britain, from memory';

/** `network operators`: Engineering Recommendation G55, as in the rows of law. */
const UTILITY = 'Engineering Recommendation G55';

export const BRITISH_WORDS: readonly BritishWord[] = [
  { american: 'de-energized and grounded', british: 'isolated and earthed', source: ISOLATED },
  { american: 'de-energize and ground', british: 'isolate and earth', source: ISOLATED },
  { american: 'de-energized', british: 'isolated', source: ISOLATED },
  { american: 'de-energize', british: 'isolate', source: ISOLATED },
  { american: 'energized', british: 'live', source: PRACTICE },
  { american: 'grounded', british: 'earthed', source: ISOLATED },
  { american: 'an aerial lift', british: 'a MEWP', source: PRACTICE },
  { american: 'aerial lift', british: 'MEWP', source: PRACTICE },
  { american: 'aerial lifts', british: 'MEWPs', source: PRACTICE },
  { american: 'habitat snag', british: 'monolith', source: PRACTICE },
  { american: 'habitat snags', british: 'monoliths', source: PRACTICE },
  { american: 'bat biologist', british: 'bat ecologist', source: PRACTICE },
  { american: 'licensed biologist', british: 'licensed ecologist', source: PRACTICE },
  { american: 'biologist', british: 'ecologist', source: PRACTICE },
  { american: 'analyze', british: 'analyse', source: SPELLING },
  { american: 'authorization', british: 'authorisation', source: SPELLING },
  { american: 'authorizations', british: 'authorisations', source: SPELLING },
  { american: 'authorize', british: 'authorise', source: SPELLING },
  { american: 'authorized', british: 'authorised', source: SPELLING },
  { american: 'authorizes', british: 'authorises', source: SPELLING },
  { american: 'catalog', british: 'catalogue', source: SPELLING },
  { american: 'center', british: 'centre', source: SPELLING },
  { american: 'centers', british: 'centres', source: SPELLING },
  { american: 'color', british: 'colour', source: SPELLING },
  { american: 'colors', british: 'colours', source: SPELLING },
  { american: 'compartmentalize', british: 'compartmentalise', source: SPELLING },
  { american: 'compartmentalizer', british: 'compartmentaliser', source: SPELLING },
  { american: 'compartmentalizes', british: 'compartmentalises', source: SPELLING },
  { american: 'favorable', british: 'favourable', source: SPELLING },
  { american: 'gray', british: 'grey', source: SPELLING },
  // The noun alone: licensed is spelled in the same way.
  { american: 'license', british: 'licence', source: SPELLING },
  { american: 'licenses', british: 'licences', source: SPELLING },
  { american: 'meter', british: 'metre', source: SPELLING },
  { american: 'meters', british: 'metres', source: SPELLING },
  { american: 'centimeter', british: 'centimetre', source: SPELLING },
  { american: 'centimeters', british: 'centimetres', source: SPELLING },
  { american: 'millimeter', british: 'millimetre', source: SPELLING },
  { american: 'millimeters', british: 'millimetres', source: SPELLING },
  { american: 'neighbor', british: 'neighbour', source: SPELLING },
  { american: 'neighboring', british: 'neighbouring', source: SPELLING },
  { american: 'neighbors', british: 'neighbours', source: SPELLING },
  { american: 'the utility', british: 'the network operator', source: UTILITY },
  { american: 'organization', british: 'organisation', source: SPELLING },
  { american: 'prioritize', british: 'prioritise', source: SPELLING },
  { american: 'vigor', british: 'vigour', source: SPELLING },
  { american: 'recognize', british: 'recognise', source: SPELLING },
  { american: 'recognized', british: 'recognised', source: SPELLING },
];
