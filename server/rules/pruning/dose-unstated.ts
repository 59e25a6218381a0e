/** Work that takes living foliage, and nothing on record tells how much. */

import { doseOf, isDead, takesFoliage } from '../../assess/doses.ts';
import { currentJobs } from '../../assess/jobs.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check({ tree, settings, today }: TreeContext): Iterable<RuleReport> {
  if (isDead(tree)) return;
  for (const job of currentJobs(tree, today)) {
    const { prescription, work, subject } = job;
    // What is taken off by name is told by that.
    if (!takesFoliage(prescription) || prescription.remove.length > 0) continue;
    const dose = doseOf(tree, job, settings);
    if (dose && dose.written?.value.form !== 'unseen') continue;
    const sized = prescription.height ?? prescription.spread ?? prescription.base;
    yield {
      at: work?.at ?? prescription.at,
      grade: 'stated',
      subject,
      message: `${work ? `Of the work on ${subject}` : `Of ${jobName(prescription)}`} nothing tells how much living foliage it takes${sized ? `: the change of the crown does not, without ${MISSING}` : ''}, so no limit can be held against it (${cite('a300-1-2008').short}).`,
      remedy: work
        ? 'Record the dose, the share of the living foliage that was taken.'
        : `State the dose, the share of the living foliage that is taken${sized ? `; or write ${MISSING}` : (SIZES[prescription.kind.value] ?? '')}.`,
    };
  }
}

const MISSING = 'the height of the tree and its crown';
/** Thinning leaves the outline of the crown as it is. */
const SIZES: Readonly<Record<string, string>> = {
  reduce: '; or the height and spread before and after',
  restore: '; or the height and spread before and after',
  raise: '; or the base of the crown before and after',
};

export const doseUnstated: Rule = {
  name: 'dose-unstated',
  group: 'pruning',
  level: 'error',
  summary: 'work on living foliage of which nothing tells how much it takes',
  sources: [cite('a300-1-2008'), cite('bs-3998-2010')],
  explanation:
    'Looks at open prescriptions that reduce, thin, raise or restore, and at such work of the last year. Where neither a dose is written nor a new size of a crown that is on record, the crew is left to guess, and every limit on doses has nothing to work on: a dose that nobody wrote is as grave as one that is too high.',
  limitations: 'Cleaning; parts that are removed by name; dead trees.',
  appliesTo: ['prescriptions'],
  acceptable: true,
  examples: [
    {
      title: 'How much?',
      text: `tree 61
  prescription R1 reduce #! stated
    between 2026-09-15..2026-11-30
    because "too big"
`,
    },
    {
      title: 'Work without a record of it; a new height of a tree of unknown crown',
      text: `tree 63
  prescription R1 thin
  work R1 2026-02-03 #! stated

tree 64
  prescription R1 reduce #! stated
    height 52 ft to 46 ft
`,
    },
    {
      title: 'By dose, by size, by what is removed; cleaning',
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
