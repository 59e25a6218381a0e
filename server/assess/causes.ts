/** The subject of a prescription, a follow-up or a risk: a defect, or the stem or limb that has it. */

import type { Defect, Placed, Prescription, Risk, Tree } from '../facts/types.ts';

type Words = readonly Placed<string>[];

/** Whether they name a defect or its part. */
export const areAbout = (
  words: Words,
  { id, part }: { readonly id: Defect['id']; readonly part?: Defect['part'] | undefined },
): boolean => words.some(({ value }) => value === id.value || value === part?.value);

/** A prescription mitigates the risks from its causes, or all if it states none. */
export function answersRisk(tree: Tree, { for: causes }: Prescription, { defect: from }: Risk): boolean {
  if (causes.length === 0 || from === undefined) return true;
  if (causes.some(({ value }) => value === from.value)) return true;
  const defect = tree.defects.find(({ id }) => id.value === from.value);
  return defect !== undefined && areAbout(causes, defect);
}
