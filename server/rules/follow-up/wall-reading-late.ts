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
    : ` On weak ground: ${weak.map(weakGroundWords).join(', ')}; two readings three years apart replace it.`;

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
      message: `${capital(defectName(defect))}: its sound wall was ${thin(wall.low)} at the least on ${formatDate(read)} and may come down to ${mark} of the diameter from ${formatDate(limitDays.low)} on, but it is next looked at on ${formatDate(next)}, when ${thin(on.low)} may be left (${course.basis}).`,
      remedy: `Read the wall again by ${formatDate(by)}.${weakWords(course)}`,
      advice: [followUp(tree, 'resistance drilling', [defect.id.value], by)],
    };
  }
}

export const wallReadingLate: Rule = {
  name: 'wall-reading-late',
  group: 'follow-up',
  level: 'warning',
  summary: 'a sound wall that decay may bring to its limit before anybody looks again',
  sources: [cite('usda-hazard-codes'), cite('schwarze-baum-2000'), cite('practice')],
  rests: 'safety',
  explanation:
    'For cavities and decay within their limits, of which a wall was read: projects the thinnest wall from the day of its reading by the width of the rings that the stem adds and the advance of the decay outward. The rings are as wide as two dated diameters at least three years apart say, else 0.5 to 3 mm, as of a mature tree. The decay advances by up to 2 mm a year behind a closed wound of a tree in good vigor, up to 4 mm in an open cavity, 2 to 10 mm with a fungus that breaches the barrier of that tree or on a declining tree, and 0 to 10 mm where vigor or fungus are not known: a judgment, since no study measured it. Two readings of the wall at one bearing replace both if they are three years apart, or if their records state the error.\n\nThe wall should be read again in half the time in which it may come down to a sixth of the diameter (the limit wall-share), not sooner than a year. The next look is the earliest follow-up that reads walls, or the last inspection plus the limit inspection-interval, or the interval of the site where that is shorter. Where it comes later, this is reported.',
  limitations:
    'Hollows beyond a limit or not judged, which strength-loss and not-judged report; walls without a dated inspection; walls at or below a sixth of the diameter already; pockets between the bearings that were read.',
  appliesTo: ['defects'],
  acceptable: true,
  examples: [
    {
      title: 'A wall read seven years ago, with a fungus nobody named',
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
