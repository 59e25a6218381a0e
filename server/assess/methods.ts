/** Pruning methods of current prescriptions. */

import { REPRESENTATION } from '../base/interval.ts';
import { plainNumber, showQuantity } from '../base/quantity.ts';
import type { Settings } from '../facts/settings.ts';
import type { Placed, Prescription, Tree } from '../facts/types.ts';
import { cite, citedWithDoubt } from '../practice/citation.ts';
import { isBritish } from '../practice/region-pack.ts';
import { lookupGenus, lookupSpecies } from '../practice/species.ts';
import { readingOf } from './fall-zone.ts';
import { currentJobs } from './jobs.ts';
import { lengthLimitLike } from './prescriptions.ts';

export interface MethodUse {
  readonly prescription: Prescription;
  /** The method as written. */
  readonly method: Placed<string>;
  /** Whether work is recorded under it. */
  readonly done: boolean;
}

const NONE: readonly MethodUse[] = [];

/** Prescriptions that are open or were worked on within a year, with the first of the methods that they state. */
export function methodUses(tree: Tree, today: number, methods: ReadonlySet<string>): readonly MethodUse[] {
  if (!tree.prescriptions.some(({ methods: stated }) => stated.some(({ value }) => methods.has(value)))) {
    return NONE;
  }
  const uses = new Map<Prescription, MethodUse>();
  for (const { prescription, work } of currentJobs(tree, today)) {
    const method = prescription.methods.find(({ value }) => methods.has(value));
    if (method && !uses.has(prescription)) uses.set(prescription, { prescription, method, done: !!work });
  }
  return [...uses.values()];
}

/** Rounding tolerance of ratios, which are written to a hundredth: 0.33 is a third. */
export const WRITTEN = 0.005;

/** The smallest ratio of laterals within the limit, as written. */
export const leastLateral = (limit: number): string =>
  plainNumber(Math.ceil((limit - WRITTEN) * 100 - REPRESENTATION) / 100, 2);

/** The standard of pruning of the place, where the American and the British one say the same. */
export const pruningStandard = ({ region }: Pick<Settings, 'region'>): string =>
  isBritish(region) ? citedWithDoubt(cite('bs-3998-2010')) : cite('a300-1-2008').short;

/** The standard of safe work of the place; a British one was not read. */
export const safetyStandard = ({ region }: Pick<Settings, 'region'>): string =>
  isBritish(region) ? cite('practice').short : citedWithDoubt(cite('z133'));

/** Whether the species, or its genus where the species is not in the table, is a weak compartmentalizer. */
export function isWeak({ species }: Tree): boolean {
  if (!species) return false;
  const { binomial, genus } = species.value;
  const known = binomial === undefined ? undefined : lookupSpecies(binomial);
  return (known ? known.compartmentalisation.grade : lookupGenus(genus)?.compartmentalisation) === 'weak';
}

/** The `cuts` line of a prescription with laterals of this ratio, its largest cut brought within the limit. */
export function cutsWith(
  { cutDiameter }: Prescription,
  laterals: string,
  tree: Tree,
  settings: Settings,
): string {
  // An unknown species may be weak.
  const limit = settings.limit(tree.species && !isWeak(tree) ? 'cut-diameter' : 'cut-diameter-weak');
  const most =
    cutDiameter &&
    ((readingOf(cutDiameter, settings).high > limit.value && lengthLimitLike(limit, cutDiameter.value)) ||
      showQuantity(cutDiameter.value));
  return `cuts ${most ? `up to ${most}, ` : ''}laterals ${laterals}`;
}
