import { RATING_CAUTION, ratingGiven, riskName, riskSubject } from '../../assess/risks.ts';
import { capital, listed } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import { riskSource } from '../../practice/risk.ts';
import type { TreeContext } from '../context.ts';
import { plan, type Rule, type RuleReport } from '../rule.ts';

const FIELDS = ['failure', 'impact', 'consequences', 'rating'] as const;

function* check({ tree }: TreeContext): Iterable<RuleReport> {
  if (tree.felled) return;
  for (const risk of tree.risks) {
    const missing = FIELDS.filter(field => risk[field] === undefined);
    if (missing.length === 0) continue;
    const given = ratingGiven(risk);
    yield {
      at: risk.at,
      grade: 'stated',
      subject: riskSubject(risk),
      message: `${capital(riskName(risk))} does not state its ${listed(missing)}. A rating is derived from failure, impact and consequences (${riskSource.citation.short}).`,
      remedy: given
        ? `Add rating ${given}, which follows from the three inputs.`
        : `Add ${listed(missing)}, or remove the risk until it is assessed.`,
      advice: given ? [plan(risk.at, `rating ${given}`)] : [],
    };
  }
}

export const ratingIncomplete: Rule = {
  name: 'rating-incomplete',
  group: 'people',
  level: 'warning',
  summary: 'a risk with no failure, impact, consequences or rating',
  sources: [cite('bmp-risk-2017'), cite('a300-9')],
  explanation:
    'Checks every risk of a standing tree and names what is missing among failure, impact, consequences and rating. A rating without its inputs cannot be verified. Where all three inputs are present, the remedy gives the rating they lead to.',
  limitations: 'Ratings by another method with other inputs: record an exception and name the method.',
  appliesTo: ['risks'],
  acceptable: true,
  caution: RATING_CAUTION,
  examples: [
    {
      title: 'Two inputs missing; a rating missing',
      text: `tree 31 "Court plane"
  target "Bicycle stand"
    distance 8 ft
    occupied frequent
  risk "Bicycle stand" #! stated
    failure probable
    rating moderate
  risk "Bicycle stand" from A #! stated
    failure probable
    impact high
    consequences minor
  defect A crack
    length 30 in
`,
    },
    {
      title: 'Complete; and a tree that has been removed',
      text: `tree 31 "Court plane"
  target "Bicycle stand"
    distance 8 ft
    occupied frequent
  risk "Bicycle stand"
    failure possible
    impact low
    consequences minor
    rating low

tree 32
  felled 2026-01-20
  risk "Bicycle stand"
    failure probable
`,
    },
  ],
  check,
};
