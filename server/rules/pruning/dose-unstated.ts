import { doseOf, isDead, takesFoliage } from '../../assess/doses.ts';
import { currentJobs } from '../../assess/jobs.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { capital } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check({ tree, settings, today }: TreeContext): Iterable<RuleReport> {
  if (isDead(tree)) return;
  for (const job of currentJobs(tree, today)) {
    const { prescription, work, subject } = job;
    // Parts removed by name state the amount themselves.
    if (!takesFoliage(prescription) || prescription.remove.length > 0) continue;
    const dose = doseOf(tree, job, settings);
    if (dose && dose.written?.value.form !== 'unseen') continue;
    const sized = prescription.height ?? prescription.spread ?? prescription.base;
    yield {
      at: work?.at ?? prescription.at,
      grade: 'stated',
      subject,
      message: `${work ? `The work on ${subject}` : capital(jobName(prescription))} gives no dose${sized ? `, and its dimensions give none without ${MISSING}` : ', height or spread'}. No limit can be checked.`,
      remedy: work
        ? 'Record the dose: the share of the live foliage that was removed.'
        : `State the dose, the share of the live foliage to be removed${sized ? `; or record ${MISSING}` : (SIZES[prescription.kind.value] ?? '')}.`,
    };
  }
}

const MISSING = 'the height of the tree and its crown';
/** Thinning is missing here: it does not change the outline of the crown. */
const SIZES: Readonly<Record<string, string>> = {
  reduce: '; or the height and spread before and after',
  restore: '; or the height and spread before and after',
  raise: '; or the base of the crown before and after',
};

export const doseUnstated: Rule = {
  name: 'dose-unstated',
  group: 'pruning',
  level: 'error',
  summary: 'work on live foliage with no amount stated',
  sources: [cite('a300-1-2008'), cite('bs-3998-2010')],
  explanation:
    'Checks open prescriptions that reduce, thin, raise or restore, and such work from the last year. Without a dose, or a new size for a crown on record, the crew has to guess and no dose limit can be checked. An unstated dose is treated as seriously as one that is too high.',
  limitations: 'Cleaning. Parts removed by name. Dead trees.',
  appliesTo: ['prescriptions'],
  acceptable: true,
  examples: [
    {
      title: 'No amount stated',
      text: `tree 61
  prescription R1 reduce #! stated
    between 2026-09-15..2026-11-30
    because "too big"
`,
    },
    {
      title: 'Work without a recorded dose; a new height on a tree with no crown recorded',
      text: `tree 63
  prescription R1 thin
  work R1 2026-02-03 #! stated

tree 64
  prescription R1 reduce #! stated
    height 52 ft to 46 ft
`,
    },
    {
      title: 'By dose, by size, by parts removed; cleaning',
      text: `tree 62
  height 52 ft
  crown from 14 ft, 40 ft wide
  limb L2
    from 20 ft
  prescription R1 thin
    dose 10 %
  prescription R2 reduce
    height 52 ft to 46 ft
  prescription R3 clean
  prescription R4 raise
    remove L2
  prescription R5 thin
    dose 10 %
  work R5 2026-02-03
`,
    },
  ],
  check,
};
