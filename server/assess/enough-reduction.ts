/** The smallest reduction, as it is written, that keeps a hollow stem and the limits on doses alike. */

import type { Interval } from '../base/interval.ts';
import { exactly, type Quantity, showQuantity } from '../base/quantity.ts';
import type { Placed, Prescription, SizeChange, Tree } from '../facts/types.ts';
import type { AnsweringReduction } from './answers.ts';
import { type DoseContext, doseOfChange, MOST_STAGES, mostDose, shareAround } from './dose-room.ts';
import { isEmergency } from './emergency.ts';
import { stagesOf } from './jobs.ts';
import { judge } from './judge.ts';
import { loadUnder } from './load.ts';

/** Shares of crown length and spread that are tried: a tenth of a percent apart. */
const FINEST = 0.001;
/** More than this off length and spread leaves no crown to speak of. */
const MOST = 0.6;

/**
 * The lines that bring every hollow which a reduction answers to the limit on its stress; undefined where none do
 * within the limits on doses, in one season or, where there is time, in several.
 */
export function enoughReduction(
  context: DoseContext,
  { prescription, strength, answered }: AnsweringReduction,
): readonly string[] | undefined {
  const { tree, site, settings } = context;
  const keeps = (share: number): boolean => {
    const after = reduced(tree, prescription, share);
    const load = after && loadUnder(tree, after, strength, site, settings);
    const sections = load?.sections.filter(({ defect }) => answered.includes(defect)) ?? [];
    return (
      sections.length > 0 &&
      sections.every(({ stressRatio }) => judge(stressRatio, 'stress-ratio', settings).standing === 'within')
    );
  };
  if (!keeps(MOST)) return undefined;
  let [short, enough] = [0, MOST];
  while (enough - short > FINEST) {
    const middle = (short + enough) / 2;
    if (keeps(middle)) enough = middle;
    else short = middle;
  }
  const after = reduced(tree, prescription, enough)!;
  const dose = doseOfChange(tree, after, settings);
  const stages = dose && stagesKeeping(context, prescription, dose);
  if (!dose || stages === undefined) return undefined;
  return [
    changeLine('height', after.height!),
    changeLine('spread', after.spread!),
    ...(prescription.dose ? [`dose ${shareAround(dose)}`] : []),
    ...(stages > stagesOf(prescription) ? [`stages ${stages}`] : []),
  ];
}

/** The fewest stages, from a number of them on, over which so much may be taken; one season in an emergency. */
export function stagesKeeping(
  context: DoseContext,
  prescription: Prescription,
  dose: Interval,
  first = stagesOf(prescription),
): number | undefined {
  const last = isEmergency(context) ? stagesOf(prescription) : MOST_STAGES;
  for (let stages = first; stages <= last; stages++)
    if (dose.high <= mostDose(context, prescription, stages)) return stages;
  return undefined;
}

const changeLine = (size: string, { from, to }: SizeChange): string =>
  `${size} ${showQuantity(from.value)} to ${showQuantity(to.value)}`;

/** The prescription with this share off crown length and spread, in tenths of the writer's unit. */
function reduced(tree: Tree, prescription: Prescription, share: number): Prescription | undefined {
  const top = prescription.height?.from ?? tree.height;
  const base = prescription.base?.to ?? tree.crownBase;
  const spread = prescription.spread?.from ?? tree.crownSpread;
  if (!top || !base || !spread) return undefined;
  const height = base.value.low + (top.value.low - base.value.low) * (1 - share);
  return {
    ...prescription,
    height: change(top, height),
    spread: change(spread, spread.value.low * (1 - share)),
  };
}

function change(from: Placed<Quantity>, metres: number): SizeChange {
  const factor = from.value.unit?.factor ?? 1;
  const value = (Math.floor((metres / factor) * 10) / 10) * factor;
  return { start: from.start, end: from.end, from, to: { ...from, value: exactly(from.value, value) } };
}
