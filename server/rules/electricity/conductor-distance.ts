import {
  clearance,
  conductorName,
  conductorPlace,
  crewOf,
  deadOn,
  nearness,
  showApproach,
} from '../../assess/conductors.ts';
import { isRead } from '../../assess/fall-zone.ts';
import { daysLeft, jobName, openWork } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import type { Conductor } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { lineOff } from '../line-off.ts';
import { pointTo, type Rule, type RuleReport } from '../rule.ts';

/** The missing readings, as the end of the remedy. */
function reading({ voltage, distance }: Conductor): string {
  const missing = [
    ...(voltage && Number.isFinite(voltage.value.high) ? [] : ['ask the line’s owner for the voltage']),
    ...(distance && Number.isFinite(distance.value.high)
      ? []
      : ['have the distance measured from the ground']),
  ];
  return missing.length > 0 ? `; ${missing.join(' and ')}` : '';
}

/** Without a recorded distance or voltage the worst case counts. */
const measured = ({ voltage, distance }: Conductor): boolean => isRead(voltage) && isRead(distance);

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  for (const prescription of openWork(tree)) {
    const days = daysLeft(prescription, today);
    const people = clearance(crewOf(prescription), context, days?.from ?? today);
    if (people === 'qualified') continue;
    for (const conductor of tree.conductors) {
      const standing = nearness(conductor, settings);
      const dead = deadOn(conductor, days);
      if (standing === 'within' || dead === 'all') continue;
      const who =
        people === 'not named'
          ? 'no crew is named'
          : people === 'expired'
            ? `no line clearance certificate in crew ${prescription.crew!.value} holds any more`
            : `crew ${prescription.crew!.value} is not qualified for line clearance`;
      const only =
        dead === 'some'
          ? `, and it is dead only on ${formatDate(conductor.dead!.from)}..${formatDate(conductor.dead!.to)}`
          : '';
      const off = lineOff(conductor, days);
      yield {
        at: prescription.crew ?? prescription.at,
        grade: (standing === 'exceeds' || !measured(conductor)) && dead === 'none' ? 'exceeds' : 'may exceed',
        subject: prescription.id.value,
        message: `Line ${conductorName(conductor)} is ${conductorPlace(conductor)}; people not qualified for line clearance keep ${showApproach(conductor, settings)} (${settings.approach.citation.short}), and for ${jobName(prescription)} ${who}${only}.`,
        remedy: `Give the work to a line clearance crew, or ${off.words}${reading(conductor)}.`,
        advice: off.advice,
        related: [pointTo(conductor.at, 'The line')],
      };
    }
  }
}

export const conductorDistance: Rule = {
  name: 'conductor-distance',
  group: 'electricity',
  level: 'error',
  summary: 'work closer to an overhead power line than unqualified workers may come',
  sources: [cite('osha-333'), cite('osha-269'), cite('z133')],
  explanation: `Checks open prescriptions that send a crew to a tree with conductors. Workers who are not qualified for line clearance, and anything they hold, keep 10 ft from lines of up to 50 kV, plus 4 in for each additional 10 kV or part of it. The recorded distance to the crown or the work is compared with that distance, both as intervals. Without a recorded voltage, every voltage up to the limit line-voltage is possible; without a recorded distance, every distance is.

Work in the crown comes closer to the line than the crown itself: branches swing and tools are long. The finding exceeds where no qualified crew is named and the whole distance is too short, or could be because the distance or the voltage is not recorded. It may exceed where the interval straddles the required distance, or the line is de-energized on only some of the days. Nothing is reported where the crew is qualified on the first day, or the line is de-energized on every day of the window.

The law is that of the United States; where local law is stricter, it applies.`,
  limitations: 'No exceptions: have the line de-energized and grounded, or use qualified workers.',
  appliesTo: ['conductors'],
  acceptable: false,
  caution:
    'A line is live until its owner has switched it off, tested and earthed it; low voltage and insulation kill too. Keep away and call the owner.',
  examples: [
    {
      title: 'Twigs 3 to 5 ft from a line, and a crew not qualified for line clearance',
      text: `site "Mill Lane"
  region US-OR

crew ROPE "Rope crew"
  qualified climbing arborist, ground worker

tree 61
  conductor "Lane line"
    voltage 12.5 kV
    distance 3..5 ft
  prescription R1 reduce
    dose 10 %
    between 2026-09-21..2026-09-25
    with ROPE #! exceeds
`,
    },
    {
      title: 'Unknown voltage, straddling distance, no crew named',
      text: `site "Mill Lane"
  region US-OR

crew ROPE "Rope crew"
  qualified climbing arborist

tree 62
  conductor "Field line"
    distance 20 ft
  prescription R1 reduce
    dose 10 %
    with ROPE #! exceeds

tree 63
  conductor "Field line"
    voltage 110 kV
    distance 11..13 ft
  prescription R1 reduce
    dose 10 %
    with ROPE #! may exceed

tree 64
  conductor "Lane line"
    voltage 240 V
    distance 4 ft
  prescription R1 clean #! exceeds
    dose 3 %
`,
    },
    {
      title: 'De-energized on some of the days only',
      text: `site "Mill Lane"
  region US-OR

crew ROPE "Rope crew"
  qualified climbing arborist

tree 65
  conductor "Lane line"
    voltage 12.5 kV
    distance 6 ft
    dead 2026-09-14..2026-09-16
  prescription R1 clean
    dose 3 %
    between 2026-09-14..2026-09-18
    with ROPE #! may exceed
`,
    },
    {
      title:
        'A qualified crew, a line that is dead throughout, a line far enough away, and work that is done',
      text: `site "Mill Lane"
  region US-OR

crew ROPE "Rope crew"
  qualified climbing arborist

crew LINE "Line crew"
  qualified line clearance

tree 66
  conductor "Lane line"
    voltage 12.5 kV
    distance 6 ft
    dead 2026-09-14..2026-09-16
  prescription R1 clean
    dose 3 %
    between 2026-09-14..2026-09-16
    with ROPE
  prescription R2 reduce
    dose 10 %
    with LINE
  prescription R3 thin
    dose 5 %
    with ROPE
  work R3 2026-02-03
    dose 5 %

tree 67
  conductor "Lane line"
    voltage 12.5 kV
    distance 10 ft
  prescription R1 clean
    dose 3 %
    with ROPE
`,
    },
    {
      title: 'A line clearance certificate that expires before the work',
      text: `site "Mill Lane"
  region US-OR

person DO "Dell Okafor"
  qualified line clearance
  certificate "line clearance 0452", until 2026-08-31

crew LINE "Line crew"
  members DO
  qualified line clearance

tree 68
  conductor "Lane line"
    voltage 12.5 kV
    distance 6 ft
  prescription R1 reduce
    dose 10 %
    between 2026-08-20..2026-08-28
    with LINE
  prescription R2 clean
    dose 3 %
    between 2026-09-14..2026-09-16
    with LINE #! exceeds
`,
    },
  ],
  check,
};
