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
      message: `Follow-up ${id.value} (${kind.value}${what}) was due on ${formatDate(due.value)}, ${showCount(today - due.value)} ago, and is outstanding.`,
      remedy: `Complete it${by ? ` (${by.value})` : ''} and add done with the date. Or set a new due date and note the reason.`,
    };
  }
}

export const followUpOverdue: Rule = {
  name: 'follow-up-overdue',
  group: 'follow-up',
  level: 'warning',
  summary: 'an overdue follow-up',
  sources: [cite('practice')],
  explanation:
    'A follow-up means that a decision is waiting for more evidence. Once its due date has passed without a completion date, that decision rests on less evidence than was thought necessary.',
  limitations: 'Felled trees. If other work has made a follow-up unnecessary, remove it or mark it done.',
  appliesTo: ['follow-ups'],
  acceptable: true,
  examples: [
    {
      title: 'Two months overdue',
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
      title: 'Due today, done, no due date',
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
