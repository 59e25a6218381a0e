import { banDays, cuttingBans, showBan } from '../../assess/cutting-bans.ts';
import { seasonStanding, showDays } from '../../assess/days.ts';
import { isEmergency } from '../../assess/emergency.ts';
import { currentJobs } from '../../assess/jobs.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { capital, listed } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { otherDaysOr } from '../other-days.ts';
import type { Rule, RuleReport } from '../rule.ts';

const EXEMPTION = 'add the order or the exception that allows it as its exemption';

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, today } = context;
  for (const { prescription, work, days, at, subject } of currentJobs(tree, today)) {
    if (!days) continue;
    const reports = cuttingBans(context, prescription).flatMap((ban): RuleReport[] => {
      const closed = banDays(ban, prescription, days);
      const standing = seasonStanding(days, closed);
      if (standing === 'within') return [];
      const urgent = ban.row.rule.unlessDangerous && !work && isEmergency(context);
      const doubts = [
        ...ban.doubts,
        ...(urgent ? ['urgent safety work is exempt'] : []),
        ...(standing === 'may exceed' ? ['some of its days are open'] : []),
      ];
      const when = work ? `was done on ${showDays(days)}` : `is scheduled for ${showDays(days)}`;
      return [
        {
          at,
          grade: doubts.length === 0 ? 'exceeds' : 'may exceed',
          ...(ban.row.force === 'law' ? {} : { level: 'warning' }),
          subject,
          message: `${capital(jobName(prescription))} ${when}, in ${showBan(ban)}.${doubts.length === 0 ? '' : ` Uncertain: ${listed(doubts)}.`}`,
          ...(work
            ? {
                remedy:
                  'Add the exemption under which it was done to the prescription. If there was none, notify the authority.',
              }
            : otherDaysOr(context, prescription, days, EXEMPTION)),
        },
      ];
    });
    const report = reports.find(({ grade }) => grade === 'exceeds') ?? reports[0];
    if (report) yield report;
  }
}

export const cuttingBan: Rule = {
  name: 'cutting-ban',
  group: 'wildlife',
  level: 'error',
  summary: 'felling or pruning on days on which local law forbids it',
  sources: [cite('practice')],
  explanation:
    'Compares the days of work, open or done within the last year, with the days on which the region of the site forbids cutting. The land decides which ban applies (grounds of the site). Where grounds are ambiguous or not recorded, the ban may apply, which is a warning. A felling ban covers fellings and habitat snags; a pollard may count as one. Some bans cover certain trees only. These are hollow trees or trees with woodpecker holes, by the defects on record, and trees above a height. They are also nest trees of colonial birds, of birds of prey and owls, by the nests on record. It is a warning where the record does not show whether the tree is one of them, or where a ban applies in only part of the region.\n\nA ban applies whatever a nest check finds. An exemption on the prescription opens its days. It may be an order of the authority, or an exception in the law itself, as for safety work that cannot be done otherwise or at another time. All days closed is an error, some of them a warning. A row that is from memory, or binds only some people, is at most a warning. The rows of each region are in [the list of regions](../../practice/REGIONS.md).',
  limitations:
    'Exceptions for permitted building, coppice and farm work: use the exemption line. Regions without a row, which produce no finding. Seasons of birds and bats, which apply in addition: see nest-check-missing and bat-check-missing.',
  appliesTo: ['prescriptions'],
  acceptable: false,
  caution: 'The authority decides what an exception covers. Birds and bats are protected in addition.',
  examples: [
    {
      title: 'A street tree in Germany: felled in May, in part, a pollard',
      on: '2026-02-01',
      text: `site "Lindenplatz"
  region DE
  grounds street

tree 601
  prescription R1 fell
    between 2026-05-04..2026-05-08 #! exceeds
  prescription R2 monolith
    between 2026-02-20..2026-03-06 #! may exceed
  prescription R3 pollard
    between 2026-05-04..2026-05-08 #! may exceed
`,
    },
    {
      title: 'Land not stated, and land stated only as private',
      on: '2026-02-01',
      text: `site "Lindenplatz"
  region DE

tree 602
  prescription R1 fell
    between 2026-05-04..2026-05-08 #! may exceed
`,
    },
    {
      title: 'Pruned within the ban of a department',
      text: `site "Les Tilleuls"
  region FR-68
  grounds street

tree 603
  prescription R1 reduce
    dose 10 %
  work R1 2026-05-06 #! exceeds
    dose 10 %
`,
    },
    {
      title: 'Denmark: a hollow tree in a garden; nest trees; only September and October are open',
      on: '2026-06-01',
      text: `site "Bakkegården"
  region DK
  grounds garden

tree 611
  inspection 2026-05-20 from ground
    level basic
  defect A woodpecker holes
  prescription R1 fell
    between 2026-11-02..2026-11-06 #! exceeds

tree 612
  prescription R1 fell
    between 2026-11-02..2026-11-06 #! may exceed

tree 613
  inspection 2026-05-20 from ground
    level basic
  nest check 2026-05-20 from ground
    found old Corvus frugilegus
  prescription R1 fell
    between 2026-07-06..2026-07-10 #! exceeds

tree 614
  inspection 2026-05-20 from ground
    level basic
  nest check 2026-05-20 from ground
    found old Buteo buteo
  prescription R1 fell
    between 2026-10-05..2026-10-09
`,
    },
    {
      title: 'Hawaii: trees of 15 ft and more in the pupping season of the hoary bat',
      text: `site "Hale Loa"
  region US-HI

tree 621
  height 40 ft
  prescription R1 clean
    between 2026-07-06..2026-07-10 #! warning exceeds

tree 622
  height 12 ft
  prescription R1 clean
    between 2026-07-06..2026-07-10
`,
    },
    {
      title: 'A garden, gentle pruning, an exemption, days that are open',
      on: '2026-02-01',
      text: `site "Rosengarten"
  region DE
  grounds garden

tree 604
  prescription R1 fell
    between 2026-05-04..2026-05-08
`,
    },
    {
      title: 'Gentle pruning, an exemption, days that are open',
      on: '2026-02-01',
      text: `site "Lindenplatz"
  region DE
  grounds street

tree 605
  prescription R1 clean
    dose 5 %
    between 2026-05-04..2026-05-08
  prescription R2 fell
    exemption "nature conservation office, letter 44", until 2026-05-31
    between 2026-05-04..2026-05-08
  prescription R3 fell
    between 2026-10-05..2026-10-09
`,
    },
  ],
  check,
};
