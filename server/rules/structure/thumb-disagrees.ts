/** A rule of thumb and the section on different sides of the limit. */

import { hollowDefects } from '../../assess/hollows.ts';
import { type Judged, judge, showLimit, showValue } from '../../assess/judge.ts';
import { SECTION_CAUTION } from '../../assess/section-words.ts';
import { type DefectStrength, strengthOf } from '../../assess/strength.ts';
import { showHollow } from '../../assess/thumb-words.ts';
import type { Settings } from '../../facts/settings.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

interface Verdict {
  readonly name: string;
  readonly judged: Judged;
}

/** The rules of thumb that stand against a limit, with what they say. */
function verdictsOf({ hollow: { thumbs } }: DefectStrength, settings: Settings): readonly Verdict[] {
  const { cubic, withOpening, wallRatio, diameterRatio } = thumbs;
  // Without an opening both losses are the same figure.
  const isOpen = withOpening.value.high > cubic.value.high && diameterRatio.high > 0;
  return [
    { name: 'd³/D³', judged: judge(cubic.value, 'strength-loss', settings) },
    ...(isOpen
      ? [{ name: 'the rule with the opening', judged: judge(withOpening.value, 'strength-loss', settings) }]
      : []),
    ...(wallRatio.applies ? [{ name: 't/R', judged: judge(wallRatio.value, 'wall-ratio', settings) }] : []),
  ];
}

const list = (verdicts: readonly Verdict[]): string =>
  verdicts.map(({ name, judged }) => `${name} ${showValue(judged)}`).join(', ');

function* check({ tree, settings }: TreeContext): Iterable<Report> {
  if (hollowDefects(tree).length === 0) return;
  for (const defect of strengthOf(tree, settings).defects) {
    const section = judge(defect.figures.strengthLoss, 'strength-loss', settings);
    if (section.standing === 'may exceed') continue;
    const others = verdictsOf(defect, settings).filter(
      ({ judged: { standing } }) => standing !== 'may exceed' && standing !== section.standing,
    );
    if (others.length === 0) continue;
    const isWorse = section.standing === 'exceeds';
    const { defect: fact } = defect.hollow;
    yield {
      at: fact.at,
      grade: 'stated',
      subject: fact.id.value,
      message: `${showHollow(defect.hollow)}: by its section ${showValue(section)} of the strength is gone, which ${isWorse ? 'exceeds' : 'keeps within'} ${showLimit(section)}; ${list(others)} ${isWorse ? 'would keep within it' : 'would exceed it'}.`,
      remedy: isWorse
        ? 'Go by the section: the rules of thumb see neither a void off center nor which way the opening faces.'
        : 'Do not condemn it by the rule of thumb alone: see that the readings behind the section are good.',
    };
  }
}

export const thumbDisagrees: Rule = {
  name: 'thumb-disagrees',
  group: 'structure',
  level: 'note',
  summary: 'a rule of thumb and the section stand on different sides of the limit',
  sources: [cite('kane-ryan-2004'), cite('smiley-fraedrich-1992'), cite('mattheck-breloer-1994')],
  explanation:
    'Compares, for each hollow of which a section can be drawn, the strength loss by section with d³/D³ and the rule with the opening, all three against the limit strength-loss, and with t/R against wall-ratio. Where the section surely keeps to the limit and a rule of thumb surely does not, or the other way round, both are named. The rules of thumb hold for one round hollow in the middle; measured sections of decayed trees were told wrongly by each of them.',
  whenNot: 'Figures that straddle a limit: nobody knows yet whether they disagree.',
  looksAt: ['defects'],
  rests: 'practice',
  acceptable: true,
  caution: SECTION_CAUTION,
  examples: [
    {
      title: 'A void far off center: the section has lost more than the mean wall tells',
      text: `tree 611
  inspection 2026-05-04 from ground
  defect A decay #! note stated
    diameter 40 in
    wall 1 in at N, 6 in at E, 13 in at S, 6 in at W
`,
    },
    {
      title: 'A closed ring between the third and the fourth power',
      text: `tree 612
  inspection 2026-05-04 from ground
  defect A decay #! note stated
    diameter 30 in
    wall 4 in
`,
    },
    {
      title: 'Agreed: sound enough, and too thin',
      text: `tree 613
  inspection 2026-05-04 from ground
  defect A decay
    diameter 30 in
    wall 6 in
  defect B decay
    diameter 30 in
    wall 2 in
`,
    },
  ],
  check,
};
