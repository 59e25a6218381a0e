/**
 * Every kind of record that says something about safety: the part of the tree that it belongs to, and what judges it.
 * The fact types, the assessment of signs and the printed table (SIGNS.md) rest on this one.
 */

import type { DefectKind } from '../facts/types.ts';
import type { LimitName } from '../practice/limits.ts';

export const TREE_PARTS = ['roots and ground', 'stem', 'union', 'limb', 'whole tree'] as const;
export type TreePart = (typeof TREE_PARTS)[number];

/** Signs that are no defects: fields of the tree and of its stems and limbs. */
export const FIELD_SIGNS = ['lean', 'soil', 'vigor', 'union', 'stem lean', 'joined'] as const;
export type FieldSign = (typeof FIELD_SIGNS)[number];

export type SignKind = DefectKind | FieldSign;

/** How a sign of some kind is judged; `person` where no figure exists and only somebody on site can tell. */
export type JudgedBy =
  | 'section'
  | 'circumference'
  | 'root share'
  | 'branch diameter'
  | 'fungus'
  | 'crack'
  | 'hanger'
  | 'union'
  | 'lean'
  | 'soil'
  | 'vigor'
  | 'person';

export interface SignRow {
  readonly part: TreePart;
  /** Whether it belongs to the limb instead where it sits on one. */
  readonly onLimb?: true;
  readonly judgedBy: JudgedBy;
  readonly limits: readonly LimitName[];
  /** For people: what judges it, and when nothing does. */
  readonly words: string;
}

const SECTION: readonly LimitName[] = ['section-loss', 'strength-loss', 'wall-ratio', 'safety-factor'];
const CIRCUMFERENCE: readonly LimitName[] = ['circumference-share', 'circumference-caution'];

const section: SignRow = {
  part: 'stem',
  onLimb: true,
  judgedBy: 'section',
  limits: SECTION,
  words:
    'what its section, the rules of thumb and, on a stem, the design wind leave of the strength; not judged without the diameter there and a reading of the void',
};
const circumference: SignRow = {
  part: 'stem',
  onLimb: true,
  judgedBy: 'circumference',
  limits: CIRCUMFERENCE,
  words: 'its share of the circumference, stated or from width and diameter; not judged without',
};
const byPerson = (part: TreePart, words: string, onLimb?: true): SignRow => ({
  part,
  ...(onLimb ? { onLimb } : {}),
  judgedBy: 'person',
  limits: [],
  words: `a person alone: ${words}`,
});

export const SIGN_KINDS: Readonly<Record<SignKind, SignRow>> = {
  cavity: section,
  decay: section,
  crack: {
    part: 'stem',
    onLimb: true,
    judgedBy: 'crack',
    limits: [],
    words: 'moving where it opens, beyond its mark where it runs into the soil; else a person alone',
  },
  'included bark': {
    part: 'union',
    judgedBy: 'union',
    limits: [],
    words: 'a sound union is stronger, by how much is uncertain; moving where it increases',
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
      'roots and ground where the fungus rots roots or butt, or an unknown one sits at the base; it tells a place and no size, so that it is not judged until the wood behind it is measured',
  },
  canker: circumference,
  wound: circumference,
  'loose bark': circumference,
  'woodpecker holes': byPerson('stem', 'they tell of decay and not of how much', true),
  'root decay': {
    part: 'roots and ground',
    judgedBy: 'root share',
    limits: ['root-loss'],
    words: 'the share of the roots; not judged without',
  },
  'root loss': {
    part: 'roots and ground',
    judgedBy: 'root share',
    limits: ['root-loss'],
    words: 'the share of the roots; not judged without',
  },
  'girdling root': {
    part: 'roots and ground',
    judgedBy: 'circumference',
    limits: CIRCUMFERENCE,
    words: 'the share of the circumference that it compresses; not judged without',
  },
  'weak union': byPerson('union', 'no figure is known for it; moving where it increases'),
  lean: {
    part: 'roots and ground',
    judgedBy: 'lean',
    limits: ['lean', 'lean-with-heave'],
    words:
      'moving where it is new or increasing; else its angle, not judged where nobody says whether it changes',
  },
  soil: {
    part: 'roots and ground',
    judgedBy: 'soil',
    limits: ['lean-with-heave'],
    words: 'moving where it heaves or cracks at the collar; not judged where it was not seen',
  },
  vigor: {
    part: 'whole tree',
    judgedBy: 'vigor',
    limits: ['dose-stressed'],
    words: 'a dead tree is beyond every mark; poor vigor narrows the dose',
  },
  union: {
    part: 'union',
    judgedBy: 'union',
    limits: ['codominant-ratio'],
    words: 'moving where it is cracked, uncertain with included bark, not judged where it was not seen',
  },
  'stem lean': {
    part: 'union',
    judgedBy: 'lean',
    limits: ['lean'],
    words: 'the angle of a stem; a limb may point anywhere',
  },
  joined: {
    part: 'stem',
    judgedBy: 'section',
    limits: ['section-loss'],
    words: 'the section between the cavities, with the voids of all of them',
  },
};
