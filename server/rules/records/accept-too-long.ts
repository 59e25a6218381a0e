/** An exception that lasts longer than exceptions are given for. */

import { authority, showNumber } from '../../assess/judge.ts';
import { formatDate } from '../../base/dates.ts';
import { cite } from '../../practice/citation.ts';
import { type AcceptContext, type AcceptUse, NOTHING, type Rule, type RuleReport } from '../rule.ts';

function* checkAccepts(uses: readonly AcceptUse[], { settings, today }: AcceptContext): Iterable<RuleReport> {
  const limit = settings.limit('acceptance-length');
  const last = today + Math.floor(limit.value);
  for (const { accept, rule } of uses) {
    const { until } = accept;
    if (!rule?.acceptable || until === undefined || until.value <= last) continue;
    yield {
      at: { start: until.start, end: until.end },
      grade: 'exceeds',
      subject: accept.rule.value,
      message: `The exception to ${accept.rule.value} lasts until ${formatDate(until.value)}; an exception is given for ${showNumber(limit.value, limit, 1)} at most (${authority(limit)}).`,
      remedy: `Set its last day to ${formatDate(last)} or before, and decide anew then.`,
      mend: formatDate(last),
    };
  }
}

export const acceptTooLong: Rule = {
  name: 'accept-too-long',
  group: 'records',
  level: 'error',
  summary: 'an exception that lasts longer than exceptions are given for',
  sources: [cite('practice')],
  explanation: `Trees and what stands beneath them change. An exception is decided for a time, and then by somebody anew: its last day lies within the limit acceptance-length from today. A longer one hides the finding from whoever comes after.`,
  limitations: 'Never: an exception that is still right is decided anew.',
  appliesTo: [],
  acceptable: false,
  rests: 'safety',
  examples: [
    {
      title: 'For good, and for two years',
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
