import { openPrescriptions } from '../../assess/jobs.ts';
import { fellsTree, jobName } from '../../assess/prescriptions.ts';
import { capital } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check({ tree }: TreeContext): Iterable<RuleReport> {
  for (const prescription of openPrescriptions(tree)) {
    if (!fellsTree(prescription) || prescription.stump) continue;
    yield {
      at: prescription.at,
      grade: 'stated',
      subject: prescription.id.value,
      message: `${capital(jobName(prescription))} does not state what happens to the stump.`,
      remedy: 'Add a line: stump grind to with a depth, or stump leave, with the height where that matters.',
    };
  }
}

export const stumpUnstated: Rule = {
  name: 'stump-unstated',
  group: 'felling',
  level: 'note',
  summary: 'a felling with nothing stated about the stump',
  sources: [cite('practice')],
  explanation:
    'Checks open prescriptions that fell the tree. Whether the stump stays, and how deep it is ground, affects replanting, buried utilities and the price. Left unstated, it leads to disputes afterward.',
  limitations: 'Woodland, where stumps always stay: turn the rule off there in a practice block.',
  appliesTo: ['felling'],
  acceptable: true,
  examples: [
    {
      title: 'Nothing stated',
      text: `tree 134
  prescription R1 fell #! stated
    exclusion 60 ft
`,
    },
    {
      title: 'Ground, left, a stem only, and already felled',
      text: `tree 135
  stem South
    length 30 ft
  prescription R1 fell
    stump grind to 8 in
  prescription R2 fell
    stump leave
  prescription R3 fell
    remove South

tree 136
  felled 2026-02-02
  prescription R1 fell
`,
    },
  ],
  check,
};
