import { EMERGENCY_PERMIT, isEmergency } from '../../assess/emergency.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { permitFor } from '../../assess/permits.ts';
import { fellsTree, jobName } from '../../assess/prescriptions.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { pointTo, type Rule, type RuleReport } from '../rule.ts';

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree } = context;
  for (const prescription of openPrescriptions(tree)) {
    const permit = permitFor(tree, prescription);
    if (permit?.scope !== 'pruning') continue;
    const monolith = prescription.kind.value === 'monolith';
    if (!fellsTree(prescription) && !monolith) continue;
    yield {
      at: prescription.at,
      grade: 'stated',
      subject: prescription.id.value,
      message: `Permit ${permit.number.value} covers pruning only, but ${jobName(prescription)} ${monolith ? 'leaves only the trunk' : 'removes the tree'} (the local order decides).`,
      remedy: isEmergency(context)
        ? EMERGENCY_PERMIT
        : 'Apply for a permit for the removal and add it to the prescription, or prescribe pruning.',
      related: tree.protection ? [pointTo(tree.protection, 'The scope of the permit')] : [],
    };
  }
}

export const permitScope: Rule = {
  name: 'permit-scope',
  group: 'permits',
  level: 'error',
  summary: 'felling under a permit for pruning',
  sources: [cite('practice')],
  explanation:
    'Checks open prescriptions that fell the tree, or leave it as a habitat snag, under a permit whose protected line limits it to pruning. A permit named by the prescription itself counts instead, unless it is the same one. The scope of that permit is not recorded.',
  limitations: 'Fellings that name parts to remove: the tree stays, so that is pruning.',
  appliesTo: ['permits'],
  acceptable: false,
  caution: 'The local order decides. Felling under a permit for pruning counts as felling without a permit.',
  examples: [
    {
      title: 'Felling, and a monolith, under a permit for pruning',
      text: `tree 121
  protected by "park charter" permit WP-29, until 2026-12-31, for pruning
  prescription R1 fell #! stated
  prescription R2 monolith #! stated
    height 60 ft to 20 ft
    permit WP-29
`,
    },
    {
      title: 'Pruning, a stem removed, a permit of its own, a permit for any work',
      text: `tree 122
  protected by "park charter" permit WP-29, until 2026-12-31, for pruning
  stem South
    length 30 ft
  prescription R1 clean
    dose 5 %
  prescription R2 fell
    remove South
  prescription R3 fell
    permit WP-40, until 2026-12-31

tree 123
  protected permit WP-29, until 2026-12-31, for any work
  prescription R1 fell
`,
    },
  ],
  check,
};
