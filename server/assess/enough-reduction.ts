/** The smallest reduction, as written, that satisfies the limits of hollows, or of pulled parts, and those on doses. */

import { shareText } from '../base/figures.ts';
import type { Interval } from '../base/interval.ts';
import { exactly, type Quantity, showQuantity } from '../base/quantity.ts';
import { stagesOf } from '../facts/stages.ts';
import type { Placed, Prescription, SizeChange, Tree } from '../facts/types.ts';
import type { AnsweringReduction } from './answers.ts';
import { type DoseContext, doseOfChange, MAX_STAGES, mostDose } from './dose-room.ts';
import { isEmergency } from './emergency.ts';
import { judge } from './judge.ts';
import { easedUnder, loadUnder, type MeasuredPart } from './load.ts';

/** Step of the shares of crown length and spread. */
const FINEST = 0.001;
/** Greatest share of crown length and spread. */
const GREATEST = 0.6;

/**
 * Lines of the reduction that brings all its hollows to the stress limit; undefined if none does within the limits on
 * doses, in one season or, if there is time, in several.
 */
export function enoughReduction(
  context: DoseContext,
  { prescription, strength, answered }: AnsweringReduction,
): readonly string[] | undefined {
  const { tree, site, settings } = context;
  return leastReduction(context, prescription, after => {
    const load = loadUnder(tree, after, strength, site, settings);
    const sections = load?.sections.filter(({ defect }) => answered.includes(defect)) ?? [];
    return (
      sections.length > 0 &&
      sections.every(({ stressRatio }) => judge(stressRatio, 'stress-ratio', settings).standing === 'within')
    );
  });
}

/** The same for what a pull test measured: under half the effect, too, everything keeps its limit. */
export const enoughForParts = (
  context: DoseContext,
  prescription: Prescription,
  parts: readonly MeasuredPart[],
): readonly string[] | undefined =>
  leastReduction(
    context,
    prescription,
    after =>
      easedUnder(parts, after, context.tree, context.site, context.settings)?.every(
        ({ judged }) => judged.standing === 'within',
      ) ?? false,
  );

function leastReduction(
  context: DoseContext,
  prescription: Prescription,
  isEnough: (after: Prescription) => boolean,
): readonly string[] | undefined {
  const { tree, settings } = context;
  const keeps = (share: number): boolean => {
    const after = reduced(tree, prescription, share);
    return after !== undefined && isEnough(after);
  };
  if (!keeps(GREATEST)) return undefined;
  let [short, enough] = [0, GREATEST];
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
    ...(prescription.dose ? [`dose ${shareText(dose)}`] : []),
    ...(stages > stagesOf(prescription) ? [`stages ${stages}`] : []),
  ];
}

/** The fewest stages, at least a number of them, that allow the dose; one season in an emergency. */
export function stagesKeeping(
  context: DoseContext,
  prescription: Prescription,
  dose: Interval,
  first = stagesOf(prescription),
): number | undefined {
  const last = isEmergency(context) ? stagesOf(prescription) : MAX_STAGES;
  for (let stages = first; stages <= last; stages++)
    if (dose.high <= mostDose(context, prescription, stages)) return stages;
  return undefined;
}

const changeLine = (size: string, { from, to }: SizeChange): string =>
  `${size} ${showQuantity(from.value)} to ${showQuantity(to.value)}`;

/** The prescription with this share off crown length and spread, in tenths of the unit used. */
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
