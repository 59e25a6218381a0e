import { showLimit, showValue } from '../../assess/judge.ts';
import { inclinationOf, pullName } from '../../assess/pull-readings.ts';
import { formatDate } from '../../base/dates.ts';
import { capital } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { beyondLimit } from '../limit-report.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  if (tree.felled) return;
  for (const test of tree.pullTests) {
    const inclination = inclinationOf(test, settings);
    const judged = inclination && beyondLimit(inclination, 'pull-inclination', settings);
    if (!judged) continue;
    const sure = judged.standing === 'exceeds';
    yield {
      at: spanOf(test.inclinations[0]!),
      grade: judged.standing,
      level: 'warning',
      subject: formatDate(test.date.value),
      message: `${capital(pullName(test))} inclined the root plate by ${showValue(judged)}, which ${judged.standing} ${showLimit(judged)}. Roots may have been torn.`,
      remedy: sure
        ? 'Keep people out until the root collar has been inspected. Stop at the limit in the next test.'
        : 'Take the inclination from the instrument’s log.',
    };
  }
}

export const pullTestInclination: Rule = {
  name: 'pull-test-inclination',
  group: 'structure',
  level: 'warning',
  summary: 'a pull test that inclined the root plate beyond the harmless range',
  sources: [cite('detter-2023'), cite('wessolly-erb-1998')],
  explanation:
    'Compares the larger of the inclinations read on the sides of the stem base with the limit pull-inclination. Up to that limit a root plate returns undamaged. Beyond it the test may do harm, and its result cannot be extrapolated to the anchorage, so it supports no verdict.',
  limitations: 'Tests without inclinations on two sides; trees that have been felled.',
  acceptable: true,
  appliesTo: ['pull tests'],
  examples: [
    {
      title: 'Pulled too far, and perhaps too far',
      text: `tree 741
  dbh 24 in
  pull test 2026-05-12 toward NE
    force 2700 lbf
    inclination 0.31 deg, 0.2 deg #! warning exceeds

tree 742
  dbh 24 in
  pull test 2026-05-12 toward NE
    inclination ~0.24 deg, 0.2 deg #! may exceed
`,
    },
    {
      title: 'At the limit; read on one side only',
      text: `tree 743
  dbh 24 in
  pull test 2026-05-12
    inclination 0.25 deg, 0.2 deg

tree 744
  dbh 24 in
  pull test 2026-05-12
    inclination 0.31 deg
`,
    },
  ],
  check,
};
