import { defectName, lastLook, missedStorm, openDefects } from '../../assess/evidence.ts';
import { formatDate } from '../../base/dates.ts';
import { listed } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

function* check({ tree, site, today }: TreeContext): Iterable<RuleReport> {
  const latest = missedStorm(tree, site, today);
  if (!latest) return;
  const defects = openDefects(tree);
  const last = lastLook(tree, today)!;
  const day = formatDate(latest.date);
  yield {
    at: spanOf(last),
    grade: 'stated',
    subject: day,
    message: `The tree, with ${listed(defects.map(defectName))}, has not been inspected since the storm on ${day}${latest.text ? ` (${latest.text})` : ''} at ${site!.name.value}. The last inspection was on ${formatDate(last.day)}.`,
    remedy: 'Inspect the defect and the ground around the tree, and record the inspection.',
  };
}

export const inspectionBeforeStorm: Rule = {
  name: 'inspection-before-storm',
  group: 'evidence',
  level: 'warning',
  summary: 'a tree with a defect that has not been inspected since a storm',
  sources: [cite('practice')],
  explanation:
    'Compares the last inspection of each tree that has an active defect with the storms recorded for its site. A storm loads every weak point at once, so earlier readings no longer describe the tree. Only the latest storm is named.',
  limitations:
    'Sites with no recorded storms. Trees with no active defects, which the usual interval covers.',
  appliesTo: ['defects'],
  rests: 'safety',
  acceptable: true,
  examples: [
    {
      title: 'Inspected in the fall, a storm in January',
      text: `site "Fernhollow Court"
  storm 2026-01-18 "gusts to 61 mph"

tree 317
  inspection 2025-09-30 from ground #! stated
  defect A crack
`,
    },
    {
      title: 'Inspected since; no defect; a closed defect',
      text: `site "Fernhollow Court"
  storm 2026-01-18 "gusts to 61 mph"

tree 318
  inspection 2025-09-30 from ground
  defect A crack
  inspection 2026-01-20 from ground

tree 319
  inspection 2025-09-30 from ground

tree 320
  inspection 2025-09-30 from ground
  defect A hanger
    closed 2025-12-01
`,
    },
  ],
  check,
};
