import { answeringOffset, answeringReductions } from '../../assess/answers.ts';
import { doseLimitsOf, doseOf, isDead } from '../../assess/doses.ts';
import { isEmergency, KEEP_OUT } from '../../assess/emergency.ts';
import { stagesKeeping } from '../../assess/enough-reduction.ts';
import { showLimit, strictest } from '../../assess/judge.ts';
import type { Offset } from '../../assess/load.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { LOAD_CAUTION, namesOf } from '../../assess/section-words.ts';
import { lossText } from '../../base/figures.ts';
import { hull } from '../../base/interval.ts';
import { capital, counted } from '../../base/words.ts';
import { stagesOf } from '../../facts/stages.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { plan, type Remedy, type Rule, type RuleReport } from '../rule.ts';

/** From this width on, only the lower end of a range of seasons is shown. */
const MANY_SEASONS = 4;

/** More stages where they suffice and there is time; otherwise measures other than pruning. */
function remedyFor(
  context: TreeContext,
  prescription: Prescription,
  { reach, atBest, seasons, dose: needed }: Offset,
): Remedy {
  const other = 'support it, keep people away, leave a habitat snag, or remove the tree';
  if (atBest.reach === 'out of reach') return { remedy: `Pruning cannot achieve that much: ${other}.` };
  if (isEmergency(context))
    return { remedy: `${KEEP_OUT}. Pruning over several seasons would come too late: ${other}.` };
  if (reach === 'out of reach')
    return {
      remedy:
        'At the worst-case loss, pruning cannot achieve that much. Measure the section before planning around it.',
    };
  const { at, id } = prescription;
  const own = doseOf(context.tree, { prescription, at, subject: id.value }, context.settings)?.total;
  const stages = Number.isFinite(seasons.high)
    ? stagesKeeping(context, prescription, own && own.high > needed.high ? own : needed, seasons.high)
    : undefined;
  const first =
    reach === 'perhaps out of reach'
      ? 'At the worst-case loss it is at or beyond what pruning can achieve: measure the section first. Otherwise spread'
      : 'Spread';
  return stages
    ? {
        remedy: `${first} it over ${stages} stages, a year apart, and bridge the time with a fence or a support.`,
        advice: [plan(at, `stages ${stages}`)],
      }
    : { remedy: `Stages do not bring it within the limits: ${other}.` };
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, site, settings } = context;
  if (isDead(tree)) return;
  for (const answering of answeringReductions(tree, settings)) {
    const { prescription, answered } = answering;
    const offset = answeringOffset(tree, answering, site, settings);
    if (!offset) continue;
    const stages = stagesOf(prescription);
    if (offset.seasons.high <= stages) continue;
    const { atBest, seasons, dose } = offset;
    const sure = atBest.seasons.low > stages;
    const setting = settings.limit(strictest(doseLimitsOf(tree, 'reduce'), settings));
    const names = namesOf(answered.map(({ hollow }) => hollow.defect.id));
    const least = Math.max(1, atBest.seasons.low);
    // With a zero limit, or the whole crown to be removed, no number of seasons suffices.
    const needed = !Number.isFinite(least)
      ? 'more than any number of seasons allows'
      : seasons.high === least
        ? counted(least, 'season')
        : seasons.high - least < MANY_SEASONS
          ? `${least} to ${seasons.high} seasons`
          : `at least ${counted(least, 'season')}`;
    yield {
      at: prescription.stages ?? prescription.at,
      grade: sure ? 'exceeds' : 'may exceed',
      level: sure ? 'warning' : 'note',
      subject: prescription.id.value,
      message: `Offsetting the loss at ${names} would take ${lossText(hull(atBest.dose, dose))} of the live foliage: ${needed}, each within ${showLimit({ setting })}. ${capital(jobName(prescription))} has ${stages === 1 ? 'one' : stages}.`,
      ...remedyFor(context, prescription, offset),
    };
  }
}

export const offsetBeyondSeason: Rule = {
  name: 'offset-beyond-season',
  group: 'pruning',
  level: 'warning',
  summary: 'a reduction that would need more foliage removed than the permitted seasonal doses allow',
  sources: [cite('bmp-pruning'), cite('wi-dnr-pruning'), cite('practice')],
  explanation:
    'Applies to open reductions that address cavities or decay. Compares the foliage removed by the offsetting reduction with what the stages may remove under the seasonal limit for age and vigor. The offsetting reduction is that of reduction-short-of-offset, at the least and at the worst-case loss. Each season starts from the foliage the last one left; regrowth is not counted. Beyond the limit total-reduction no pruning can offset the loss, and the finding states that.',
  limitations: 'Dead trees. Trees whose height, crown base or spread is not recorded.',
  appliesTo: ['defects'],
  acceptable: true,
  caution: LOAD_CAUTION,
  examples: [
    {
      title: 'A mature tree with a loss of 41 %, in one season and in two',
      text: `tree 661
  height 60 ft
  crown from 15 ft, 40 ft wide
  age mature
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 31 in
    bark 0.5 in
    wall 3 in
  prescription R1 reduce #! warning exceeds
    dose 15 %
    for A
  prescription R2 reduce
    dose 30 %
    stages 2 #! warning exceeds
    for A
`,
    },
    {
      title: 'Possibly more than one season',
      text: `tree 662
  height 60 ft
  crown from 15 ft, 40 ft wide
  age mature
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 5 in
  prescription R1 reduce #! note may exceed
    height 60 ft to 57 ft
    for A
`,
    },
    {
      title: 'Enough stages, a small loss, and no crown recorded',
      text: `tree 663
  height 60 ft
  crown from 15 ft, 40 ft wide
  age mature
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 3 in
  prescription R1 reduce
    dose 48 %
    stages 5
    for A

tree 664
  height 60 ft
  crown from 15 ft, 40 ft wide
  age mature
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 8 in
  prescription R1 reduce
    dose 12 %
    for A

tree 665
  age mature
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 3 in
  prescription R1 reduce
    dose 15 %
`,
    },
  ],
  check,
};
