import { showLimit } from '../../assess/judge.ts';
import { installedOn, serviceEnd, supportName, supportsInPlace } from '../../assess/supports.ts';
import { formatDate } from '../../base/dates.ts';
import { capital } from '../../base/words.ts';
import { hasDamage } from '../../facts/damage.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

function* check({ tree, settings, today }: TreeContext): Iterable<RuleReport> {
  for (const support of supportsInPlace(tree)) {
    const end = serviceEnd(support, settings);
    if (end === undefined || end >= today || hasDamage(tree, support)) continue;
    yield {
      at: spanOf(installedOn(support)!),
      grade: 'stated',
      subject: support.id.value,
      message: `${capital(supportName(support))} was installed on ${formatDate(installedOn(support)!.value)}. Its service life ended on ${formatDate(end)}, after ${showLimit({ setting: settings.limit('support-life') })}.`,
      remedy:
        'Replace it and write removed with the date. Or have a qualified person state why it may stay, and record an exception with an end date.',
    };
  }
}

export const supportLifePassed: Rule = {
  name: 'support-life-passed',
  group: 'follow-up',
  level: 'warning',
  summary: 'a cable, brace, prop or guy past its service life',
  sources: [cite('ztv-baumpflege')],
  rests: 'safety',
  explanation:
    'Compares the age of every installed support with the limit support-life. A system has to serve for at least eight years (from memory). After that its strength is not assured. If the manufacturer of steel parts states more, set it as a limit of the practice, or record an exception with an end date. A support past its service life does not count as support.',
  limitations: 'Supports with no installation date on record: see support-inspection-overdue.',
  acceptable: true,
  examples: [
    {
      title: 'Eleven years old',
      text: `tree 983
  stem East
  stem West
  support C1 cable
    holds East, West
    installed 2015-03-02 #! stated
    inspected 2026-05-02
`,
    },
    {
      title: 'Five years old; replaced',
      text: `tree 984
  stem East
  stem West
  support C1 cable
    holds East, West
    installed 2021-03-02
    inspected 2026-05-02
  support C2 cable
    holds East, West
    installed 2012-03-02
    removed 2021-03-02 "replaced by C1"
`,
    },
  ],
  check,
};
