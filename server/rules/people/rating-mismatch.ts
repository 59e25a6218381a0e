import { RATING_CAUTION, ratingInputs, riskName, riskSubject, statedRating } from '../../assess/risks.ts';
import { capital } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import { likelihood, riskRating, riskSource, worseRating } from '../../practice/risk.ts';
import type { TreeContext } from '../context.ts';
import { pointTo, type Rule, type RuleReport } from '../rule.ts';

function* check({ tree }: TreeContext): Iterable<RuleReport> {
  for (const risk of tree.risks) {
    const stated = statedRating(risk);
    const inputs = ratingInputs(risk);
    if (!stated || !inputs) continue;
    const { failure, impact, consequences } = inputs;
    const given = riskRating(failure, impact, consequences);
    if (given === stated) continue;
    const both = likelihood(failure, impact);
    const isGraver = worseRating(stated, given) === given;
    yield {
      at: risk.rating!,
      grade: 'stated',
      subject: riskSubject(risk),
      message: `The rating of ${riskName(risk)} is ${stated}, but its inputs give ${given}. ${capital(failure)} failure and ${impact} likelihood of impact give the likelihood ${both}; with ${consequences} consequences that gives ${given} (${riskSource.citation.short}).`,
      // Only the assessor may lower a rating.
      ...(isGraver ? { fix: given } : {}),
      remedy: isGraver
        ? `Write rating ${given}, or correct the failure, impact or consequences.`
        : `Correct the failure, impact or consequences. Write rating ${given} only where they are right.`,
      related: [pointTo(risk.at, `Inputs of ${riskName(risk)}`)],
    };
  }
}

export const ratingMismatch: Rule = {
  name: 'rating-mismatch',
  group: 'people',
  level: 'error',
  summary: 'a risk rating that does not follow from its failure, impact and consequences',
  sources: [cite('bmp-risk-2017'), cite('a300-9')],
  explanation:
    'Checks every risk that states failure, impact, consequences and rating. The first matrix combines failure and impact into one likelihood. The second combines that likelihood and the consequences into the rating. A difference is reported in either direction: too low a rating hides a danger, and too high a rating costs a tree.\n\nThe cells of the second matrix are from memory.',
  limitations:
    'Ratings by another method with other terms: leave the three inputs out and name the method in a note.',
  appliesTo: ['risks'],
  acceptable: true,
  caution: RATING_CAUTION,
  examples: [
    {
      title: 'Probable failure and high likelihood of impact, severe consequences: high, not moderate',
      text: `tree 31 "Court plane"
  defect A crack
    length 30 in
  target "Bicycle stand"
    distance 8 ft
    occupied frequent
  risk "Bicycle stand" from A
    failure probable
    impact high
    consequences severe
    rating moderate #! stated
`,
    },
    {
      title: 'Rated higher than the inputs give',
      text: `tree 31 "Court plane"
  target "Bicycle stand"
    distance 8 ft
    occupied rare
  risk "Bicycle stand"
    failure possible
    impact low
    consequences significant
    rating high #! stated
`,
    },
    {
      title: 'Two ratings that match, and one with an input missing',
      text: `tree 32 "Laundry oak"
  target "Path"
    distance 8 ft
    occupied occasional
  target "Shed"
    distance 12 ft
    occupied rare
  risk "Path"
    failure imminent
    impact high
    consequences severe
    rating extreme
  risk "Shed"
    failure probable
    impact medium
    consequences severe
    rating moderate
  risk "Shed"
    failure probable
    rating low
`,
    },
  ],
  check,
};
