import { methodUses, pruningStandard } from '../../assess/methods.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { capital } from '../../base/words.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { plan, type Rule, type RuleReport, spanOf } from '../rule.ts';

const METHODS: ReadonlySet<Prescription['methods'][number]['value']> = new Set(['flush cuts']);
/** The stem is removed, so there is nothing to protect. */
const ENDS_THE_TREE: ReadonlySet<Prescription['kind']['value']> = new Set(['fell', 'monolith']);

function* check({ tree, settings, today }: TreeContext): Iterable<RuleReport> {
  for (const { prescription, method, done } of methodUses(tree, today, METHODS)) {
    if (ENDS_THE_TREE.has(prescription.kind.value)) continue;
    yield {
      at: spanOf(method),
      grade: 'stated',
      subject: prescription.id.value,
      message: `${capital(jobName(prescription))} ${done ? 'was' : 'is to be'} done with flush cuts. They remove the branch collar and open the stem to decay (${pruningStandard(settings)}).`,
      ...(done
        ? {
            remedy:
              'Record the wounds and check their edges at the next inspection. Leave the branch collars from now on.',
          }
        : {
            remedy: 'Cut outside the branch collar: method collar cuts.',
            advice: [plan(prescription.at, 'method collar cuts')],
          }),
    };
  }
}

export const flushCut: Rule = {
  name: 'flush-cut',
  group: 'pruning',
  level: 'error',
  summary: 'branches cut flush with the stem',
  sources: [cite('a300-1-2008'), cite('bs-3998-2010'), cite('dujesiefken-liese-2008')],
  explanation:
    'Reports the method flush cuts. The branch collar contains the zone in which a tree compartmentalizes a lost branch. A cut inside it wounds the stem; that wound is larger, closes later and decays deeper. The rule covers open prescriptions and those worked on within the last year.',
  limitations: 'Trees that are felled or left as habitat snags.',
  appliesTo: ['methods'],
  acceptable: true,
  examples: [
    {
      title: 'Flush cuts',
      text: `tree 345
  prescription R1 raise
    dose 5 %
    method flush cuts #! stated
`,
    },
    {
      title: 'Branch removal cuts at the collar, and a monolith',
      text: `tree 346
  prescription R1 raise
    dose 5 %
    method collar cuts
  prescription R2 monolith
    method flush cuts
`,
    },
  ],
  check,
};
