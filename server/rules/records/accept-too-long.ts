import { authority, showNumber } from '../../assess/judge.ts';
import { formatDate } from '../../base/dates.ts';
import { cite } from '../../practice/citation.ts';
import { type AcceptContext, type AcceptUse, NOTHING, type Rule, type RuleReport, spanOf } from '../rule.ts';

function* checkAccepts(uses: readonly AcceptUse[], { settings, today }: AcceptContext): Iterable<RuleReport> {
  const limit = settings.limit('acceptance-length');
  const last = today + Math.floor(limit.value);
  for (const { accept, rule } of uses) {
    const { until } = accept;
    if (!rule?.acceptable || until === undefined || until.value <= last) continue;
    yield {
      at: spanOf(until),
      grade: 'exceeds',
      subject: accept.rule.value,
      message: `The exception to ${accept.rule.value} lasts until ${formatDate(until.value)}. The longest exception allowed is ${showNumber(limit.value, limit, 1)} (${authority(limit)}).`,
      remedy: `Set its last day to ${formatDate(last)} or earlier, and decide again then.`,
      fix: formatDate(last),
    };
  }
}

export const acceptTooLong: Rule = {
  name: 'accept-too-long',
  group: 'records',
  level: 'error',
  summary: 'an exception that lasts longer than allowed',
  sources: [cite('practice')],
  explanation:
    'Trees and their targets change. An exception is granted for a limited time and then decided again: its last day is within the limit acceptance-length from today. A longer one hides the finding from later readers.',
  limitations: 'There are no exceptions. Renew an exception that is still right.',
  appliesTo: [],
  acceptable: false,
  rests: 'safety',
  examples: [
    {
      title: 'Indefinitely, and for two years',
      text: `person RV "Ruth Varga"

tree 14
  accept reinspection-overdue
    until 2099-12-31 #! exceeds
    by RV
    because "it always stood like this"

tree 15
  accept reinspection-overdue
    until 2028-05-31
    by RV
    because "scaffold goes up in spring two years from now"
`,
    },
  ],
  check: () => NOTHING,
  checkAccepts,
};
