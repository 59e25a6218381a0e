import { methodUses, pruningStandard } from '../../assess/methods.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { capital } from '../../base/words.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

const METHODS: ReadonlySet<Prescription['methods'][number]['value']> = new Set(['inner branches']);

function* check({ tree, settings, today }: TreeContext): Iterable<RuleReport> {
  for (const { prescription, method, done } of methodUses(tree, today, METHODS)) {
    yield {
      at: spanOf(method),
      grade: 'stated',
      subject: prescription.id.value,
      message: `${capital(jobName(prescription))} ${done ? 'stripped' : 'strips'} the inside of the crown (lion-tailing). This moves weight to the ends and removes the branches that damp the limbs (${pruningStandard(settings)}).`,
      remedy: done
        ? 'Let inner shoots grow for some years. Shorten the long ends by reduction cuts where they load a weak limb.'
        : 'Thin evenly, mostly in the outer third, and leave the inner branches.',
    };
  }
}

export const lionTailing: Rule = {
  name: 'lion-tailing',
  group: 'pruning',
  level: 'error',
  summary: 'a crown stripped of its inner branches (lion-tailing)',
  sources: [cite('a300-1-2008'), cite('bs-3998-2010')],
  explanation:
    'Reports the method inner branches, which is lion-tailing. Removing the inner and lower laterals leaves foliage only at the ends of the limbs. Wind load then acts farther out, the limb sways more and tapers less, bark is sunscalded, and no laterals remain for a later reduction. The rule covers open prescriptions and those worked on within the last year.',
  limitations: 'Deadwood inside the crown, which is removed with branch removal cuts.',
  appliesTo: ['methods'],
  acceptable: true,
  examples: [
    {
      title: 'Thinned from the inside',
      text: `tree 343
  prescription R1 thin
    dose 15 %
    method inner branches #! stated
`,
    },
    {
      title: 'Cleaned with removal cuts',
      text: `tree 344
  prescription R1 clean
    dose 5 %
    method collar cuts
`,
    },
  ],
  check,
};
