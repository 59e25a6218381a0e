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
      message: `Failure is rated ${rated} in ${riskName(risk)}, but what is on record of ${first!.name} makes it ${range!.least} at least: ${first!.because} (${cite('bmp-risk-2017').short}, related to the figures by judgment).`,
      remedy: `Have the person who rated it rate failure again, ${range!.least} at least, or say in "because" below it what speaks against the figures.`,
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
  explanation: `Improbable, possible, probable and imminent are words for what weather brings a part down: none, extreme weather, normal weather, none that it would take. Where the gust at which a part comes to its limit is known, it is held against the gust of normal weather (the limit normal-gust) and the design wind of the site. What the hazard rating codes say is a floor: moderate is possible at least, high probable, extremely high imminent. A part that is moving is imminent whatever its figures. How figures and codes relate to the words is a judgment; no probability comes out of it.

A rating of a defect is held against that defect, a rating of the whole tree against its worst part. Reported is a rating below everything that the figures allow, unless "because" below it gives the reason; then both stand in the report. A rating that is higher is never reported.`,
  limitations:
    'A part without figures and codes, or not judged, lowers no rating and raises none. Likelihood of impact and consequences are in no figure and for a person; `soundwood weigh` and the report tell the rating that the figures lead to with those that a person rated.',
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
