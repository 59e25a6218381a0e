import { ASK_NOW, isEmergency } from '../../assess/emergency.ts';
import { currentJobs } from '../../assess/jobs.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { BAT_CAUTION, roostsMet } from '../../assess/roosts.ts';
import { formatDate } from '../../base/dates.ts';
import { capital } from '../../base/words.ts';
import type { Settings } from '../../facts/settings.ts';
import type { BatCheck } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { pointTo, type Rule, type RuleReport } from '../rule.ts';

const SURE: ReadonlySet<BatCheck['found'][number]['use']> = new Set(['roost', 'maternity roost']);

const lawOf = ({ region }: Settings): string =>
  region.statutes.find(({ protects }) => protects === 'bats')?.citation.short ?? 'local law decides';

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  if (tree.batChecks.length === 0 || tree.prescriptions.length === 0) return;
  for (const { prescription, work, days, at, subject } of currentJobs(tree, today)) {
    const met = roostsMet(tree, prescription)
      .filter(one => !(days && days.to < one.day))
      .sort((a, b) => Number(SURE.has(b.use)) - Number(SURE.has(a.use)))[0];
    if (!met) continue;
    const sure = SURE.has(met.use);
    const what = sure ? `a ${met.use} of bats` : met.use === 'signs' ? 'signs of bats' : 'perhaps bats';
    yield {
      at,
      grade: sure ? 'exceeds' : 'may exceed',
      subject,
      message: `${capital(jobName(prescription))} ${work ? 'was' : 'is'} work on a tree in which the bat check of ${formatDate(met.day)} found ${what}${met.defect ? ` in ${met.defect.value}` : ''}. A roost must not be damaged or disturbed (${lawOf(settings)}).`,
      remedy: work
        ? 'Have a bat biologist inspect the tree now, and keep the record of who authorized the work.'
        : isEmergency(context)
          ? ASK_NOW
          : sure
            ? 'Leave the roost untouched, or work under a license and with the bat biologist it names.'
            : 'Have a bat biologist determine at dusk whether it is a roost before any work, and record the bat check.',
      related: [pointTo(met, 'Found here')],
    };
  }
}

export const batRoost: Rule = {
  name: 'bat-roost',
  group: 'wildlife',
  level: 'error',
  summary: 'work on a tree with a bat roost',
  sources: [cite('wca-1981'), cite('habitats-regs-2017'), cite('bnatschg-44'), cite('esa')],
  explanation:
    'Reports work, open or done within the last year, on a tree in which a bat check found a roost. Signs, or an unclear find, may be one. A later check that finds none does not clear the tree. Roosts are used in rotation, and many laws protect the roost while the bats are away. For the same reason no other days are suggested for the work: the calendar alone does not make a roost free on any of them. Work before the find is not reported.',
  limitations: 'Work that removes parts other than the one with the roost: remove names them.',
  appliesTo: ['bat checks'],
  acceptable: false,
  caution: BAT_CAUTION,
  examples: [
    {
      title: 'A maternity roost, and signs',
      text: `site "Fernhollow Court"
  region US-OR

tree 414
  defect A cavity
  bat check 2025-07-14 from ground
    found maternity roost in A
  prescription R1 reduce
    dose 5 %
    between 2026-10-05..2026-10-09 #! exceeds

tree 415
  defect A loose bark
  bat check 2026-05-19 from lift
    found signs in A
  prescription R1 fell
    between 2026-09-14..2026-09-16 #! may exceed
`,
    },
    {
      title: 'Kept; nothing found; another part is removed',
      text: `site "Fernhollow Court"
  region US-OR

tree 416
  defect A cavity
  bat check 2025-07-14 from ground
    found maternity roost in A
  prescription R1 keep

tree 417
  bat check 2026-05-19 from lift
    found none
  prescription R1 fell
    between 2026-05-25..2026-05-29

tree 418
  limb L1
  limb L2
  defect A cavity
    on L1 at 20 ft
  bat check 2026-05-19 from lift
    found roost in A
  prescription R1 clean
    remove L2
`,
    },
  ],
  check,
};
