import { crewCalled } from '../../assess/called.ts';
import {
  approachSource,
  clearance,
  conductorName,
  conductorPlace,
  crewOf,
  deadOn,
  nearness,
  showApproach,
} from '../../assess/conductors.ts';
import { isRead } from '../../assess/fall-zone.ts';
import { everybodys } from '../../assess/line-distances.ts';
import { daysLeft, jobName, openWork } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { showQuantity } from '../../base/quantity.ts';
import type { Conductor } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { lineOff } from '../line-off.ts';
import { missingReadings } from '../missing-line-readings.ts';
import { pointTo, type Rule, type RuleReport } from '../rule.ts';

/** Without a recorded distance or voltage the worst case counts. */
const measured = ({ voltage, distance }: Conductor): boolean => isRead(voltage) && isRead(distance);

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  if (tree.conductors.length === 0) return;
  for (const prescription of openWork(tree)) {
    const days = daysLeft(prescription, today);
    const people = clearance(crewOf(prescription), context, days?.from ?? today);
    if (people === 'qualified') continue;
    for (const conductor of tree.conductors) {
      const standing = nearness(context, conductor, prescription);
      const dead = deadOn(conductor, days);
      if (standing === 'within' || dead === 'all') continue;
      const named = prescription.crew;
      const crewOfWork = named && crewCalled(named.value, context.crew(named.value));
      const who =
        people === 'not named'
          ? 'no crew is named'
          : people === 'expired'
            ? `no line-clearance certificate in ${crewOfWork} is valid any longer`
            : `${crewOfWork} is not qualified for line clearance`;
      const only =
        dead === 'some'
          ? `. The line is de-energized only on ${formatDate(conductor.dead!.from)}..${formatDate(conductor.dead!.to)}`
          : '';
      const piece = prescription.piece?.length;
      const isNearByPiece = piece !== undefined && nearness(context, conductor) === 'within';
      const swings = isNearByPiece ? `, and a piece of ${showQuantity(piece.value)} may swing closer` : '';
      const { rule } = everybodys(settings);
      const above =
        rule.shape === 'column'
          ? `. Anywhere above ${rule.below ? 'or below ' : ''}the line is too close as well`
          : '';
      const off = lineOff(conductor, days);
      yield {
        at: prescription.crew ?? prescription.at,
        grade: (standing === 'exceeds' || !measured(conductor)) && dead === 'none' ? 'exceeds' : 'may exceed',
        subject: prescription.id.value,
        message: `Line ${conductorName(conductor)} is ${conductorPlace(conductor)}${swings}. The minimum approach distance for unqualified workers is ${showApproach(conductor, settings, tree)} (${approachSource(conductor, settings)})${above}. For ${jobName(prescription)}, ${who}${only}.`,
        remedy: `Assign the work to a line-clearance crew, or ${off.words}${missingReadings(conductor, [rule], standing)}${isNearByPiece ? '. Or take shorter pieces' : ''}.`,
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
  sources: [cite('osha-333'), cite('osha-269'), cite('practice')],
  explanation:
    'Checks open prescriptions that send a crew to a tree with conductors. The minimum approach distance for workers without a line qualification is that of the region: `soundwood explain --here` prints the row with its force and source. Without a row on record, the office’s own distances count (a practice block may state them). Without those, the greatest distance known from anywhere stands in.\n\nIn the United States it is 10 ft up to 50 kV to ground, plus 4 in for each additional 10 kV or part of it. The recorded distance to the crown or the work is compared with it, both as ranges. Without a recorded voltage, every distance of the table is possible. Without a recorded distance, every distance is. A voltage recorded without its reference, between phases or to ground, counts as the stricter of the two.\n\nWork in the crown comes closer to the line than the crown itself. Branches swing, tools are long, and a piece may swing as far as it is long. Where the law counts the tree itself, its piece counts in full. Where everything above the line is too close, the distance to the side counts (aside). Without it, the heights of the tree and the line decide what is possible.\n\nThe finding exceeds where no qualified crew is named and the whole distance is too short, or could be because the distance or the voltage is not recorded. It may exceed where the range straddles the required distance, or where the line is de-energized on only some of the days. Qualified crews have a distance of their own: see conductor-minimum-distance. Where the law leaves the distance to the owner of the line, the distance agreed in writing with the owner counts (agreed).',
  limitations: 'No exceptions: have the line de-energized and grounded, or use qualified workers.',
  appliesTo: ['conductors'],
  acceptable: false,
  caution:
    'A line is energized until its owner has de-energized, tested and grounded it. Low voltage and insulated lines kill too. Keep away and call the owner.',
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
