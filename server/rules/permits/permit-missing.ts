import { EMERGENCY_PERMIT, isEmergency } from '../../assess/emergency.ts';
import { isRead, readingOf } from '../../assess/fall-zone.ts';
import { currentJobs, type Job } from '../../assess/jobs.ts';
import { judge, showLimit, showValue } from '../../assess/judge.ts';
import { isToldByLaw } from '../../assess/permit-needs.ts';
import { permitFor, protectedBy } from '../../assess/permits.ts';
import { fellsTree, jobName } from '../../assess/prescriptions.ts';
import { capital } from '../../base/words.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { pointTo, type Rule, type RuleReport } from '../rule.ts';

/** Work that never counts as maintenance: the tree or most of its crown is removed. */
const DRASTIC: ReadonlySet<Prescription['kind']['value']> = new Set(['fell', 'monolith', 'pollard']);

/** Grade of the work against what a local order exempts, with the reason in words; undefined for exempt work. */
function weight(
  { settings, today }: TreeContext,
  { prescription, work, days }: Job,
): { readonly grade: 'exceeds' | 'may exceed'; readonly why: string } | undefined {
  const { kind } = prescription;
  const dose = work?.dose ?? prescription.dose;
  if (DRASTIC.has(kind.value))
    return { grade: 'exceeds', why: fellsTree(prescription) ? 'removes it' : 'removes a large part of it' };
  const judged = judge(readingOf(dose, settings), 'permit-dose', settings, days?.to ?? today);
  if (!isRead(dose))
    return {
      grade: 'exceeds',
      why: `states no dose (live foliage removed), and ${showLimit(judged)} applies`,
    };
  if (judged.standing === 'within') return undefined;
  return {
    grade: judged.standing,
    why: `removes ${showValue(judged)} of its live foliage, over ${showLimit(judged)}`,
  };
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, today } = context;
  if (!tree.protection || isToldByLaw(context)) return;
  for (const job of currentJobs(tree, today)) {
    const { prescription, work, subject } = job;
    if (permitFor(tree, prescription)) continue;
    const heavy = weight(context, job);
    if (!heavy) continue;
    yield {
      at: work?.at ?? prescription.at,
      grade: heavy.grade,
      subject,
      message: `The tree is ${protectedBy(tree)} and no permit is on record. ${work ? `The work on ${subject} under ${jobName(prescription)}` : capital(jobName(prescription))} ${heavy.why}. The local order decides.`,
      remedy: work
        ? 'Add the permit under which it was done to the prescription. If there was none, notify the authority.'
        : isEmergency(context)
          ? EMERGENCY_PERMIT
          : heavy.grade === 'exceeds'
            ? 'Apply for the permit before the work, and add it to the prescription with its last day. Where the order exempts such work, write its section as the permit.'
            : 'State the dose more precisely, and ask the authority from which share on it requires a permit.',
      related: [pointTo(tree.protection, 'Protected')],
    };
  }
}

export const permitMissing: Rule = {
  name: 'permit-missing',
  group: 'permits',
  level: 'error',
  summary: 'work on a protected tree with no permit on record',
  sources: [cite('practice')],
  explanation:
    'Checks open prescriptions, and work from the last year, on trees recorded as protected. Felling, a habitat snag and a pollard always count. Other pruning counts where the range of its dose is above the limit permit-dose, and where no dose is stated. A permit on the prescription or on the protected line of the tree resolves the finding. An unrecorded permit is treated as seriously as an expired one.\n\nThe local order decides which work needs a permit, so no work is exempt by default. Where the order allows maintenance pruning without a permit, set permit-dose to that share in a practice block and cite the section of the order.',
  limitations:
    'Exemptions for dangerous trees: record the number of the notice to the authority as the permit. Deadwood removal only: state a dose of 0 %.',
  appliesTo: ['permits'],
  acceptable: false,
  caution: 'The local order decides what needs a permit. Fines are charged per tree.',
  examples: [
    {
      title: 'Felling and pruning without a permit, with and without a dose',
      text: `tree 111 "Copper beech"
  protected by "heritage tree list no. 6" permit none
  prescription R1 fell #! exceeds
  prescription R2 reduce #! exceeds
    dose 30 %
  prescription R3 reduce #! exceeds
    dose 5 %
  prescription R4 reduce #! exceeds
`,
    },
    {
      title: 'An order that allows a quarter',
      text: `practice "Town trees"
  limit permit-dose 25 %
    because "upkeep passes"
    authorized by "town code 16.60.030", until 2027-12-31

tree 115
  protected by "town code 16.60"
  prescription R1 clean
    dose 5 %
  prescription R2 reduce #! exceeds
    dose 30 %
  prescription R3 reduce #! may exceed
    dose 20..28 %
`,
    },
    {
      title: 'Done, with no permit on record',
      text: `tree 116
  protected by "heritage tree list no. 6"
  prescription R1 reduce
    dose 10 %
  work R1 2026-02-03 #! exceeds
    dose 10 %
`,
    },
    {
      title: 'Deadwood, a permit, an unprotected tree, a withdrawn prescription',
      text: `tree 112
  protected by "heritage tree list no. 2"
  prescription R1 clean
    dose 0 %
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
