import { unansweredRatings } from '../../assess/answering.ts';
import { openFollowUps } from '../../assess/evidence.ts';
import { RATING_CAUTION, ratingToActOn, riskName, riskSubject } from '../../assess/risks.ts';
import { formatDate } from '../../base/dates.ts';
import { cite } from '../../practice/citation.ts';
import { priorityFor } from '../../practice/risk.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

function* check({ tree }: TreeContext): Iterable<RuleReport> {
  if (tree.felled) return;
  for (const risk of unansweredRatings(tree)) {
    const rating = ratingToActOn(risk)!;
    const { defect, at, seen } = risk;
    // An advanced assessment is a response to a high risk, not to an extreme one.
    const isLookedInto =
      rating === 'high' &&
      openFollowUps(tree).some(
        ({ kind, of, due }) =>
          due !== undefined &&
          kind.value !== 're-inspection' &&
          (of.length === 0 || of.some(({ value }) => value === defect?.value)),
      );
    if (isLookedInto) continue;
    yield {
      at: spanOf(at),
      grade: 'stated',
      subject: riskSubject(risk),
      message: `${riskName(risk).replace(/^t/, 'T')} is ${rating}${seen === undefined ? '' : ` since ${formatDate(seen)}`}. Nothing is prescribed for it.`,
      remedy: `Prescribe work that lowers the risk, with ${priorityFor[rating]} priority and a work window. ${rating === 'extreme' ? 'Keep people out until it is done. ' : ''}Or rate the risk again after moving the target.`,
    };
  }
}

export const ratingUnanswered: Rule = {
  name: 'rating-unanswered',
  group: 'mitigation',
  level: 'error',
  summary: 'a risk rated high or extreme with nothing prescribed',
  sources: [cite('bmp-risk-2017'), cite('a300-9')],
  explanation:
    'Takes each risk as last assessed, by the worse of its stated rating and the rating its inputs give. A high or extreme risk requires work for its defect, or for no defect in particular. Keeping or monitoring the tree does not lower the risk. For a high risk, a Level 3 assessment with a due date also counts. The rule mitigation-late checks whether the work comes in time.',
  limitations: 'Risks rated low or moderate; trees that have been removed.',
  appliesTo: ['risks'],
  acceptable: true,
  caution: RATING_CAUTION,
  examples: [
    {
      title: 'Extreme, with nothing; high, only monitored; high by its inputs',
      text: `tree 51
  target "School door"
    distance 20 ft
  risk "School door" #! stated
    rating extreme

tree 52
  target "Path"
    distance 6 ft
  risk "Path" #! stated
    rating high
  prescription R1 watch
    between 2026-09-01..2026-09-30

tree 53
  inspection 2026-05-04 from ground
  defect A crack
  defect B wound
  target "Path"
    distance 6 ft
  risk "Path" from A #! stated
    failure probable
    impact high
    consequences severe
  prescription R1 clean
    for B
`,
    },
    {
      title: 'Addressed; moderate; sonic tomography with a date; superseded by a later rating',
      text: `tree 54
  target "Path"
    distance 6 ft
  risk "Path"
    rating extreme
  prescription R1 fell
    between 2026-06-01..2026-06-02

tree 55
  target "Path"
    distance 6 ft
  risk "Path"
    rating moderate

tree 56
  target "Path"
    distance 6 ft
  risk "Path"
    rating high
  follow-up F1 tomogram
    due 2026-06-20

tree 57
  target "Path"
    distance 6 ft
  inspection 2026-03-01 from ground
  risk "Path"
    rating high
  inspection 2026-05-01 from ground
  risk "Path"
    rating low
`,
    },
  ],
  check,
};
