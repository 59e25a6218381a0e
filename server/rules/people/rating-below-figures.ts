import { ratedLikelihoods } from '../../assess/likelihood.ts';
import { RATING_CAUTION, riskName, riskSubject } from '../../assess/risks.ts';
import { capital } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { pointTo, type Rule, type RuleReport } from '../rule.ts';

/** Parts named besides the gravest. */
const OTHERS = 2;

function* check(context: TreeContext): Iterable<RuleReport> {
  for (const { risk, rated, range, parts, isLower } of ratedLikelihoods(context)) {
    if (!isLower || risk.because) continue;
    const [first, ...others] = parts.filter(part => part.range?.least === range!.least);
    yield {
      at: risk.failure!,
      grade: 'stated',
      subject: riskSubject(risk),
      message: `Likelihood of failure is rated ${rated} in ${riskName(risk)}. The record of ${first!.name} supports at least ${range!.least}: ${first!.because} (${cite('bmp-risk-2017').short}, related to the figures by judgment).`,
      remedy: `Have the rating person rate failure again, at least ${range!.least}, or state in "because" below it what contradicts the figures.`,
      related: others
        .slice(0, OTHERS)
        .flatMap(({ sign, because }) =>
          sign ? [pointTo(sign.at, `${capital(sign.name)}: ${because}.`)] : [],
        ),
    };
  }
}

export const ratingBelowFigures: Rule = {
  name: 'rating-below-figures',
  group: 'people',
  level: 'warning',
  summary: 'a likelihood of failure rated lower than the figures and the rating codes allow',
  sources: [cite('bmp-risk-2017'), cite('usda-hazard-codes'), cite('practice')],
  explanation:
    'Improbable, possible, probable and imminent state what weather brings a part down: none, extreme weather, normal weather, or no weather at all. Where the gust at which a part reaches its limit is known, it is compared with the gust of normal weather (the limit normal-gust) and with the design wind of the site. The hazard rating codes set a floor: moderate means at least possible, high probable, extremely high imminent. A moving part is imminent whatever its figures. The relation between figures, codes and these words is a judgment and gives no probability.\n\nA rating of a defect is compared with that defect, a rating of the whole tree with its worst part. A rating below everything that the figures allow is reported, unless "because" below it gives the reason. In that case both appear in the report. A higher rating is never reported.',
  limitations:
    'A part that has no figures or codes, or is not judged, neither lowers nor raises a rating. Likelihood of impact and consequences are for a person to rate. `soundwood weigh` and the report show the rating from the figures beside those a person gave.',
  appliesTo: ['risks'],
  acceptable: true,
  caution: RATING_CAUTION,
  examples: [
    {
      title: 'A canker on more than 40 % of the circumference: high by the codes, so probable at least',
      text: `tree 771 "Gate maple"
  inspection 2026-05-04 from ground
  defect A canker
    share 60 % of circumference
  target "Path"
    distance 8 ft
  risk "Path" from A
    failure possible #! stated
    impact medium
    consequences severe
`,
    },
    {
      title: 'The whole tree, whose lean is new: imminent',
      text: `tree 772
  lean 9 deg toward W, new
  target "Path"
    distance 8 ft
    closed 2026-05-04, by RV
  risk "Path"
    failure probable #! stated

person RV "Ruth Varga"
  qualified consulting arborist
`,
    },
    {
      title: 'A stem that comes to its limit in normal weather',
      text: `site "Gate"
  wind 92 mph, exposure C

tree 773
  species Acer rubrum
  height 60 ft
  crown from 15 ft, 44 ft wide
  dbh 16 in
  inspection 2026-05-04 from ground
  defect A cavity
    on trunk at 3 ft
    diameter 16 in
    bark 0.4 in
    wall 0.3 in
  target "Path"
    distance 8 ft
  risk "Path" from A
    failure improbable #! stated
`,
    },
    {
      title: 'Rated higher, rated as the codes say, and rated lower for a stated reason',
      text: `tree 774
  inspection 2026-05-04 from ground
  defect A canker
    share 60 % of circumference
  defect B wound
    share 35 % of circumference
  target "Path"
    distance 8 ft
  target "Shed"
    distance 20 ft
  risk "Path" from A
    failure probable
  risk "Path" from B
    failure imminent
  risk "Shed" from A
    failure possible
    because "leans away from the shed"
`,
    },
  ],
  check,
};
