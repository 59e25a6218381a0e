/** Removal or heavy pruning of a protected tree without a permit. */

import { EMERGENCY_PERMIT, isEmergency } from '../../assess/emergency.ts';
import { readingOf } from '../../assess/fall-zone.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { judge, showLimit, showValue } from '../../assess/judge.ts';
import { permitFor, protectedBy } from '../../assess/permits.ts';
import { fellsTree, jobName } from '../../assess/prescriptions.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

/** Work that an order never takes for upkeep: the tree or most of its crown goes. */
const DRASTIC: ReadonlySet<string> = new Set(['fell', 'monolith', 'pollard']);

/** How the work stands to what an order lets pass, and why, for people. */
function weight(
  { settings }: TreeContext,
  prescription: Prescription,
): { readonly grade: 'exceeds' | 'may exceed'; readonly why: string } | undefined {
  const { kind, dose } = prescription;
  if (DRASTIC.has(kind.value))
    return { grade: 'exceeds', why: fellsTree(prescription) ? 'removes it' : 'takes a large part of it' };
  const judged = judge(readingOf(dose, settings), 'permit-dose', settings);
  if (judged.standing === 'within') return undefined;
  const share =
    dose && dose.value.form !== 'unseen' ? `takes ${showValue(judged)} of its foliage` : 'states no dose';
  return { grade: judged.standing, why: `${share}, against ${showLimit(judged)}` };
}

function* check(context: TreeContext): Iterable<Report> {
  const { tree } = context;
  if (!tree.protection) return;
  for (const prescription of openPrescriptions(tree)) {
    if (permitFor(tree, prescription)) continue;
    const heavy = weight(context, prescription);
    if (!heavy) continue;
    yield {
      at: prescription.at,
      grade: heavy.grade,
      subject: prescription.id.value,
      message: `The tree is ${protectedBy(tree)} and no permit is on record, and ${jobName(prescription)} ${heavy.why}; the local order decides.`,
      remedy: isEmergency(tree)
        ? EMERGENCY_PERMIT
        : heavy.grade === 'exceeds'
          ? 'Apply for the permit before the work, and write it on the prescription with its last day.'
          : 'State the dose, and ask the authority at what dose it requires a permit.',
      related: [{ start: tree.protection.start, end: tree.protection.end, message: 'Protected' }],
    };
  }
}

export const permitMissing: Rule = {
  name: 'permit-missing',
  group: 'permits',
  level: 'error',
  summary: 'removal or heavy pruning of a protected tree without a permit',
  sources: [cite('practice')],
  explanation: `Looks at open prescriptions on trees that are written down as protected. Felling, a monolith and a pollard always count; other pruning counts where its dose is above the limit permit-dose, as an interval, and may count where no dose is stated. A permit on the prescription or on the tree's protected line settles it.

From which cut on a permit is needed is a matter of the local order. Where it asks for one for every cut, a practice block sets permit-dose to 0 %.`,
  whenNot: 'Exemptions for dangerous trees: write the number of the notice to the authority as the permit.',
  looksAt: ['permits'],
  acceptable: false,
  caution: 'The local order decides what needs a permit; fines count by the tree.',
  examples: [
    {
      title: 'Felling and heavy pruning without a permit; a reduction without a dose',
      text: `tree 111 "Copper beech"
  protected by "heritage tree list no. 6" permit none
  prescription R1 fell #! exceeds
  prescription R2 reduce #! exceeds
    dose 30 %
  prescription R3 reduce #! may exceed
    dose 20..28 %
  prescription R4 reduce #! may exceed
`,
    },
    {
      title: 'Light pruning, a permit, a tree that nothing protects, a prescription that was withdrawn',
      text: `tree 112
  protected by "heritage tree list no. 2"
  prescription R1 clean
    dose 5 %
  prescription R2 reduce
    dose 30 %
    permit TR-2291, until 2026-12-31
  prescription R3 fell
    withdrawn 2026-05-02 "client keeps the tree"

tree 113
  prescription R1 fell

tree 114
  protected permit TR-2292, until 2026-12-31
  prescription R1 fell
`,
    },
  ],
  check,
};
