import { readingOf } from '../../assess/fall-zone.ts';
import { currentJobs } from '../../assess/jobs.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { REPRESENTATION } from '../../base/interval.ts';
import type { Quantity } from '../../base/quantity.ts';
import { showQuantity } from '../../base/quantity.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Placed, Prescription, Work } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { pointTo, type Rule, type RuleReport, spanOf } from '../rule.ts';

interface ComparedPair {
  readonly what: string;
  readonly done: Placed<Quantity>;
  readonly prescribed: Placed<Quantity>;
  /** Whether more or less than prescribed goes beyond the prescription. */
  readonly further: 'more' | 'less';
}

/** Quantities that both the work and its prescription state. */
function compared(work: Work, prescription: Prescription): readonly ComparedPair[] {
  const pairs: readonly [
    string,
    Placed<Quantity> | undefined,
    Placed<Quantity> | undefined,
    ComparedPair['further'],
  ][] = [
    ['a dose of', work.dose, prescription.dose, 'more'],
    ['a height of', work.height, prescription.height?.to, 'less'],
    ['a spread of', work.spread, prescription.spread?.to, 'less'],
    ['cuts up to', work.cutDiameter, prescription.cutDiameter, 'more'],
    ['laterals of', work.laterals, prescription.laterals, 'less'],
  ];
  return pairs.flatMap(([what, done, prescribed, further]) =>
    done && prescribed ? [{ what, done, prescribed, further }] : [],
  );
}

/** Compared with the far end of the prescribed range. */
function standing(
  { done, prescribed, further }: ComparedPair,
  settings: Settings,
): 'exceeds' | 'may exceed' | 'within' {
  const work = readingOf(done, settings);
  const allowed = readingOf(prescribed, settings);
  const beyond = (value: number): boolean =>
    further === 'more'
      ? value > allowed.high * (1 + REPRESENTATION)
      : value < allowed.low * (1 - REPRESENTATION);
  const [nearer, farther] = further === 'more' ? [work.low, work.high] : [work.high, work.low];
  return beyond(nearer) ? 'exceeds' : beyond(farther) ? 'may exceed' : 'within';
}

function* check({ tree, settings, today }: TreeContext): Iterable<RuleReport> {
  if (tree.works.length === 0) return;
  for (const { prescription, work, subject } of currentJobs(tree, today)) {
    if (!work) continue;
    for (const pair of compared(work, prescription)) {
      const grade = standing(pair, settings);
      if (grade === 'within') continue;
      const sure = grade === 'exceeds';
      yield {
        at: spanOf(pair.done),
        grade,
        level: sure ? 'warning' : 'note',
        subject,
        message: `The work on ${subject} records ${pair.what} ${showQuantity(pair.done.value)}, which ${sure ? 'goes' : 'may go'} beyond the ${showQuantity(pair.prescribed.value)} of ${jobName(prescription)}.`,
        remedy: sure
          ? 'Record in a note who agreed to it and why, inform the client, and inspect the tree again sooner.'
          : 'Record it more precisely.',
        related: [pointTo(pair.prescribed, 'Prescribed')],
      };
    }
  }
}

export const workBeyondPrescription: Rule = {
  name: 'work-beyond-prescription',
  group: 'records',
  level: 'warning',
  summary: 'work that went beyond what was prescribed',
  sources: [cite('practice')],
  explanation:
    'Compares work from the last year with its prescription where both state the same quantity: dose, resulting height and spread, largest cut, laterals left. Work with its whole range beyond the prescription exceeds; work that is partly beyond it may exceed. A prescription that gives a range allows all of it.',
  limitations: 'Work that did less than was prescribed. Quantities that only one of the two states.',
  appliesTo: ['works'],
  acceptable: true,
  examples: [
    {
      title: 'More foliage, a lower top and larger cuts',
      text: `tree 421
  prescription R1 reduce
    height 52 ft to 46 ft
    dose 12 %
    cuts up to 3 in, laterals 0.4
  work R1 2026-02-16
    dose 18 % #! warning exceeds
    height 44 ft #! warning exceeds
    cuts up to 5 in, laterals 0.4 #! warning exceeds

tree 422
  prescription R1 thin
    dose 10 %
  work R1 2026-02-16
    dose 8..12 % #! note may exceed
`,
    },
    {
      title: 'As prescribed, less, and long ago',
      text: `tree 423
  prescription R1 reduce
    height 52 ft to 46 ft
    dose 10..14 %
  work R1 2026-02-16
    dose 14 %
    height 47 ft

tree 424
  prescription R1 thin
    dose 10 %
  work R1 2023-02-16
    dose 20 %
`,
    },
  ],
  check,
};
