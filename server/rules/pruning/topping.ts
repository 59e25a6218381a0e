import { cutsWith, leastLateral, methodUses, pruningStandard } from '../../assess/methods.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { capital } from '../../base/words.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { plan, type Remedy, type Rule, type RuleReport, spanOf } from '../rule.ts';

const METHODS: ReadonlySet<Prescription['methods'][number]['value']> = new Set(['topping', 'heading cuts']);
/** Kinds in which heading cuts amount to topping. Unlike in jobs.ts, restoration is not among them. */
const NO_HEADING_CUTS: ReadonlySet<Prescription['kind']['value']> = new Set([
  'reduce',
  'thin',
  'raise',
  'clean',
]);

function toLaterals(prescription: Prescription, { tree, settings }: TreeContext): Remedy {
  const least = leastLateral(settings.limit('lateral-ratio').value);
  const cuts = cutsWith(prescription, least, tree, settings);
  return {
    remedy: `Cut back to laterals that can take over (method reduction cuts; ${cuts} or more). Where that is not low enough, prescribe a pollard, a habitat snag or felling.`,
    advice: [plan(prescription.at, 'method reduction cuts', cuts)],
  };
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, today } = context;
  for (const { prescription, method, done } of methodUses(tree, today, METHODS)) {
    if (method.value !== 'topping' && !NO_HEADING_CUTS.has(prescription.kind.value)) continue;
    const verb = done ? 'was done' : 'is to be done';
    yield {
      at: spanOf(method),
      grade: 'stated',
      subject: prescription.id.value,
      message: `${capital(jobName(prescription))} ${verb} by ${method.value}. The leaders are cut to stubs that decay and sprout weakly (${pruningStandard(context.settings)}).`,
      ...(done
        ? {
            remedy:
              'Inspect the stubs within a few years, and select among the sprouts by restoration pruning.',
          }
        : toLaterals(prescription, context)),
    };
  }
}

export const topping: Rule = {
  name: 'topping',
  group: 'pruning',
  level: 'error',
  summary: 'a crown cut back to stubs (topping)',
  sources: [cite('a300-1-2008'), cite('bs-3998-2010')],
  explanation:
    'Reports the method topping in any prescription, and heading cuts where a crown is to be reduced, thinned, raised or cleaned. An internodal cut leaves a stub without a leader. It dies back, lets decay into the stem, and produces weakly attached sprouts that within a few years are heavier than what was removed. The rule covers open prescriptions and those worked on within the last year.',
  limitations:
    'Pollards cut back to their knuckles, habitat snags, and restoration after storm damage, where heading cuts are the method.',
  appliesTo: ['methods'],
  acceptable: true,
  examples: [
    {
      title: 'Topped, and reduced with heading cuts',
      text: `tree 341
  prescription R1 reduce
    dose 25 %
    method topping #! stated
    between 2026-11-01..2026-12-15
  prescription R2 reduce
    dose 10 %
    method reduction cuts, heading cuts #! stated
`,
    },
    {
      title: 'Reduction cuts, a pollard, withdrawn',
      text: `tree 342
  prescription R1 reduce
    dose 10 %
    method reduction cuts
  prescription R2 pollard
    method heading cuts
  prescription R3 reduce
    method topping
    withdrawn 2026-02-10 "topping is no reduction"
`,
    },
  ],
  check,
};
