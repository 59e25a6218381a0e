/** What a prescription, a follow-up or a risk is about: a defect by its name, or the stem or limb that has it. */

import type { Defect, Placed, Prescription, Risk, Tree } from '../facts/types.ts';

type Words = readonly Placed<string>[];

/** Whether they name a defect, or the part that it is on. */
export const areAbout = (
  words: Words,
  { id, part }: { readonly id: Defect['id']; readonly part?: Defect['part'] | undefined },
): boolean => words.some(({ value }) => value === id.value || value === part?.value);

/** A prescription answers the risks from what it is for; one for nothing in particular answers all. */
export function answersRisk(tree: Tree, { for: causes }: Prescription, { defect: from }: Risk): boolean {
  if (causes.length === 0 || from === undefined) return true;
  if (causes.some(({ value }) => value === from.value)) return true;
  const defect = tree.defects.find(({ id }) => id.value === from.value);
  return defect !== undefined && areAbout(causes, defect);
}
