/** A follow-up whose day has passed. */

import { showCount } from '../../assess/days.ts';
import { openFollowUps } from '../../assess/evidence.ts';
import { formatDate } from '../../base/dates.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

function* check({ tree, today }: TreeContext): Iterable<RuleReport> {
  if (tree.followUps.length === 0) return;
  for (const { id, kind, of, due, by } of openFollowUps(tree)) {
    if (!due || due.value >= today) continue;
    const what = of.length > 0 ? ` of ${of.map(({ value }) => value).join(', ')}` : '';
    yield {
      at: spanOf(due),
      grade: 'stated',
      subject: id.value,
      message: `The ${kind.value} ${id.value}${what} was due on ${formatDate(due.value)}, ${showCount(today - due.value)} ago, and is not done (${cite('practice').short}).`,
      remedy: `Do it${by ? ` (${by.value})` : ''} and add done with its day, or set a new day and say why.`,
    };
  }
}

export const followUpOverdue: Rule = {
  name: 'follow-up-overdue',
  group: 'follow-up',
  level: 'warning',
  summary: 'a follow-up whose day has passed',
  sources: [cite('practice')],
  explanation:
    'A follow-up says that a decision waits for more evidence. Its day is past and no day of doing it is written down: whatever rests on it rests on less than was thought necessary.',
  limitations: 'Felled trees. What was overtaken by other work is taken out of the record, or marked done.',
  appliesTo: ['follow-ups'],
  acceptable: true,
  examples: [
    {
      title: 'Two months late',
      text: `tree 321
  inspection 2025-10-04 from ground
  defect A dead wood
  follow-up F1 climbing inspection
    of A
    due 2026-03-31 #! stated
    by JM
`,
    },
    {
      title: 'Due today, done, without a day',
      text: `tree 322
  inspection 2025-10-04 from ground
  follow-up F1 re-inspection
    due 2026-06-01
  follow-up F2 probe
    due 2026-03-31
    done 2026-04-02
  follow-up F3 tomogram
`,
    },
  ],
  check,
};
