import type { Span } from '../../../grammar/text.ts';
import {
  approachSource,
  clearance,
  conductorName,
  conductorPlace,
  crewDistance,
  crewNearness,
  crewOf,
  deadOn,
  nearness,
  showKeep,
} from '../../assess/conductors.ts';
import { authority } from '../../assess/judge.ts';
import { daysLeft, jobName, openWork } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { capital } from '../../base/words.ts';
import type { DaySpan } from '../../base/yearly-window.ts';
import type { Placed, Prescription, Work } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { lineOff } from '../line-off.ts';
import { pointTo, type Rule, type RuleReport } from '../rule.ts';

interface LineTask {
  readonly at: Span;
  readonly subject: string;
  /** Display name, at the start of a sentence. */
  readonly name: string;
  readonly days: DaySpan | undefined;
  readonly workers: { readonly crew?: Placed<string> | undefined; readonly by?: Placed<string> | undefined };
  /** Still to be done: inside the approach distance itself, conductor-distance reports it instead. */
  readonly open: Prescription | undefined;
}

const planned = (prescription: Prescription, today: number): LineTask => ({
  at: prescription.crew ?? prescription.at,
  subject: prescription.id.value,
  name: jobName(prescription),
  days: daysLeft(prescription, today),
  workers: crewOf(prescription),
  open: prescription,
});

/** Falls back to the crew of the prescription where the work names no one. */
function done(work: Work, prescription: Prescription | undefined): LineTask {
  const day = work.date.value;
  const names = work.crew || work.by;
  return {
    at: work.at,
    subject: formatDate(day),
    name: `work ${work.prescription.value} of ${formatDate(day)}`,
    days: { from: day, to: day },
    workers: names ? work : prescription ? crewOf(prescription) : {},
    open: undefined,
  };
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  if (tree.conductors.length === 0 || tree.felled) return;
  const ratio = settings.limit('line-crew-ratio');
  const tasks = [
    ...tree.works.map(work =>
      done(
        work,
        tree.prescriptions.find(({ id }) => id.value === work.prescription.value),
      ),
    ),
    ...openWork(tree).map(prescription => planned(prescription, today)),
  ];
  for (const { at, subject, name, days, workers, open } of tasks) {
    const people = clearance(workers, context, days?.from ?? today);
    if (people === 'qualified') continue;
    for (const conductor of tree.conductors) {
      const standing = crewNearness(context, conductor);
      if (standing === 'within' || deadOn(conductor, days) === 'all') continue;
      if (open !== undefined && nearness(context, conductor, open) !== 'within') continue;
      const who =
        people === 'not named'
          ? 'names no crew'
          : people === 'expired'
            ? 'names no one with a valid line-clearance certificate on that date'
            : 'names no one qualified for line clearance';
      yield {
        at,
        grade: standing,
        ...(standing === 'exceeds' ? { level: 'warning' } : {}),
        subject,
        message: `${capital(name)} ${who}. Line ${conductorName(conductor)} is ${conductorPlace(conductor)}, inside the ${showKeep(crewDistance(conductor, settings), conductor, tree)} that requires a line-clearance crew (${ratio.value} times the minimum approach distance of ${approachSource(conductor, settings)}; ${authority(ratio)}).`,
        remedy: open
          ? `Assign a crew qualified for line clearance, or ${lineOff(conductor, days).words}.`
          : 'Record who did the work with their line-clearance qualification, and the days on which the line was de-energized (dead).',
        advice: open ? lineOff(conductor, days).advice : [],
        related: [pointTo(conductor.at, 'The line')],
      };
    }
  }
}

export const conductorCrew: Rule = {
  name: 'conductor-crew',
  group: 'electricity',
  level: 'warning',
  summary: 'work near an overhead power line without a line-clearance crew',
  sources: [cite('osha-333'), cite('osha-269'), cite('z133'), cite('practice')],
  explanation:
    'Checks open prescriptions and recorded work on trees with a conductor closer than the minimum approach distance multiplied by the limit line-crew-ratio. Branches swing, ropes and pole tools extend the reach, and a cut piece can fall into the line. That close, the trade uses qualified line-clearance tree trimmers.\n\nWhere an open prescription is or may be within the minimum approach distance itself, conductor-distance reports it instead.',
  limitations:
    'Work that stays on the far side of the crown: record the distance to the work, not to the crown.',
  appliesTo: ['conductors'],
  acceptable: true,
  caution:
    'A line is energized until its owner has de-energized, tested and grounded it. The person on site decides how close the work may come.',
  examples: [
    {
      title: 'At 14 ft with a climbing crew, and with no crew named',
      text: `site "Mill Lane"
  region US-OR

crew ROPE "Rope crew"
  qualified climbing arborist

tree 71
  conductor "Lane line"
    voltage 12.5 kV
    distance 14 ft
  prescription R1 reduce
    dose 8 %
    with ROPE #! warning exceeds
  prescription R2 clean #! warning exceeds
    dose 3 %
`,
    },
    {
      title: 'Possibly within twice the distance; and completed work, under the crew of its prescription',
      text: `site "Mill Lane"
  region US-OR

crew ROPE "Rope crew"
  qualified climbing arborist

tree 72
  conductor "Lane line"
    voltage 12.5 kV
    distance 18..24 ft
  prescription R1 reduce
    dose 8 %
    with ROPE #! may exceed

tree 73
  conductor "Lane line"
    voltage 12.5 kV
    distance 6 ft
  prescription R1 reduce
    dose 8 %
    with ROPE
  work R1 2026-02-03 #! warning exceeds
    dose 8 %
`,
    },
    {
      title:
        'A line-clearance crew; far enough away; line de-energized that day; a prescription to monitor only',
      text: `site "Mill Lane"
  region US-OR

person DO "Dell Okafor"
  qualified line clearance

crew LINE "Line crew"
  members DO
  qualified line clearance

tree 74
  conductor "Lane line"
    voltage 12.5 kV
    distance 14 ft
    dead 2026-02-03..2026-02-04
  prescription R1 reduce
    dose 8 %
    with LINE
  prescription R2 clean
    dose 3 %
  work R2 2026-02-03
    dose 3 %
  prescription R3 watch

tree 75
  conductor "Lane line"
    voltage 12.5 kV
    distance 20 ft
  prescription R1 reduce
    dose 8 %
`,
    },
  ],
  check,
};
