/**
 * All kinds of records that concern safety, with the part of the tree and the way they are judged. The basis of the
 * fact types, the assessment of signs and the generated table (SIGNS.md).
 */

import type { DefectKind } from '../facts/types.ts';
import type { LimitName } from '../practice/limits.ts';

const TREE_PARTS = ['roots and ground', 'stem', 'union', 'limb', 'whole tree'] as const;
export type TreePart = (typeof TREE_PARTS)[number];

/** Signs other than defects: fields of the tree and of its stems and limbs. */
export const FIELD_SIGNS = [
  'lean',
  'soil',
  'vigor',
  'union',
  'stem lean',
  'joined',
  'pull test',
  'strain',
  'limb load',
  'dieback',
] as const;
type FieldSign = (typeof FIELD_SIGNS)[number];

export type SignKind = DefectKind | FieldSign;

/** How a kind of sign is judged; `person` if only a person on site can. */
type JudgedBy =
  | 'section'
  | 'circumference'
  | 'root share'
  | 'trench'
  | 'pull test'
  | 'branch diameter'
  | 'fungus'
  | 'crack'
  | 'hanger'
  | 'union'
  | 'limb load'
  | 'lean'
  | 'soil'
  | 'vigor'
  | 'crown share'
  | 'person';

export interface SignRow {
  readonly part: TreePart;
  /** Whether on a limb it concerns the limb instead. */
  readonly onLimb?: true;
  readonly judgedBy: JudgedBy;
  readonly limits: readonly LimitName[];
  /** How it is judged, in words. */
  readonly words: string;
}

const SECTION: readonly LimitName[] = [
  'section-loss',
  'strength-loss',
  'wall-ratio',
  'safety-factor',
  'own-weight-stress',
];
const CIRCUMFERENCE: readonly LimitName[] = ['circumference-share', 'circumference-caution'];

const section: SignRow = {
  part: 'stem',
  onLimb: true,
  judgedBy: 'section',
  limits: SECTION,
  words:
    'the loss of bending strength by its section and the rules of thumb and, on a stem, the safety factor in the design wind and the weight of a leaning tree; not judged without the diameter there and a measurement of the void',
};
const circumference: SignRow = {
  part: 'stem',
  onLimb: true,
  judgedBy: 'circumference',
  limits: CIRCUMFERENCE,
  words: 'its share of the circumference, stated or from width and diameter; not judged without these',
};
const surface: SignRow = {
  ...circumference,
  limits: [...CIRCUMFERENCE, 'section-loss'],
  words: `${circumference.words}; where the depth of the dead wood was read, the loss of bending strength by the missing sector too`,
};
const byPerson = (part: TreePart, words: string, onLimb?: true): SignRow => ({
  part,
  ...(onLimb ? { onLimb } : {}),
  judgedBy: 'person',
  limits: [],
  words: `only a person on site: ${words}`,
});

const ROOTS = 'the share of the roots, or the figures of a later pull test; not judged without either';

