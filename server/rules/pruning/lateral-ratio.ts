import { readingOf } from '../../assess/fall-zone.ts';
import { currentJobs, PRUNING_KINDS } from '../../assess/jobs.ts';
import { showLimit } from '../../assess/judge.ts';
import { cutsWith, leastLateral, WRITTEN } from '../../assess/methods.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { interval } from '../../base/interval.ts';
import { showQuantity } from '../../base/quantity.ts';
import { capital } from '../../base/words.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { beyondLimit } from '../limit-report.ts';
import { plan, type Remedy, type Rule, type RuleReport, spanOf } from '../rule.ts';

function thickerLaterals(prescription: Prescription, { tree, settings }: TreeContext): Remedy {
  const least = leastLateral(settings.limit('lateral-ratio').value);
  return {
    remedy: `Cut back to a lateral of at least ${least} of the diameter (laterals ${least}); half is better. Where there is none, take less or remove the whole limb.`,
    advice: [plan(prescription.at, cutsWith(prescription, least, tree, settings))],
  };
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  if (tree.prescriptions.length === 0) return;
  for (const { prescription, work, subject } of currentJobs(tree, today)) {
    const laterals = work ? work.laterals : prescription.laterals;
    if (!laterals || !PRUNING_KINDS.has(prescription.kind.value)) continue;
    const { low, high } = readingOf(laterals, settings);
    const judged = beyondLimit(interval(low + WRITTEN, high + WRITTEN), 'lateral-ratio', settings);
    if (!judged) continue;
    const sure = judged.standing === 'exceeds';
    yield {
      at: spanOf(laterals),
      grade: judged.standing,
      subject,
      message: `${capital(jobName(prescription))} ${work ? 'left' : 'leaves'} laterals of ${showQuantity(laterals.value)} of the removed diameter, which ${sure ? 'is' : 'may be'} below ${showLimit(judged)}. Below it a reduction cut is a heading cut.`,
      ...(work
        ? { remedy: 'Inspect these ends within two or three years, and restore where they die back.' }
        : thickerLaterals(prescription, context)),
    };
  }
}

export const lateralRatio: Rule = {
  name: 'lateral-ratio',
  group: 'pruning',
  level: 'error',
  summary: 'laterals too small to assume the terminal role',
  sources: [cite('a300-1-2008')],
  explanation:
    'Compares the diameter of the lateral left at a reduction cut, relative to the stem removed, with the limit lateral-ratio, to a hundredth. It uses the prescribed figure for open work and the recorded figure for work done within the last year. A smaller lateral can neither sustain the end nor take over as leader, and the cut dies back like a heading cut.',
  limitations: 'Pollards, habitat snags and felling. Work with no laterals recorded.',
  appliesTo: ['measured cuts'],
  acceptable: true,
  examples: [
    {
      title: 'A quarter, and possibly a third',
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
      title: 'Larger, and done better than prescribed',
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
