import { formatDate } from '../../base/dates.ts';
import { type AcceptContext, type AcceptUse, NOTHING, pointTo, type Rule, type RuleReport } from '../rule.ts';

function* checkAccepts(uses: readonly AcceptUse[], { today }: AcceptContext): Iterable<RuleReport> {
  for (const { accept, matches } of uses) {
    const { rule, until } = accept;
    if (until === undefined || today <= until.value) continue;
    yield {
      at: accept.at,
      grade: 'stated',
      subject: rule.value,
      message: `The exception to ${rule.value} ended on ${formatDate(until.value)}.`,
      remedy:
        matches > 0
          ? 'Correct what the rule reports, or decide again: a new last day, person and reason.'
          : 'Remove it: the rule has nothing to report here.',
      related: [pointTo(until, 'Its last day.')],
    };
  }
}

export const acceptExpired: Rule = {
  name: 'accept-expired',
  group: 'records',
  level: 'warning',
  summary: 'an exception past its last day',
  sources: [],
  explanation:
    'An exception ends after the last day it names, which is still included. From the next day, what it covered is reported again, and so is the exception itself until it is removed or renewed.',
  limitations: 'There are no exceptions. The history of the file keeps old exceptions.',
  appliesTo: [],
  acceptable: false,
  examples: [
    {
      title: 'The last day, and the day before it',
      text: `person RV "Ruth Varga"

tree 14
  accept reinspection-overdue #! stated
    until 2026-05-31
    by RV
    because "scaffold goes up in May; climbing inspection then"

tree 15
  accept reinspection-overdue
    until 2026-06-01
    by RV
    because "scaffold goes up in May; climbing inspection then"
`,
    },
  ],
  check: () => NOTHING,
  checkAccepts,
};
