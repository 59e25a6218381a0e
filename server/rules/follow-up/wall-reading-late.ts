import { type DecayCourse, decayCourses, wallOn } from '../../assess/decay-time.ts';
import { defectName, lastLook, openFollowUps } from '../../assess/evidence.ts';
import { defectInterval } from '../../assess/inspection-interval.ts';
import { showLimit } from '../../assess/judge.ts';
import { lengthLike } from '../../assess/prescriptions.ts';
import { signsOf } from '../../assess/signs.ts';
import { formatDate } from '../../base/dates.ts';
import { isLess } from '../../base/interval.ts';
import { capital } from '../../base/words.ts';
import { isReadingDamaged } from '../../facts/damage.ts';
import type { FollowUp } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import { weakGroundWords } from '../../practice/weak-ground.ts';
import type { TreeContext } from '../context.ts';
import { followUp } from '../records-to-fill.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

const READS_WALLS: ReadonlySet<FollowUp['kind']['value']> = new Set([
  'tomogram',
  'resistance drilling',
  'probe',
  'climbing inspection',
  're-inspection',
]);

/** Days of planned follow-ups that read the wall. */
const plannedDays = ({ defect }: DecayCourse, { tree }: TreeContext): readonly number[] =>
  openFollowUps(tree).flatMap(({ due, kind, of }) =>
    due &&
    READS_WALLS.has(kind.value) &&
    (of.length === 0 || of.some(({ value }) => value === defect.id.value))
      ? [due.value]
      : [],
  );

/** The day on which the wall is next looked at, by a planned follow-up or by the interval between inspections. */
function nextDay(planned: readonly number[], { tree, site, settings, today }: TreeContext): number {
  const last = lastLook(tree, today)?.day ?? today;
  const byInterval = last + Math.floor(defectInterval(site, settings));
  return Math.max(today, Math.min(...planned, byInterval));
}

const weakWords = ({ weak }: DecayCourse): string =>
  weak.length === 0
    ? ''
    : ` Uncertain basis: ${weak.map(weakGroundWords).join(', ')}. Two readings three years apart would replace it.`;

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, site, settings, today } = context;
  const courses = decayCourses(tree, site, settings);
  if (courses.length === 0) return;
  const signs = signsOf(context);
  for (const course of courses) {
    const { defect, limitDays, halfway, wall, read, limit } = course;
    // A hollow that may be beyond a limit already is told of by strength-loss, and one that is to be felled by nobody.
    if (signs.find(one => one.defect === defect)?.standing !== 'within' || isReadingDamaged(tree, defect))
      continue;
    if (!isLess(limit.high, wall.low) || !Number.isFinite(limitDays.low)) continue;
    const planned = plannedDays(course, context);
    const next = nextDay(planned, context);
    const by = Math.max(halfway, today);
    if (next <= halfway || planned.some(day => today <= day && day <= by)) continue;
    const thin = (metres: number) => lengthLike(metres, defect.diameter?.value);
    const mark = showLimit({ setting: settings.limit('wall-share') });
    const on = wallOn(course, next);
    yield {
      at: spanOf(defect.id),
      grade: 'may exceed',
      subject: defect.id.value,
      message: `${capital(defectName(defect))}: the sound wall was at least ${thin(wall.low)} on ${formatDate(read)}. It may thin to ${mark} of the diameter as early as ${formatDate(limitDays.low)}. The next inspection is not until ${formatDate(next)}, when ${thin(on.low)} may be left (${course.basis}).`,
      remedy: `Measure the wall again by ${formatDate(by)}.${weakWords(course)}`,
      advice: [followUp(tree, 'resistance drilling', [defect.id.value], by)],
    };
  }
}

export const wallReadingLate: Rule = {
  name: 'wall-reading-late',
  group: 'follow-up',
  level: 'warning',
  summary: 'a sound wall that decay may bring to its limit before the next inspection',
  sources: [cite('usda-hazard-codes'), cite('schwarze-baum-2000'), cite('practice')],
  rests: 'safety',
  explanation:
    'Applies to cavities and decay that are within their limits and have a measured wall. It projects the thinnest wall from the date of its reading, by the width of the rings the stem adds and by the outward advance of the decay.\n\nThe ring width comes from two dated diameters at least three years apart, otherwise 0.5 to 3 mm as for a mature tree. The decay advances up to 2 mm a year behind a closed wound of a tree in good vigor, and up to 4 mm in an open cavity. It advances 2 to 10 mm with a fungus that breaches the barrier of that tree, or on a declining tree. Where vigor or fungus is not known, it advances 0 to 10 mm. These rates are a judgment, since no study measured them. Two readings of the wall at one bearing replace both figures if they are three years apart, or if their records state the error.\n\nThe next reading is due in half the time in which the wall may thin to a sixth of the diameter (the limit wall-share), but not sooner than a year. The next inspection is the earliest follow-up that measures walls, or the last inspection plus the limit inspection-interval, or the interval of the site where that is shorter. The finding reports an inspection that comes later.',
  limitations:
    'Cavities and decay beyond a limit or not judged, which strength-loss and not-judged report. Walls without a dated inspection. Walls already at or below a sixth of the diameter. Pockets between the bearings that were measured.',
  appliesTo: ['defects'],
  acceptable: true,
  examples: [
    {
      title: 'A wall read seven years ago, with an unnamed fungus',
      text: `tree 341
  species Tilia cordata
  vigor good
  inspection 2019-05-04 from ground
  defect A decay #! may exceed
    on trunk at 3 ft
    diameter 30 in
    wall 7 in
  defect B fungus
    on trunk at 8 ft
    closed 2020-01-01 "gone"
  defect C fungus
    on trunk at 9 ft
  inspection 2026-05-04 from ground
`,
    },
    {
      title: 'Read last year; read again since; thick',
      text: `tree 342
  vigor good
  inspection 2025-05-04 from ground
  defect A decay
    diameter 30 in
    wall 7 in

tree 343
  vigor good
  inspection 2017-05-04 from ground
  defect A decay
    diameter 30 in
    wall 7 in at N, 7 in at E, 7 in at S, 7 in at W
  drilling 2026-04-02 of A
    wall 7 in at N, 7 in at E, 7 in at S, 7 in at W
  inspection 2026-05-04 from ground

tree 344
  vigor good
  inspection 2025-05-04 from ground
  defect A decay
    diameter 30 in
    wall 12 in
`,
    },
  ],
  check,
};
