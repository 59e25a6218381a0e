import { showCount } from '../../assess/days.ts';
import { defectName, lastLook, openDefects } from '../../assess/evidence.ts';
import { authority, showNumber } from '../../assess/judge.ts';
import { formatDate } from '../../base/dates.ts';
import { listed } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

function* check({ tree, settings, today }: TreeContext): Iterable<RuleReport> {
  if (tree.defects.length === 0) return;
  const defects = openDefects(tree);
  const last = defects.length > 0 ? lastLook(tree, today) : undefined;
  if (!last) return;
  const limit = settings.limit('inspection-interval');
  const age = today - last.day;
  if (age <= limit.value) return;
  yield {
    at: spanOf(last),
    grade: 'exceeds',
    level: 'warning',
    subject: formatDate(last.day),
    message: `The tree, with ${listed(defects.map(defectName))}, was last inspected on ${formatDate(last.day)}, ${showCount(age)} ago. The limit is ${showNumber(limit.value, limit, 1)} (${authority(limit)}).`,
    remedy:
      'Inspect it again and record what has changed. Close a defect that no longer matters, with the date.',
  };
}

export const reinspectionOverdue: Rule = {
  name: 'reinspection-overdue',
  group: 'follow-up',
  level: 'warning',
  summary: 'a tree with an open defect that is due for re-inspection',
  sources: [cite('practice')],
  explanation:
    'For trees with a defect that is neither closed nor healed, compares the age of the last inspection with the limit inspection-interval. A re-inspection or climbing inspection completed as a follow-up counts as an inspection. Other readings of a single defect do not replace an inspection of the whole tree.',
  limitations: 'Trees with no inspection on record, with no open defects, or felled.',
  appliesTo: ['defects'],
  acceptable: true,
  examples: [
    {
      title: 'Twenty months',
      text: `tree 329
  inspection 2024-09-12 from ground #! warning exceeds
  defect A dead wood
`,
    },
    {
      title: 'Eight months; re-inspected since; healed',
      text: `tree 330
  inspection 2025-09-30 from ground
  defect A dead wood

tree 331
  inspection 2024-09-12 from ground
  defect A crack
  follow-up F1 climbing inspection
    due 2025-10-01
    done 2025-09-18

tree 332
  inspection 2024-09-12 from ground
  defect A wound
    state healed
`,
    },
  ],
  check,
};
