/** A protected tree that is to be felled, and nothing said about planting. */

import { openPrescriptions } from '../../assess/jobs.ts';
import { protectedBy } from '../../assess/permits.ts';
import { fellsTree, jobName } from '../../assess/prescriptions.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check({ tree }: TreeContext): Iterable<RuleReport> {
  if (!tree.protection) return;
  for (const prescription of openPrescriptions(tree)) {
    if (!fellsTree(prescription) || prescription.replacement) continue;
    yield {
      at: prescription.at,
      grade: 'stated',
      subject: prescription.id.value,
      message: `The tree is ${protectedBy(tree)}, and ${jobName(prescription)} says nothing about a replacement; most orders ask for one (${cite('practice').short}).`,
      remedy: 'Add replace with how many of which species, or replace none with the reason.',
    };
  }
}

export const replacementUnstated: Rule = {
  name: 'replacement-unstated',
  group: 'felling',
  level: 'warning',
  summary: 'felling of a protected tree without a word about its replacement',
  sources: [cite('practice')],
  explanation:
    'Looks at open prescriptions that fell a protected tree. What is planted in its place, how many and of what size, is part of most permits; "replace none" with its reason counts as said.',
  limitations:
    'Orders that take a payment instead of planting: write replace none and the payment as its text.',
  appliesTo: ['felling'],
  acceptable: true,
  examples: [
    {
      title: 'A protected tree, nothing said',
      text: `tree 131
  protected permit TR-2291, until 2026-12-31
  prescription R1 fell #! stated
    stump leave
`,
    },
    {
      title: 'Replaced, none with a reason, and a tree that nothing protects',
      text: `tree 132
  protected permit TR-2291, until 2026-12-31
  prescription R1 fell
    replace 2 Quercus garryana
  prescription R2 fell
    replace none "no room between the houses"

tree 133
  prescription R1 fell
`,
    },
  ],
  check,
};
