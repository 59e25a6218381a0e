import { showCount } from '../../assess/days.ts';
import { showLimit } from '../../assess/judge.ts';
import { inspectionDue, lastLookAt, supportName, supportsInPlace } from '../../assess/supports.ts';
import { formatDate } from '../../base/dates.ts';
import { capital } from '../../base/words.ts';
import { hasDamage } from '../../facts/damage.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

function* check({ tree, settings, today }: TreeContext): Iterable<RuleReport> {
  for (const support of supportsInPlace(tree)) {
    if (hasDamage(tree, support)) continue;
    const due = inspectionDue(support, settings, today);
    if (due !== undefined && due >= today) continue;
    const last = lastLookAt(support, today);
    const limit = showLimit({ setting: settings.limit('support-inspection') });
    yield {
      at: spanOf(support.id),
      grade: 'stated',
      subject: support.id.value,
      message:
        due === undefined
          ? `${capital(supportName(support))} has no inspection and no installation date on record. It is to be inspected within ${limit}.`
          : `${capital(supportName(support))} was last inspected on ${formatDate(last!)}. The next inspection was due by ${formatDate(due)}, ${showCount(today - due)} ago, within ${limit}.`,
      remedy:
        'Have it inspected up close, with its terminations, bolts and the wood around them. Write inspected with the date, or removed if it is gone.',
    };
  }
}

export const supportInspectionOverdue: Rule = {
  name: 'support-inspection-overdue',
  group: 'follow-up',
  level: 'warning',
  summary: 'a cable, brace, prop or guy with an overdue inspection',
  sources: [cite('practice')],
  rests: 'safety',
  explanation:
    'A support wears, rusts and grows into the wood, and the tree outgrows it. A weak termination is visible only up close. Every installed cable, brace, prop and guy is to be inspected within the limit support-inspection, counted from its last inspection or its installation. Until then it does not count as support for the union it holds.',
  limitations: 'The results of the inspection. Supports of felled trees and supports that were removed.',
  acceptable: true,
  examples: [
    {
      title: 'Two years without a look; nothing on record',
      text: `tree 981
  stem East
  stem West
  support C1 cable #! stated
    holds East, West
    installed 2021-03-02
    inspected 2024-05-02
  support B1 brace #! stated
    holds East, West
`,
    },
    {
      title: 'Inspected this spring; new; removed',
      text: `tree 982
  stem East
  stem West
  support C1 cable
    holds East, West
    installed 2021-03-02
    inspected 2026-03-02
  support C2 cable
    holds East, West
    installed 2026-02-02
  support P1 prop
    holds East
    removed 2025-03-02 "the limb is gone"
`,
    },
  ],
  check,
};
