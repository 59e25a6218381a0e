import { showCount, showDays } from '../../assess/days.ts';
import { jobName, openWork } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

function* check({ tree, today }: TreeContext): Iterable<RuleReport> {
  if (!tree.prescriptions.some(({ between }) => between && between.to < today)) return;
  for (const prescription of openWork(tree)) {
    const { between, id, priority } = prescription;
    if (!between || between.to >= today) continue;
    const works = tree.works.filter(work => work.prescription.value === id.value);
    // Work in stages continues in later years.
    if (works.some(({ unfinished }) => !unfinished)) continue;
    yield {
      at: spanOf(between),
      grade: 'stated',
      subject: id.value,
      message: `The work window ${showDays(between)} of ${jobName(prescription)}${priority ? `, priority ${priority.value},` : ''} ended ${showCount(today - between.to)} ago. ${works.length > 0 ? `The work on record is unfinished: ${works.at(-1)!.unfinished!.value}` : 'No work is on record'}.`,
      remedy: `Record the work if it was done by ${formatDate(between.to)}. Otherwise set a new work window in a prescription that replaces ${id.value}, or withdraw it.`,
    };
  }
}

export const windowPassed: Rule = {
  name: 'window-passed',
  group: 'records',
  level: 'warning',
  summary: 'a prescription whose work window has passed with no work on record',
  sources: [cite('practice')],
  explanation:
    'Checks open prescriptions that send a crew to the tree and whose last day has passed. Either the work was done and not recorded, or the tree is still waiting for it. The record cannot show which.',
  limitations:
    'Prescriptions to keep or watch. Work in stages that has started. Withdrawn or replaced prescriptions.',
  appliesTo: ['prescriptions'],
  acceptable: true,
  examples: [
    {
      title: 'Last winter',
      text: `tree 437
  prescription R1 thin
    dose 10 %
    between 2026-01-12..2026-02-13 #! stated
    priority high
`,
    },
    {
      title: 'Done, replaced, still in progress',
      text: `tree 438
  prescription R1 thin
    between 2026-01-12..2026-02-13
  work R1 2026-02-10

tree 439
  prescription R1 thin
    between 2025-01-12..2025-02-13
  prescription R2 thin
    replaces R1
    between 2026-05-12..2026-06-01
`,
    },
  ],
  check,
};
