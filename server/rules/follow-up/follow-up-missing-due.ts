import { openFollowUps } from '../../assess/evidence.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check({ tree }: TreeContext): Iterable<RuleReport> {
  if (tree.followUps.length === 0) return;
  for (const { id, kind, due, at } of openFollowUps(tree)) {
    if (due) continue;
    yield {
      at,
      grade: 'stated',
      subject: id.value,
      message: `Follow-up ${id.value} (${kind.value}) has no due date.`,
      remedy: 'Add due with a date, and by with the person responsible.',
    };
  }
}

export const followUpMissingDue: Rule = {
  name: 'follow-up-missing-due',
  group: 'follow-up',
  level: 'note',
  summary: 'a follow-up with no due date',
  sources: [cite('practice')],
  explanation: 'A follow-up without a due date appears in no calendar and is never overdue.',
  limitations: 'Completed follow-ups; felled trees.',
  appliesTo: ['follow-ups'],
  acceptable: true,
  examples: [
    {
      title: 'No date',
      text: `tree 323
  follow-up F1 tomogram #! stated
`,
    },
    {
      title: 'Due, and done',
      text: `tree 324
  follow-up F1 tomogram
    due 2026-09-01
  follow-up F2 probe
    done 2026-05-02

tree 325
  felled 2026-02-02
  follow-up F1 probe
`,
    },
  ],
  check,
};
