import { crownReduction } from '../../assess/crowns.ts';
import { DOSE_BY_DIMENSIONS, doseOf, isDead } from '../../assess/doses.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { showLimit, showValue } from '../../assess/judge.ts';
import { jobName } from '../../assess/prescriptions.ts';
import type { Interval } from '../../base/interval.ts';
import { capital } from '../../base/words.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Prescription, Tree } from '../../facts/types.ts';
import { doseBounds } from '../../mechanics/reduction.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { beyondLimit } from '../limit-report.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

const REDUCES: ReadonlySet<Prescription['kind']['value']> = new Set(['reduce', 'restore']);

/** Share of the crown removed over all stages, from its dimensions, else from the dose. */
function totalOf(tree: Tree, prescription: Prescription, settings: Settings): Interval | undefined {
  const reduction = crownReduction(tree, prescription, settings);
  if (reduction) return doseBounds(reduction.crown, reduction.change);
  return doseOf(tree, { prescription, at: prescription.at, subject: prescription.id.value }, settings)?.total;
}

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  if (tree.prescriptions.length === 0 || isDead(tree)) return;
  for (const prescription of openPrescriptions(tree)) {
    if (!REDUCES.has(prescription.kind.value)) continue;
    const total = totalOf(tree, prescription, settings);
    if (!total) continue;
    const judged = beyondLimit(total, 'total-reduction', settings);
    if (!judged) continue;
    const at = prescription.height ?? prescription.spread ?? prescription.dose ?? prescription.at;
    const sure = judged.standing === 'exceeds';
    yield {
      at: spanOf(at),
      grade: judged.standing,
      subject: prescription.id.value,
      message: `${capital(jobName(prescription))} removes ${showValue(judged)} of the crown in total, which ${judged.standing} ${showLimit(judged)}.`,
      remedy: sure
        ? 'Take less, or choose openly: a habitat snag, a pollard begun young, or removal and a new tree.'
        : 'State height and spread before and after more precisely, or take less.',
    };
  }
}

export const totalReduction: Rule = {
  name: 'total-reduction',
  group: 'pruning',
  level: 'error',
  summary: 'a reduction that leaves too little crown for the tree to survive',
  sources: [cite('practice')],
  explanation: `For open reductions and restorations, adds up the crown removed in all stages and compares it with the limit total-reduction. Height, spread and base before and after give it as a range; without them the dose counts. ${DOSE_BY_DIMENSIONS} Stages spread the shock, not the loss.`,
  limitations: 'Pollards, habitat snags and felling. Dead trees.',
  appliesTo: ['prescriptions'],
  acceptable: true,
  examples: [
    {
      title: 'Halved in height and narrowed; possibly half',
      text: `tree 378
  height 60 ft
  crown from 10 ft, 50 ft wide
  prescription R1 reduce
    height 60 ft to 38 ft #! exceeds
    spread 50 ft to 36 ft
    stages 3

tree 379
  height 60 ft
  crown from 10 ft, 50 ft wide
  prescription R1 reduce
    height 60 ft to 46 ft #! may exceed
    spread 50 ft to 40 ft
`,
    },
    {
      title: 'A quarter, and a pollard',
      text: `tree 380
  height 60 ft
  crown from 10 ft, 50 ft wide
  prescription R1 reduce
    height 60 ft to 55 ft
    spread 50 ft to 46 ft
  prescription R2 pollard
    height 60 ft to 20 ft
`,
    },
  ],
  check,
};
