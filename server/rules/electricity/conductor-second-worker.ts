import { crewCalled } from '../../assess/called.ts';
import {
  atMinimum,
  classesOf,
  clearance,
  conductorName,
  conductorPlace,
  crewMinimum,
  crewOf,
  deadOn,
} from '../../assess/conductors.ts';
import { readingOf } from '../../assess/fall-zone.ts';
import { secondWorkerRows } from '../../assess/line-distances.ts';
import { daysLeft, jobName, lengthUp, openWork } from '../../assess/prescriptions.ts';
import { qualifiedOn } from '../../assess/qualifications.ts';
import { isLess } from '../../base/interval.ts';
import { counted } from '../../base/words.ts';
import type { Conductor, Crew, Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import { cited, type RowOf } from '../../practice/law/laws-of.ts';
import type { TreeContext } from '../context.ts';
import { pointTo, type Rule, type RuleReport } from '../rule.ts';

type SecondWorker = RowOf<'second worker'>;

/** Members who count as the second; all of them where nothing says who of the crew is qualified. */
function trained({ person }: TreeContext, crew: Crew, day: number, trainee: boolean): number {
  const members = crew.members.flatMap(({ value }) => person(value) ?? []);
  const own = members.filter(
    member => qualifiedOn(member, 'line clearance', day) || (trainee && qualifiedOn(member, 'trainee', day)),
  );
  return own.length === 0 ? crew.members.length : own.length;
}

/** Whether a row asks for a second worker at a conductor. */
function asksFor(
  context: TreeContext,
  { rule }: SecondWorker,
  prescription: Prescription,
  conductor: Conductor,
  day: number,
): 'exceeds' | 'may exceed' | 'within' {
  const { tree, site, settings } = context;
  if (rule.above !== undefined) {
    const volts = readingOf(conductor.voltage, settings);
    if (!isLess(rule.above, volts.high)) return 'within';
  }
  if (rule.within === undefined) return 'exceeds';
  const distance = readingOf(conductor.distance, settings);
  if (isLess(distance.high, rule.within)) return 'exceeds';
  const minimum = crewMinimum(classesOf(crewOf(prescription), context, day), conductor, settings, site);
  // Branches nearer than the tables allow call for one as well.
  const branches = atMinimum({ tree, settings }, prescription, conductor, minimum);
  return isLess(distance.low, rule.within) || branches !== 'within' ? 'may exceed' : 'within';
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today, crew } = context;
  const rows = secondWorkerRows(settings.region.rows);
  if (rows.length === 0) return;
  for (const prescription of openWork(tree)) {
    const named = prescription.crew && crew(prescription.crew.value);
    if (!named) continue;
    const days = daysLeft(prescription, today);
    const day = days?.from ?? today;
    const isLineCrew = clearance(crewOf(prescription), context, day) === 'qualified';
    for (const row of rows) {
      const { aloft, trainee = false } = row.rule;
      const isAloft = aloft !== undefined;
      if (!isAloft && !isLineCrew) continue;
      const present = isAloft ? named.members.length : trained(context, named, day, trainee);
      if (present >= 2) continue;
      const who = `${crewCalled(prescription.crew!.value, named)} ${named.members.length === 0 ? 'has no members on record' : `has ${counted(present, isAloft ? 'member' : 'line-clearance worker')}`}`;
      const report = { at: prescription.crew!, subject: prescription.id.value };
      const remedy = 'Name a second worker in the crew who stays within sight and earshot of the first.';
      if (isAloft) {
        if (!isLess(aloft, readingOf(tree.height, settings).high)) continue;
        yield {
          ...report,
          grade: named.members.length === 0 ? 'may exceed' : 'stated',
          level: 'warning',
          message: `Above ${lengthUp(aloft, tree.height?.value)} a second worker is required within sight or earshot (${cited(row)}). For ${jobName(prescription)}, ${who}.`,
          remedy,
        };
        continue;
      }
      const found = tree.conductors
        .filter(conductor => deadOn(conductor, days) !== 'all')
        .map(conductor => ({ conductor, standing: asksFor(context, row, prescription, conductor, day) }))
        .filter(({ standing }) => standing !== 'within')
        .sort((a, b) => (a.standing === b.standing ? 0 : a.standing === 'exceeds' ? -1 : 1))[0];
      if (!found) continue;
      const { conductor, standing } = found;
      yield {
        ...report,
        grade: standing === 'exceeds' && named.members.length > 0 ? 'exceeds' : 'may exceed',
        message: `Line ${conductorName(conductor)} is ${conductorPlace(conductor)}. A second line-clearance worker${trainee ? ', or a trainee,' : ''} is required there (${cited(row)}). For ${jobName(prescription)}, ${who}.`,
        remedy,
        related: [pointTo(conductor.at, 'The line')],
      };
      break;
    }
  }
}

export const conductorSecondWorker: Rule = {
  name: 'conductor-second-worker',
  group: 'electricity',
  level: 'error',
  summary: 'work near a line, or aloft, by one worker where the law requires a second',
  sources: [cite('osha-269'), cite('practice')],
  explanation:
    'Checks open prescriptions of named crews where the region has a row on a second worker. In the United States a second line-clearance tree trimmer must be within earshot where the work comes closer than 10 ft to anything energized at more than 750 V. The same applies where branches are closer than the line-clearance tables allow. Washington and Oregon set 600 V. California requires a second worker at each work location, and a trainee counts. Virginia requires a second worker above 12 ft, near lines or not.\n\nThe members of the crew who are qualified for line clearance on the day count. Where no member’s record states a qualification, all of them count. A crew without members on record may be one person.',
  limitations: 'Whether the second worker stays within sight and earshot is up to the person on site.',
  appliesTo: ['prescriptions'],
  acceptable: true,
  caution:
    'Self-rescue from a line is impossible. The second worker calls for help and keeps away until the line is de-energized and grounded.',
  examples: [
    {
      title: 'One trimmer 6 ft from 12.5 kV; a pair; one trimmer at a service drop',
      text: `site "Mill Lane"
  region US-OR

person DO "Dell Okafor"
  qualified line clearance

person LS "Lena Sand"
  qualified line clearance

crew ONE "Line crew"
  members DO
  qualified line clearance

crew TWO "Line crew"
  members DO, LS
  qualified line clearance

tree 61
  conductor "Lane line"
    voltage 12.5 kV
    distance 6 ft
  prescription R1 reduce
    dose 8 %
    with ONE #! exceeds
  prescription R2 clean
    dose 3 %
    with TWO

tree 62
  conductor "Service drop"
    voltage 240 V
    distance 6 ft
  prescription R1 reduce
    dose 8 %
    with ONE
`,
    },
    {
      title: 'In Virginia, one climber; a crew whose members are not on record',
      text: `site "Mill Lane"
  region US-VA

person JM "Jonah Mraz"
  qualified climbing arborist

crew ONE "Rope crew"
  members JM

crew ROPE "Rope crew"

tree 63
  height 40 ft
  prescription R1 reduce
    dose 8 %
    with ONE #! warning stated
  prescription R2 clean
    dose 3 %
    with ROPE #! may exceed
`,
    },
  ],
  check,
};
