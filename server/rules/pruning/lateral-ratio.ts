/** Laterals too thin to take over. */

import { showQuantity } from '../../../grammar/quantity.ts';
import { readingOf } from '../../assess/fall-zone.ts';
import { currentJobs, KEEPS_A_CROWN } from '../../assess/jobs.ts';
import { judge, showLimit } from '../../assess/judge.ts';
import { capital, jobName } from '../../assess/prescriptions.ts';
import { interval } from '../../mechanics/interval.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

/** Ratios are written to a hundredth: 0.33 is a third. */
const WRITTEN = 0.005;

function* check({ tree, settings, today }: TreeContext): Iterable<Report> {
  if (tree.prescriptions.length === 0) return;
  for (const { prescription, work, subject } of currentJobs(tree, today)) {
    const laterals = work ? work.laterals : prescription.laterals;
    if (!laterals || !KEEPS_A_CROWN.has(prescription.kind.value)) continue;
    const { low, high } = readingOf(laterals, settings);
    const judged = judge(interval(low + WRITTEN, high + WRITTEN), 'lateral-ratio', settings);
    if (judged.standing === 'within') continue;
    const sure = judged.standing === 'exceeds';
    yield {
      at: { start: laterals.start, end: laterals.end },
      grade: judged.standing,
      subject,
      message: `${capital(jobName(prescription))} ${work ? 'left' : 'leaves'} laterals of ${showQuantity(laterals.value)} of the diameter taken off, which ${sure ? 'is' : 'may be'} below ${showLimit(judged)}: below it a reduction cut is a heading cut.`,
      remedy: work
        ? 'Look at these ends within two or three years, and restore where they die back.'
        : 'Cut back to a lateral of at least a third of the diameter (laterals 0.33), a half is better; where there is none, take less or take the limb whole.',
    };
  }
}

export const lateralRatio: Rule = {
  name: 'lateral-ratio',
  group: 'pruning',
  level: 'error',
  summary: 'laterals left that are too thin to take over',
  sources: [cite('a300-1-2008')],
  explanation:
    'Compares the diameter of the lateral left at a reduction cut, over that of the stem removed, with the limit lateral-ratio, to a hundredth: as prescribed where the work is open, as recorded where it was done within a year. A thinner lateral neither feeds the end nor takes over as leader, and the cut dies back like a heading cut.',
  whenNot: 'Pollards, monoliths and felling; work that records no laterals.',
  looksAt: ['measured cuts'],
  acceptable: true,
  examples: [
    {
      title: 'A quarter, and perhaps a third',
      text: `tree 351
  prescription R1 reduce
    dose 10 %
    cuts up to 3 in, laterals 0.25 #! exceeds
  prescription R2 reduce
    dose 5 %
    cuts up to 2 in, laterals 0.3..0.5 #! may exceed
`,
    },
    {
      title: 'Better, and done better than prescribed',
      text: `tree 352
  prescription R1 reduce
    dose 10 %
    cuts up to 3 in, laterals 0.33
  prescription R2 reduce
    dose 10 %
    cuts up to 2 in, laterals 0.3
  work R2 2026-02-03
    cuts up to 2 in, laterals 0.5
`,
    },
  ],
  check,
};
