import { crewCalled } from '../../assess/called.ts';
import {
  atMinimum,
  classesOf,
  conductorName,
  conductorPlace,
  crewMinimum,
  crewOf,
  deadOn,
  showKeep,
} from '../../assess/conductors.ts';
import { isRead } from '../../assess/fall-zone.ts';
import { daysLeft, jobName, openWork } from '../../assess/prescriptions.ts';
import { capital } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { lineOff } from '../line-off.ts';
import { missingReadings } from '../missing-line-readings.ts';
import { pointTo, type Rule, type RuleReport } from '../rule.ts';

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, site, settings, today } = context;
  if (tree.conductors.length === 0) return;
  for (const prescription of openWork(tree)) {
    const days = daysLeft(prescription, today);
    const classes = classesOf(crewOf(prescription), context, days?.from ?? today);
    if (classes.length === 0) continue;
    for (const conductor of tree.conductors) {
      const dead = deadOn(conductor, days);
      if (dead === 'all') continue;
      const minimum = crewMinimum(classes, conductor, settings, site);
      const standing = atMinimum(context, prescription, conductor, minimum);
      if (standing === 'within') continue;
      const { of, keep, source, row } = minimum;
      const measured = isRead(conductor.voltage) && isRead(conductor.distance);
      // Guidance for everybody need not have such crews in mind; law binds them too.
      const binds = of !== 'everyone' || row.force === 'law';
      const certain = (standing === 'exceeds' || !measured) && dead === 'none' && binds;
      const distance = `${showKeep(keep, conductor, tree)} (${source})`;
      const least =
        of === 'class'
          ? `the minimum approach distance for this qualification is ${distance}`
          : of === 'agreed'
            ? `its owner allows the crew no closer than ${distance}`
            : `no distance for this qualification is on record for ${settings.region.name}, so the distance for everyone applies: ${distance}`;
      const off = lineOff(conductor, days);
      const owner =
        of === 'everyone'
          ? 'Have the line’s owner state in writing how close the crew may come (agreed), or '
          : 'Keep people, tools and pieces at that distance, or ';
      yield {
        at: prescription.crew ?? prescription.at,
        grade: certain ? 'exceeds' : 'may exceed',
        subject: prescription.id.value,
        message: `Line ${conductorName(conductor)} is ${conductorPlace(conductor)}, and ${jobName(prescription)} is assigned to ${crewCalled(prescription.crew!.value, context.crew(prescription.crew!.value))}. ${capital(least)}${dead === 'some' ? '. The line is de-energized on only some of the days' : ''}.`,
        remedy: `${owner}${off.words}${missingReadings(conductor, [row.rule], standing, site?.altitude !== undefined)}.`,
        advice: off.advice,
        related: [pointTo(conductor.at, 'The line')],
      };
    }
  }
}

export const conductorMinimumDistance: Rule = {
  name: 'conductor-minimum-distance',
  group: 'electricity',
  level: 'error',
  summary: 'a qualified crew sent closer to an overhead power line than its own minimum distance',
  sources: [cite('osha-269'), cite('osha-333'), cite('practice')],
  explanation:
    'Checks open prescriptions of crews that are qualified for line clearance, or electrically instructed or qualified, on trees with conductors. Such crews may come closer than others, but they have a minimum approach distance of their own. In the United States, line-clearance tree trimmers keep the distances of tables R-6 and R-7 of 29 CFR 1910.269. These depend on the voltage, are wider where several phases are within reach, and are multiplied by the factors of table R-5 above 3,000 ft. Anything not recorded counts as possible: the voltage to ground or between phases, the number of phases within reach, the altitude of the site.\n\nA qualification counts where the region has a row for it. Elsewhere the distance for everyone remains, or the one agreed in writing with the owner of the line (agreed). The finding is an error where the distance for everyone is law. It is a warning where that distance is guidance or stands in for a law that is not on record. Utility clearances and growth limits are not working distances and are never used.',
  limitations:
    'The longest tool in use is not recorded: measure the distance to the work with it. For direct current and lines above the tables, ask the owner.',
  appliesTo: ['conductors'],
  acceptable: false,
  caution:
    'A line is energized until its owner has de-energized, tested and grounded it. Within the minimum distance, current can arc without contact.',
  examples: [
    {
      title:
        'A line clearance crew 1 ft from a line of 12.5 kV; at 2.5 ft it depends on what is not recorded',
      text: `site "Mill Lane"
  region US-OR

crew LINE "Line crew"
  qualified line clearance

tree 61
  conductor "Lane line"
    voltage 12.5 kV
    distance 1 ft
  prescription R1 reduce
    dose 8 %
    with LINE #! exceeds

tree 62
  conductor "Lane line"
    voltage 12.5 kV
    distance 2.5 ft
  prescription R1 reduce
    dose 8 %
    with LINE #! may exceed
`,
    },
    {
      title: 'At 2.5 ft with everything recorded; on a high site it is too near again; a line that is dead',
      text: `site "Mill Lane"
  region US-OR
  altitude 640 ft

crew LINE "Line crew"
  qualified line clearance

tree 63
  conductor "Lane line"
    voltage 12.5 kV between phases
    phases one
    distance 2.5 ft
  prescription R1 reduce
    dose 8 %
    with LINE

tree 64
  conductor "Lane line"
    voltage 12.5 kV
    distance 1 ft
    dead 2026-09-14..2026-09-16
  prescription R1 reduce
    dose 8 %
    between 2026-09-14..2026-09-16
    with LINE
`,
    },
    {
      title:
        'Germany: line clearance is not a class of its own, so the general distance counts, or the owner’s',
      text: `site "Hof"
  region DE

crew LINE "Line crew"
  qualified line clearance

crew SAFE "Instructed crew"
  qualified electrically instructed

tree 65
  conductor "Lane line"
    voltage 20 kV between phases
    distance 2 m
  prescription R1 reduce
    dose 8 %
    with LINE #! exceeds
  prescription R2 clean
    dose 3 %
    with SAFE

tree 66
  conductor "Lane line"
    voltage 20 kV
    distance 2 m
    agreed 1.6 m "letter of the utility, 2026-03-02"
  prescription R1 reduce
    dose 8 %
    with LINE
`,
    },
  ],
  check,
};
