import {
  clearance,
  conductorName,
  conductorPlace,
  crewOf,
  deadOn,
  nearness,
  showKeep,
} from '../../assess/conductors.ts';
import { compared, distancesFor, everybodys, requiredBy, workDistance } from '../../assess/line-distances.ts';
import { daysLeft, jobName, openWork } from '../../assess/prescriptions.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { lineOff } from '../line-off.ts';
import { missingReadings } from '../missing-line-readings.ts';
import { pointTo, type Rule, type RuleReport } from '../rule.ts';

/** Whether a crane lifts the pieces: the takedown says so, or a crew with a crane takes pieces of a stated size. */
function isByCrane({ crew }: TreeContext, { piece, takedown, crew: id }: Prescription): boolean {
  if (takedown) return takedown.how === 'by crane';
  return piece !== undefined && id !== undefined && crew(id.value)?.crane !== undefined;
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  if (tree.conductors.length === 0) return;
  const own = distancesFor(settings, ['machine']);
  const rows = own.length > 0 ? own : [everybodys(settings)];
  for (const prescription of openWork(tree)) {
    if (!isByCrane(context, prescription)) continue;
    const days = daysLeft(prescription, today);
    const isLineCrew = clearance(crewOf(prescription), context, days?.from ?? today) === 'qualified';
    for (const conductor of tree.conductors) {
      const dead = deadOn(conductor, days);
      // What is too near for the people of the crew is reported by conductor-distance.
      if (dead === 'all' || (!isLineCrew && nearness(context, conductor, prescription) !== 'within'))
        continue;
      const standings = rows.map(row => {
        const keep = requiredBy(row, conductor, settings);
        const near = workDistance(conductor, tree, prescription, row, keep.high, settings);
        return { row, keep, standing: compared(near, keep) };
      });
      const found =
        standings.find(({ row, standing }) => standing !== 'within' && row.force === 'law') ??
        standings.find(({ standing }) => standing !== 'within');
      if (!found) continue;
      const { row, keep, standing } = found;
      const isLaw = row.force === 'law';
      const off = lineOff(conductor, days);
      yield {
        at: prescription.at,
        grade: standing === 'exceeds' && isLaw && dead === 'none' ? 'exceeds' : 'may exceed',
        subject: prescription.id.value,
        message: `Line ${conductorName(conductor)} is ${conductorPlace(conductor)}. For ${jobName(prescription)} the minimum distance of a crane, its ropes and its load is ${showKeep(keep, conductor, tree)} (${row.source})${isLaw ? '' : ', the safer practice'}.`,
        remedy: `Set up the crane so that boom and load cannot come closer, with a dedicated spotter. Or ${off.words}${missingReadings(conductor, [row.rule], standing)}.`,
        advice: off.advice,
        related: [pointTo(conductor.at, 'The line')],
      };
    }
  }
}

export const craneNearConductor: Rule = {
  name: 'crane-near-conductor',
  group: 'electricity',
  level: 'error',
  summary: 'a takedown by crane with an overhead power line closer than a machine may come',
  sources: [cite('osha-333'), cite('practice')],
  explanation:
    'Checks open takedowns by crane on trees with conductors. The distances are those of the region for machines, otherwise those for everyone. A line-clearance crew does not change them, because the boom reaches beyond where workers stand.\n\nIn the United States 29 CFR 1910.333(c)(3)(iii) applies: 10 ft, plus 4 in for each 10 kV above 50 kV to ground. Table A of the crane standard for construction excludes tree work and is not binding, but its wider distances are the safer practice. Closer than those is a warning.\n\nWhere workers would also be too close, conductor-distance reports it.',
  limitations: 'The crane’s setup point and the swing of its boom, which are not recorded.',
  appliesTo: ['conductors'],
  acceptable: false,
  caution: 'A crane that touches a line kills anyone touching the crane, the load or the ground beside it.',
  examples: [
    {
      title: 'A line clearance crew with a crane 8 ft from a line; beside a line of 115 kV',
      text: `site "Mill Lane"
  region US-OR

crew CRANE "Crane crew"
  qualified line clearance, crane operator
  crane 6000 lb at 60 ft

tree 61
  height 50 ft
  conductor "Lane line"
    voltage 12.5 kV
    distance 8 ft
  prescription R1 fell #! exceeds
    takedown by crane
    with CRANE

tree 62
  height 50 ft
  conductor "Ridge line"
    voltage 115 kV
    distance 14 ft
  prescription R1 fell #! may exceed
    takedown by crane
    with CRANE
`,
    },
    {
      title: 'Far enough; dead on all days; no crane in the work',
      text: `site "Mill Lane"
  region US-OR

crew CRANE "Crane crew"
  qualified line clearance, crane operator
  crane 6000 lb at 60 ft

tree 63
  height 50 ft
  conductor "Lane line"
    voltage 12.5 kV
    distance 8 ft
    dead 2026-09-14..2026-09-16
  conductor "Field line"
    voltage 12.5 kV
    distance 12 ft
  prescription R1 fell
    takedown by crane
    between 2026-09-14..2026-09-16
    with CRANE
  prescription R2 reduce
    dose 8 %
    with CRANE
`,
    },
  ],
  check,
};
