import { answeringReductions } from '../../assess/answers.ts';
import { doseOfChange, isDoneBeyond, mostDose, smallerChange } from '../../assess/dose-room.ts';
import { DOSE_BY_DIMENSIONS, doseOf, isDosed } from '../../assess/doses.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { judge, showLimit } from '../../assess/judge.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { LOAD_CAUTION } from '../../assess/section-words.ts';
import { shareText } from '../../base/figures.ts';
import { type Interval, interval, REPRESENTATION } from '../../base/interval.ts';
import { showQuantity } from '../../base/quantity.ts';
import { capital } from '../../base/words.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Prescription, Tree } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { beyondLimit, graded } from '../limit-report.ts';
import { plan, type Remedy, type Rule, type RuleReport, spanOf } from '../rule.ts';

/** Distance of the stated dose from the interval of the dimensions: at its nearest value and at its farthest. */
const gapBetween = (stated: Interval, given: Interval): Interval =>
  interval(
    Math.max(0, given.low - stated.high, stated.low - given.high),
    Math.max(0, given.low - stated.low, stated.high - given.high),
  );

/** Either the dose of the dimensions or dimensions for the dose, each only within the dose limits. */
function remedyFor(
  context: TreeContext,
  prescription: Prescription,
  stated: Interval,
  given: Interval,
): Remedy {
  const { tree, settings } = context;
  const most = mostDose(context, prescription) * (1 + REPRESENTATION);
  const isBeyond = isDoneBeyond(tree, prescription, given.low);
  const keeps = given.high <= most && !isBeyond;
  const amount = shareText(given);
  const smaller =
    stated.high < given.low && !answersHollow(tree, prescription, settings)
      ? smallerChange(tree, prescription, settings, stated.high)
      : undefined;
  const gap = smaller && judge(gapBetween(stated, smaller.dose), 'dose-mismatch', settings);
  const sizes = gap?.standing === 'within' ? smaller : undefined;
  const ways = [
    ...(sizes ? [`change the dimensions to what the dose allows (${sizes.lines.join(', ')})`] : []),
    ...(keeps ? [`state the dose of the dimensions, "dose ${amount}"`] : []),
  ];
  return {
    remedy:
      ways.length > 0
        ? `${capital(ways.join(', or '))}.`
        : `Plan dimensions and dose together: ${amount} of the foliage ${isBeyond || given.low > most ? 'is' : 'may be'} beyond the dose limits.`,
    advice: [
      ...(sizes ? [plan(prescription.at, ...sizes.lines)] : []),
      ...(keeps ? [plan(prescription.at, `dose ${amount}`)] : []),
    ],
  };
}

const answersHollow = (tree: Tree, prescription: Prescription, settings: Settings): boolean =>
  answeringReductions(tree, settings).some(one => one.prescription === prescription);

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings } = context;
  if (tree.prescriptions.length === 0) return;
  for (const prescription of openPrescriptions(tree)) {
    const { dose, height, spread, base, id, at } = prescription;
    if (!dose || !(height || spread || base) || !isDosed(prescription)) continue;
    const given = doseOfChange(tree, prescription, settings);
    const stated = doseOf(tree, { prescription, at, subject: id.value }, settings)?.total;
    if (!given || !stated) continue;
    const judged = beyondLimit(gapBetween(stated, given), 'dose-mismatch', settings);
    if (!judged) continue;
    const sure = judged.standing === 'exceeds';
    const amount = shareText(given);
    yield {
      at: spanOf(dose),
      ...graded(judged),
      subject: id.value,
      message: `${capital(jobName(prescription))} states a dose of ${showQuantity(dose.value)}, but its dimensions give ${amount} of the live foliage. The difference ${sure ? 'exceeds' : 'may exceed'} ${showLimit(judged)}.`,
      ...remedyFor(context, prescription, stated, given),
    };
  }
}

export const doseMismatch: Rule = {
  name: 'dose-mismatch',
  group: 'pruning',
  level: 'warning',
  summary: 'a stated dose that does not match the prescribed height and spread',
  sources: [cite('practice')],
  explanation: `Where an open prescription states both a dose and a new height, spread or crown base, the dimensions give the dose as a range. ${DOSE_BY_DIMENSIONS} A stated dose outside that range by more percentage points than the limit dose-mismatch is reported, because the crew can follow only one of the two.`,
  limitations: 'Pollards, habitat snags and felling, which have no dose.',
  appliesTo: ['crown changes'],
  acceptable: true,
  caution: LOAD_CAUTION,
  examples: [
    {
      title: '6 of 38 ft off the top and 6 of 58 ft off the width: 16.3 to 27.8 % of the foliage',
      text: `tree 14 "Lawn maple"
  height 52 ft
  crown from 14 ft, 58 ft wide
  prescription R1 reduce
    height 52 ft to 46 ft
    spread 58 ft to 52 ft
    dose 10 % #! warning exceeds
`,
    },
    {
      title: 'Part of a range is too far outside',
      text: `tree 672
  height 52 ft
  crown from 14 ft, 58 ft wide
  prescription R1 reduce
    height 52 ft to 46 ft
    spread 58 ft to 52 ft
    dose 10..20 % #! note may exceed
`,
    },
    {
      title: 'Close enough, no dose, no dimensions, and a monolith',
      text: `tree 673
  height 52 ft
  crown from 14 ft, 58 ft wide
  prescription R1 reduce
    height 52 ft to 46 ft
    spread 58 ft to 52 ft
    dose 20 %
  prescription R2 reduce
    height 52 ft to 46 ft
  prescription R3 thin
    dose 10 %
  prescription R4 monolith
    height 52 ft to 16 ft
    dose 90 %
`,
    },
  ],
  check,
};
