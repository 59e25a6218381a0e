import { EMERGENCY_PERMIT, isEmergency } from '../../assess/emergency.ts';
import { currentJobs, type Job } from '../../assess/jobs.ts';
import { isShareTold, type PermitNeed, permitNeeds } from '../../assess/permit-needs.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { capital, listed } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { otherDaysOr } from '../other-days.ts';
import type { Remedy, Rule, RuleReport } from '../rule.ts';

/** What is wrong, in a clause; undefined where a notice on record is enough. */
function fault({ row, noticeEnds }: PermitNeed, { prescription, days }: Job, today: number) {
  const { notice, noticeOnly } = row.rule;
  if (notice === undefined || (noticeOnly && noticeEnds === undefined))
    return prescription.notice && noticeOnly
      ? `a notice is enough for a tree that is ${noticeOnly}, and no permit is on record`
      : 'no permit is on record';
  if (noticeEnds === undefined) return `no permit, and no notice ${notice} days before, is on record`;
  const begins = days?.from ?? Math.max(today, noticeEnds);
  return begins < noticeEnds
    ? `${notice} days from the notice of ${formatDate(prescription.notice!.given)} run until ${formatDate(noticeEnds)}`
    : undefined;
}

const CONSENT = 'write the consent of the authority as the permit';

function remedyFor({ row, noticeEnds }: PermitNeed, job: Job, context: TreeContext): Remedy {
  const { work, prescription, days } = job;
  if (work)
    return {
      remedy:
        'Add the permit or notice under which it was done to the prescription. If there was none, notify the authority.',
    };
  if (isEmergency(context)) return { remedy: EMERGENCY_PERMIT };
  if (noticeEnds !== undefined)
    return days && prescription.between
      ? otherDaysOr(context, prescription, days, CONSENT)
      : { remedy: `Begin once the notice period has passed, or ${CONSENT}.` };
  return {
    remedy:
      row.rule.notice !== undefined && !row.rule.noticeOnly
        ? `Notify the authority and add the date to the prescription (notice), or ${CONSENT}.`
        : 'Apply for the permit before the work and add it to the prescription with its last day. Where the law exempts such work, write its section as the permit.',
  };
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, today } = context;
  for (const job of currentJobs(tree, today)) {
    const { prescription, work, subject } = job;
    const reports = permitNeeds(context, prescription).flatMap((need): RuleReport[] => {
      const { row, doubts, size } = need;
      if (row.rule.acts === 'any work' && isShareTold(context, job)) return [];
      const wrong = fault(need, job, today);
      if (wrong === undefined) return [];
      const asks = row.rule.notice === undefined || row.rule.noticeOnly ? 'a permit' : 'a permit or a notice';
      return [
        {
          at: work?.at ?? prescription.at,
          grade: doubts.length === 0 ? 'exceeds' : 'may exceed',
          subject,
          message: `${capital(jobName(prescription))} ${doubts.length === 0 ? 'requires' : 'may require'} ${asks}${size ? `, ${size}` : ''} (${row.source}, ${row.force}). ${capital(wrong)}.${doubts.length === 0 ? '' : ` Uncertain: ${listed(doubts)}.`}`,
          ...remedyFor(need, job, context),
        },
      ];
    });
    const report = reports.find(({ grade }) => grade === 'exceeds') ?? reports[0];
    if (report) yield report;
  }
}

export const permitNeeded: Rule = {
  name: 'permit-needed',
  group: 'permits',
  level: 'error',
  summary: 'work that requires a permit or a notice under local law, with none on record',
  sources: [cite('practice')],
  explanation:
    'Checks open prescriptions, and work from the last year, against the permits that the region of the site requires. These depend on species, on size, on the land (grounds of the site), and on orders, conservation areas and lists (protected under, conservation-area). A permit on the prescription or on the protected line resolves the finding. Where the law requires only a notice some days before, a notice line with its date resolves it too, once the days have passed.\n\nSizes are compared as the law measures them: girth with girth, diameter with diameter, at the same height. Where only a diameter is recorded, the girth is at least twice as much, whatever the shape of the stem. Where only a girth is recorded, the diameter is at most half of it, and at least half that of a round stem (judged). A size at another height decides only from twice the threshold on (judged). Closer to it, or at an unknown height, it is not comparable, which is a warning. Record the girth as the law requires it, for example girth 62 cm at 5 cm.\n\nThe finding is a warning for a row that is from memory or second-hand, for unrecorded land, and for exceptions that cannot be checked for a single tree. The rows of each region are in [the list of regions](../../practice/REGIONS.md).',
  limitations:
    'Local orders, which are not on record: mark trees under them as protected. The volume felled on a property in a quarter.',
  appliesTo: ['prescriptions'],
  acceptable: false,
  caution: 'The authority decides what needs a permit. Fines are charged per tree.',
  examples: [
    {
      title: 'Vienna: from 40 cm of girth at 1 m; not comparable at another height; below',
      text: `site "Lindenhof"
  region AT-9
  grounds garden

tree 701
  species Tilia cordata
  girth 44 cm at 1 m
  prescription R1 fell #! exceeds

tree 702
  species Tilia cordata
  girth 44 cm at 1.3 m
  prescription R1 fell #! may exceed

tree 703
  species Tilia cordata
  girth 38 cm at 1 m
  prescription R1 fell

tree 704
  species Tilia cordata
  girth 44 cm at 1 m
  prescription R1 reduce
  prescription R2 fell
    permit MA42-118, until 2026-12-31
`,
    },
    {
      title: 'Poland: sizes by species, 5 cm above the ground',
      text: `site "Lipowa"
  region PL
  grounds garden

tree 705
  species Tilia cordata
  girth 60 cm at 5 cm
  prescription R1 fell #! exceeds

tree 706
  species Populus nigra
  girth 60 cm at 5 cm
  prescription R1 fell
`,
    },
    {
      title:
        'A conservation area in England: no notice, a notice too short, one that has run out; a small tree',
      text: `site "Mill Lane"
  region GB-ENG
  grounds garden
  conservation-area "Mill Lane"

tree 707
  species Fagus sylvatica
  dbh 40 cm
  prescription R1 reduce #! exceeds
    dose 10 %
  prescription R2 reduce #! exceeds
    dose 10 %
    notice 2026-05-20
    between 2026-06-15..2026-06-19
  prescription R3 reduce
    dose 10 %
    notice 2026-05-01
    between 2026-06-15..2026-06-19

tree 708
  species Fagus sylvatica
  dbh 7 cm
  prescription R1 reduce
    dose 10 %
`,
    },
    {
      title: 'Under a preservation order; five days’ notice for a dead tree',
      text: `site "Mill Lane"
  region GB-ENG
  grounds garden

tree 709
  species Fagus sylvatica
  dbh 40 cm
  protected under order by "order 12 of 1998"
  prescription R1 clean #! exceeds
    dose 5 %
    notice 2026-05-20

tree 710
  species Fagus sylvatica
  dbh 40 cm
  vigor dead
  protected under order by "order 12 of 1998"
  prescription R1 fell
    notice 2026-05-20
`,
    },
  ],
  check,
};
