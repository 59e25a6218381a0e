/**
 * Facets of a tree that rules apply to. Most trees have few of them, so a rule about prescriptions or cavities is
 * not called for the others.
 */

import { namesPhotos } from '../facts/photos.ts';
import type { Inspection, NestCheck, Prescription, Tree } from '../facts/types.ts';

/** Hot path: a loop avoids a closure call per element. */
function any<T>(list: readonly T[], test: (one: T) => boolean): boolean {
  for (const one of list) if (test(one)) return true;
  return false;
}

/** Predicates of `any`, defined once: they run for every tree. */
const isMeasured = ({ cutDiameter, laterals }: Pick<Prescription, 'cutDiameter' | 'laterals'>): boolean =>
  (cutDiameter ?? laterals) !== undefined;
const isPermitted = ({ permit }: Prescription): boolean => permit !== undefined;
const isWatched = ({ kind }: Prescription): boolean => kind.value === 'watch';
const isFelled = ({ kind }: Prescription): boolean => kind.value === 'fell' || kind.value === 'monolith';
const changesCrown = ({ height, spread, base }: Prescription): boolean =>
  (height ?? spread ?? base) !== undefined;
const hasMethods = ({ methods }: Prescription): boolean => methods.length > 0;
const isPainted = ({ paint }: Prescription): boolean => paint !== undefined;
const hasPiece = ({ piece }: Prescription): boolean => piece !== undefined;
const isFlown = ({ from, flown }: Inspection): boolean => from.value === 'drone' || flown !== undefined;
const isUsed = ({ use }: NestCheck['found'][number]): boolean => use === 'active' || use === 'unclear';
const foundInUse = ({ found }: NestCheck): boolean => any(found, isUsed);

const IS_THERE = {
  defects: ({ defects }: Tree) => defects.length > 0,
  joined: ({ joined }: Tree) => joined.length > 0,
  parts: ({ parts }: Tree) => parts.length > 0,
  targets: ({ targets }: Tree) => targets.length > 0,
  risks: ({ risks }: Tree) => risks.length > 0,
  conductors: ({ conductors }: Tree) => conductors.length > 0,
  'nest checks': ({ nestChecks }: Tree) => nestChecks.length > 0,
  /** In use, or perhaps in use. */
  nests: ({ nestChecks }: Tree) => any(nestChecks, foundInUse),
  'bat checks': ({ batChecks }: Tree) => batChecks.length > 0,
  'pull tests': ({ pullTests }: Tree) => pullTests.length > 0,
  views: ({ views }: Tree) => views.length > 0,
  prescriptions: ({ prescriptions }: Tree) => prescriptions.length > 0,
  works: ({ works }: Tree) => works.length > 0,
  'follow-ups': ({ followUps }: Tree) => followUps.length > 0,
  dead: ({ vigor }: Tree) => vigor?.value === 'dead',
  lean: ({ lean }: Tree) => lean !== undefined,
  /** Of the soil at the collar, or of the crown. */
  condition: ({ soil, dieback }: Tree) => soil !== undefined || dieback !== undefined,
  photos: namesPhotos,
  /** Dated sizes: from inspections, or left by work. */
  'dated sizes': ({ inspections, works }: Tree) => {
    for (const { diameters, height, crownSpread } of inspections)
      if (height || crownSpread || diameters.length > 0) return true;
    for (const { height, spread } of works) if (height || spread) return true;
    return false;
  },
  'repeated fields': ({ repeated }: Tree) => repeated !== undefined,
  felled: ({ felled }: Tree) => felled !== undefined,
  stressed: ({ stressed }: Tree) => stressed !== undefined,
  /** Of the tree, or of one of its prescriptions. */
  permits: ({ protection, prescriptions }: Tree) =>
    protection !== undefined || any(prescriptions, isPermitted),
  'several prescriptions': ({ prescriptions }: Tree) => prescriptions.length > 1,
  watching: ({ prescriptions }: Tree) => any(prescriptions, isWatched),
  /** Felling, whole or to a monolith. */
  felling: ({ prescriptions }: Tree) => any(prescriptions, isFelled),
  /** Another height, spread or base prescribed for the crown. */
  'crown changes': ({ prescriptions }: Tree) => any(prescriptions, changesCrown),
  methods: ({ prescriptions }: Tree) => any(prescriptions, hasMethods),
  'painted cuts': ({ prescriptions }: Tree) => any(prescriptions, isPainted),
  'measured cuts': ({ prescriptions, works }: Tree) =>
    any(prescriptions, isMeasured) || any(works, isMeasured),
  /** The heaviest piece to be lowered. */
  pieces: ({ prescriptions }: Tree) => any(prescriptions, hasPiece),
  /** Inspections from a drone. */
  flights: ({ inspections }: Tree) => any(inspections, isFlown),
} as const;

export type Facet = keyof typeof IS_THERE;

const names = Object.keys(IS_THERE) as readonly Facet[];
const tests = Object.values(IS_THERE);

/** Facets of a tree as a bit set: bit i is the i-th facet. */
export function facetsOf(tree: Tree): number {
  let has = 0;
  for (let i = 0; i < tests.length; i++) if (tests[i]!(tree)) has |= 1 << i;
  return has;
}

/** Whether a rule applies to a tree with these facets. */
export const concerns = ({ appliesTo }: { readonly appliesTo?: readonly Facet[] }, has: number): boolean =>
  appliesTo === undefined || appliesTo.some(facet => (has & (1 << names.indexOf(facet))) !== 0);