export const SIGN_KINDS: Readonly<Record<SignKind, SignRow>> = {
  cavity: section,
  decay: section,
  crack: {
    part: 'stem',
    onLimb: true,
    judgedBy: 'crack',
    limits: ['extent-loss'],
    words:
      'moving if it is opening, by the record or by readings of its length; exceeds if it runs through, deep or into the soil; may exceed if it is shallow; not judged if nothing says how far it runs',
  },
  'included bark': {
    part: 'union',
    judgedBy: 'union',
    limits: [],
    words: 'weaker than a sound union by an uncertain amount; moving if it is increasing',
  },
  'dead wood': {
    part: 'limb',
    judgedBy: 'branch diameter',
    limits: ['dead-wood-diameter', 'crown-dead-share', 'crown-dead-share-conifer'],
    words: 'the diameter of the branch, or the share of the crown; not judged without either',
  },
  hanger: { part: 'limb', judgedBy: 'hanger', limits: [], words: 'moving until it is down' },
  fungus: {
    part: 'stem',
    onLimb: true,
    judgedBy: 'fungus',
    limits: [],
    words:
      'belongs to roots and ground if it causes root or butt rot, or is unknown and at the base; it shows where decay is but not how much, so it is not judged until the wood behind it is measured or, at roots and butt, a later pull test with a strain at the base',
  },
  canker: surface,
  wound: surface,
  'loose bark': surface,
  'woodpecker holes': byPerson('stem', 'they show that there is decay, but not how much', true),
  'root decay': {
    part: 'roots and ground',
    judgedBy: 'root share',
    limits: ['root-loss'],
    words: ROOTS,
  },
  'root loss': {
    part: 'roots and ground',
    judgedBy: 'root share',
    limits: ['root-loss'],
    words: ROOTS,
  },
  trench: {
    part: 'roots and ground',
    judgedBy: 'trench',
    limits: ['root-cut-distance'],
    words:
      'its distance from the bark over the diameter of the stem, or the figures of a later pull test; not judged without either',
  },
  'girdling root': {
    part: 'roots and ground',
    judgedBy: 'circumference',
    limits: CIRCUMFERENCE,
    words: 'the share of the circumference that it compresses; not judged without it',
  },
  'weak union': byPerson('union', 'no figure is known for it; moving if it is increasing'),
  lean: {
    part: 'roots and ground',
    judgedBy: 'lean',
    limits: ['lean', 'lean-with-heave', 'lean-change', 'own-weight-stress', 'safety-factor'],
    words:
      'moving if it is new or increasing, by the record or by its readings; otherwise its angle and, where species, dbh, height and crown are known, the weight of the tree by itself and in the design wind; not judged if the record does not say whether it is changing',
  },
  soil: {
    part: 'roots and ground',
    judgedBy: 'soil',
    limits: ['lean-with-heave'],
    words: 'moving if it is heaving or cracked at the collar; not judged if it was not seen',
  },
  vigor: {
    part: 'whole tree',
    judgedBy: 'vigor',
    limits: ['dose-stressed'],
    words: 'a dead tree exceeds every limit; poor vigor lowers the dose limit',
  },
  union: {
    part: 'union',
    judgedBy: 'union',
    limits: ['codominant-ratio', 'safety-factor'],
    words:
      'moving if it is cracked; uncertain with included bark, beyond the limit where the fork certainly bears less than the design wind asks of it; not judged if it was not seen',
  },
  'stem lean': {
    part: 'union',
    judgedBy: 'lean',
    limits: ['lean'],
    words: 'the angle of a stem; a limb may point anywhere',
  },
  'pull test': {
    part: 'roots and ground',
    judgedBy: 'pull test',
    limits: ['safety-factor'],
    words:
      'the safety factor of the root plate in the design wind; not judged if it was too weak or too strong, on frozen ground, of a leaning tree, or if the roots have changed since',
  },
  strain: {
    part: 'stem',
    judgedBy: 'pull test',
    limits: ['safety-factor'],
    words: 'the safety factor of the stem in the design wind by its strain in a pull test',
  },
  'limb load': {
    part: 'limb',
    judgedBy: 'limb load',
    limits: ['own-weight-stress', 'safety-factor'],
    words:
      'of a limb whose foliage is at the end only, or that is certainly overloaded: its weight, the ice that the site states, and the design wind, against its strength at the union; not judged without length and diameter or outside the range of slenderness',
  },
  dieback: {
    part: 'limb',
    judgedBy: 'crown share',
    limits: ['crown-dead-share', 'crown-dead-share-conifer', 'share-change'],
    words:
      'the share of the crown that died back, as of a crown that is broken or dead; not judged if it was not seen, or if it certainly became worse since an earlier inspection',
  },
  joined: {
    part: 'stem',
    judgedBy: 'section',
    limits: ['section-loss'],
    words: 'the section between the cavities, with the voids of all of them',
  },
};
