import { showCount, showDays } from '../../assess/days.ts';
import { currentJobs } from '../../assess/jobs.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { stagesLeft, stagesOf } from '../../facts/stages.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { pointTo, type Rule, type RuleReport, spanOf } from '../rule.ts';

function* check({ tree, settings, today }: TreeContext): Iterable<RuleReport> {
  if (tree.works.length === 0) return;
  const season = settings.limit('stage-interval').value;
  for (const { prescription, work, subject } of currentJobs(tree, today)) {
    const { between } = prescription;
    if (!work || !between) continue;
    const day = work.date.value;
    // The window may be that of the next stage.
    const isEarlierStage =
      stagesOf(prescription) > 1 && (stagesLeft(tree, prescription) > 0 || between.from - day > season / 2);
    const early = isEarlierStage ? 0 : between.from - day;
    // The window is that of the first stage.
    const late = stagesOf(prescription) > 1 ? 0 : day - between.to;
    if (early <= 0 && late <= 0) continue;
    yield {
      at: spanOf(work.date),
      grade: 'stated',
      subject,
      message: `The work on ${formatDate(day)} was done ${showCount(Math.max(early, late))} ${early > 0 ? 'before' : 'after'} the work window ${showDays(between)} of ${jobName(prescription)}.`,
      remedy:
        'Check the date. If it is right, record in a note who moved the work, and whether season, permit and checks were reviewed for that date.',
      related: [pointTo(between, 'The work window')],
    };
  }
}

export const workOutsideWindow: Rule = {
  name: 'work-outside-window',
  group: 'records',
  level: 'warning',
  summary: 'work on a day outside the work window of its prescription',
  sources: [cite('practice')],
  explanation:
    'Compares the dates of work from the last year with the work window of its prescription. The work window was chosen for seasons, permits, de-energized lines and checks. On any other day, none of them is certain to be valid.',
  limitations: 'Later stages of work in stages. Prescriptions with no work window.',
  appliesTo: ['works'],
  acceptable: true,
  examples: [
    {
      title: 'A month late, a week early',
      text: `tree 425
  prescription R1 thin
    dose 10 %
    between 2026-01-12..2026-02-13
  work R1 2026-03-13 #! stated

tree 426
  prescription R1 thin
    dose 10 %
    between 2026-01-12..2026-02-13
  work R1 2026-01-05 #! stated
`,
    },
    {
      title: 'On its last day; a second stage; no window',
      text: `tree 427
  prescription R1 thin
    dose 10 %
    between 2026-01-12..2026-02-13
  work R1 2026-02-13

tree 428
  prescription R1 reduce
    dose 20 %
    stages 2
    between 2025-01-12..2025-02-13
  work R1 2025-02-10
  work R1 2026-02-10

tree 429
  prescription R1 thin
    dose 10 %
  work R1 2026-02-13
`,
    },
  ],
  check,
};
