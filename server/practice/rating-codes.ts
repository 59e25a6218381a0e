/**
 * The hazard rating codes: how a published guide rates what is seen on a tree, without computing anything. A rating by
 * the codes is a floor for a person's judgment, not a verdict of this program.
 */

import { type Citation, cite } from './citation.ts';

export const RATING_CODES = ['moderate', 'high', 'extremely high'] as const;
export type RatingCode = (typeof RATING_CODES)[number];

/** In words; without an entry the guide has no such rating. */
type CodeRow = Readonly<Partial<Record<RatingCode, string>>>;

export type CodedSign =
  | 'stem decay'
  | 'crack'
  | 'circumference'
  | 'union'
  | 'roots'
  | 'girdling root'
  | 'crown'
  | 'dead tree';

export const ratingCodes: Readonly<Record<CodedSign, CodeRow>> = {
  'stem decay': {
    moderate: 'a sound wall of more than a sixth of the diameter',
    high: 'a sound wall of less than a sixth of the diameter',
    'extremely high': 'such a wall with a severe crack',
  },
  crack: {
    moderate: 'a crack without extensive decay',
    high: 'a crack in contact with the soil or with another defect',
    'extremely high': 'a stem or branch split in two',
  },
  circumference: {
    moderate: '30 to 40 % of the circumference',
    high: 'more than 40 % of the circumference',
    'extremely high': 'more than 40 % of the circumference with extensive decay or cracks',
  },
  union: {
    moderate: 'a union with included bark',
    high: 'such a union with a crack or decay',
    'extremely high': 'such a union with a crack and decay',
  },
  roots: {
    moderate: 'less than 40 % of the roots',
    high: 'more than 40 % of the roots',
    'extremely high': 'more than 40 % of the roots, with decay',
  },
  'girdling root': {
    moderate: 'less than 40 % of the wood compressed',
    high: 'more than 40 % of the wood compressed',
  },
  crown: {
    moderate: 'up to half of a broadleaved crown or 30 % of a pine’s broken or dying',
    high: 'more than half of a broadleaved crown or 30 % of a pine’s broken or dying',
  },
  'dead tree': {
    high: 'a standing dead tree',
    'extremely high': 'a standing dead tree with cracks, hangers or extensive decay',
  },
};

/** Shares at which the codes change; that of a wall is the limit `wall-share`. */
export const CODE_MARKS = {
  circumference: { moderate: 0.3, high: 0.4 },
  roots: 0.4,
  crown: { broadleaved: 0.5, needleleaved: 0.3 },
} as const;

export const codesCitation: Citation = cite('usda-hazard-codes');

/** How often there is decay behind a sign: a chance of decay, not of failure, and so in words alone. */
export const decayBehind = {
  fungus: 'behind a fruiting body there is always decay',
  'closed wound': 'behind most closed scars there is decay',
} as const;

export const decayBehindCitation: Citation = cite('tennessee-forestry');
