import { openPrescriptions } from '../../assess/jobs.ts';
import { protectedBy } from '../../assess/permits.ts';
import { fellsTree, jobName } from '../../assess/prescriptions.ts';
import { capital } from '../../base/words.ts';
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
      message: `The tree is ${protectedBy(tree)}. ${capital(jobName(prescription))} states no replacement, which most orders require (${cite('practice').short}).`,
      remedy: 'Add replace with number and species, or replace none with the reason.',
    };
  }
}

export const replacementUnstated: Rule = {
  name: 'replacement-unstated',
  group: 'felling',
  level: 'warning',
  summary: 'a protected tree to be felled with no replacement stated',
  sources: [cite('practice')],
  explanation:
    'Checks open prescriptions that fell a protected tree. Replacement planting, including number and size, is a condition of most permits; "replace none" with its reason counts as stated.',
  limitations:
    'Orders that accept a payment instead of planting: write replace none with the payment as its text.',
  appliesTo: ['felling'],
  acceptable: true,
  examples: [
    {
      title: 'A protected tree, nothing stated',
      text: `tree 131
  protected permit TR-2291, until 2026-12-31
  prescription R1 fell #! stated
    stump leave
`,
    },
    {
      title: 'Replaced, none with a reason, and a tree that is not protected',
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
