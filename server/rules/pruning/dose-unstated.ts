/** A reduction or thinning of which nobody said how much. */

import { isDead } from '../../assess/doses.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

const MEASURED = new Set(['reduce', 'thin']);

function* check({ tree }: TreeContext): Iterable<Report> {
  if (isDead(tree)) return;
  for (const { id, kind, at, dose, height, spread } of openPrescriptions(tree)) {
    if (!MEASURED.has(kind.value) || dose || height || spread) continue;
    yield {
      at,
      grade: 'stated',
      subject: id.value,
      message: `Prescription ${id.value} says ${kind.value} and not how much: no limit can be held against it (${cite('a300-1-2008').short}).`,
      remedy:
        kind.value === 'reduce'
          ? 'State the dose (the share of the living foliage that is taken), or the height and spread before and after.'
          : 'State the dose, the share of the living foliage that is taken.',
    };
  }
}

export const doseUnstated: Rule = {
  name: 'dose-unstated',
  group: 'pruning',
  level: 'note',
  summary: 'a reduction or thinning without dose, height or spread',
  sources: [cite('a300-1-2008'), cite('bs-3998-2010')],
  explanation:
    'An open prescription to reduce or thin that gives neither a dose nor a new height or spread leaves the crew to guess, and every limit on doses and every figure on wind and views has nothing to work on.',
  whenNot: 'Cleaning, raising and restoring, which are told by what is removed; dead trees.',
  looksAt: ['prescriptions'],
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
      title: 'By dose, by size, by what is removed, or done',
      text: `tree 62
  prescription R1 thin
    dose 10 %
  prescription R2 reduce
    height 52 ft to 46 ft
  prescription R3 clean
  prescription R4 thin
  work R4 2026-02-03
`,
    },
  ],
  check,
};
