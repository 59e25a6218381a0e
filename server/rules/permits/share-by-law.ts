import { EMERGENCY_PERMIT, isEmergency } from '../../assess/emergency.ts';
import { currentJobs } from '../../assess/jobs.ts';
import { sharesByLaw } from '../../assess/permit-needs.ts';
import { permitFor } from '../../assess/permits.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { shareText } from '../../base/figures.ts';
import { interval, isLess } from '../../base/interval.ts';
import { plainNumber } from '../../base/quantity.ts';
import { capital, listed } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

const percent = (share: number): string => plainNumber(share * 100, 0);

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, today } = context;
  for (const job of currentJobs(tree, today)) {
    const { prescription, work, subject } = job;
    if (permitFor(tree, prescription)) continue;
    for (const { row, taken, doubts } of sharesByLaw(context, job)) {
      const { share, years } = row.rule;
      if (!isLess(share, taken.high)) continue;
      const isBeyond = isLess(share, taken.low) && doubts.length === 0;
      const span = years === undefined ? 'over its life' : `within ${years} years`;
      yield {
        at: work?.at ?? prescription.at,
        grade: isBeyond ? 'exceeds' : 'may exceed',
        subject,
        message: `${capital(jobName(prescription))}, with the work on record, removes ${shareText(interval(taken.low, Math.min(1, taken.high)))} of the crown ${span}. Without a permit, ${percent(share)} % is allowed (${row.source}, ${row.force}).${doubts.length === 0 ? '' : ` Uncertain: ${listed(doubts)}.`}`,
        remedy: work
          ? 'Add the permit under which it was done to the prescription. If there was none, notify the authority.'
          : isEmergency(context)
            ? EMERGENCY_PERMIT
            : 'State a smaller dose, and the doses of earlier work. Or apply for a permit and add it to the prescription.',
      };
    }
  }
}

export const shareByLaw: Rule = {
  name: 'share-by-law',
  group: 'permits',
  level: 'error',
  summary: 'pruning beyond the share of the crown that local law allows without a permit',
  sources: [cite('practice')],
  explanation:
    'Adds up the doses of pruning and compares the sum with the share that the region of the site allows. The sum includes work that is open or was done within the last year. It also includes recorded work in the years that the law names, or of all years where it names none. Where other work requires a permit by size or by a list, the share covers only what is free of such trees. A dose is the live foliage removed and stands for the share of the crown. An unknown dose may be any share. A permit on the prescription or on the protected line of the tree resolves the finding.',
  limitations:
    'Work before the inventory began, so the sum is a minimum. Exemptions for dead or dangerous parts alone, which are not separated.',
  appliesTo: ['prescriptions'],
  acceptable: false,
  caution: 'The authority decides what counts as pruning and what as damage.',
  examples: [
    {
      title: 'Poland: 30 % over the life of the tree, with earlier work; less; under a permit',
      text: `site "Lipowa"
  region PL

tree 711
  species Tilia cordata
  prescription R1 reduce
    dose 20 %
  work R1 2019-02-10
    dose 20 %
  prescription R2 reduce #! exceeds
    dose 15 %

tree 712
  species Tilia cordata
  prescription R1 reduce
    dose 15 %
  prescription R2 reduce
    dose 40 %
    permit OS-12, until 2026-12-31
`,
    },
    {
      title: 'South Africa: a quarter of a tree on the list',
      text: `site "Kloof"
  region ZA
  grounds garden

tree 713
  species Podocarpus latifolius
  protected under list
  prescription R1 reduce #! exceeds
    dose 30 %
  prescription R2 clean
    dose 5 %
  prescription R3 reduce #! may exceed
    dose 20..30 %

tree 714
  species Acacia karroo
  prescription R1 reduce
    dose 30 %
`,
    },
  ],
  check,
};
