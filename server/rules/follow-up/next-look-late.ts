import { type Course, coursesOf, courseWords } from '../../assess/courses.ts';
import { openFollowUps } from '../../assess/evidence.ts';
import { showLimit } from '../../assess/judge.ts';
import { nextLookOf } from '../../assess/next-look.ts';
import { signsOf } from '../../assess/signs.ts';
import { formatDate } from '../../base/dates.ts';
import { capital } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { followUp } from '../records-to-fill.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

/** Days of planned follow-ups of the whole tree, or of this. */
const plannedDays = ({ subject }: Course, { tree }: TreeContext): readonly number[] =>
  openFollowUps(tree).flatMap(({ due, of }) =>
    due && (of.length === 0 || of.some(({ value }) => value === subject)) ? [due.value] : [],
  );

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, site, settings, today } = context;
  const courses = coursesOf(tree, site, settings);
  if (courses.length === 0) return;
  const byInterval = nextLookOf(context)?.byInterval ?? today;
  const signs = signsOf(context);
  for (const course of courses) {
    const { subject, name, to, judged, limitDays, halfway } = course;
    if (!Number.isFinite(limitDays.low)) continue;
    // What is not within its limits is told of by other rules.
    if (signs.find(one => one.subject === subject)?.standing !== 'within') continue;
    const planned = plannedDays(course, context);
    const next = Math.max(today, Math.min(...planned, byInterval));
    const by = Math.max(halfway, today);
    if (next <= halfway || planned.some(day => today <= day && day <= by)) continue;
    yield {
      at: spanOf(to.quantity),
      grade: 'may exceed',
      subject,
      message: `${capital(name)}: ${courseWords(course)}. It may reach ${showLimit(judged)} as early as ${formatDate(limitDays.low)}. The next inspection is not until ${formatDate(next)}.`,
      remedy: `Inspect the tree again by ${formatDate(by)}.`,
      advice: [followUp(tree, 're-inspection', [], by)],
    };
  }
}

export const nextLookLate: Rule = {
  name: 'next-look-late',
  group: 'follow-up',
  level: 'warning',
  summary: 'a lean, dieback or share that may reach its limit before the next inspection',
  sources: [cite('practice')],
  rests: 'safety',
  explanation:
    'Checks what is within its limits and was measured on several days: the lean of the tree, the dieback of its crown, and the share of the crown, girth or roots that a defect affects. The change per year is everything that the first and the last reading allow. Each reading has its own range, and both have the error of a reading (the limits lean-change and share-change).\n\nThe fastest of these changes gives the earliest date at which the limit may be reached. The next reading is due in half that time, but not sooner than a year. The next inspection is the earliest follow-up of the tree or the defect, or the last inspection plus the interval that applies. The finding reports an inspection that comes later. A lean is compared with the limit lean-with-heave first, then with lean.',
  limitations:
    'Readings less than a year apart, and single readings, which give no rate of change. Signs beyond a limit or not judged, which other rules report. Walls of cavities, which wall-reading-late reports. A slow change may become fast: a storm, a cut root or a new fungus is a reason to inspect whatever the rate.',
  appliesTo: ['defects', 'lean', 'condition'],
  acceptable: true,
  examples: [
    {
      title: 'A canker that spreads, and the next inspection three years ahead',
      text: `site "Wren Park"
  interval 36 months

practice "Wood edge"
  limit inspection-interval 36 months
    because "few people"

tree 491
  inspection 2023-05-04 from ground
  defect A canker
    on trunk at 3 ft
    share 10 % of circumference
  inspection 2026-05-06 from ground
  defect A canker
    share 18 % of circumference #! warning may exceed
`,
    },
    {
      title: 'Looked at in time; planned; read once; closing; a lean that stays',
      text: `tree 492
  lean 4 deg toward N, steady
  inspection 2022-05-04 from ground
    lean 4 deg toward N, steady
  defect A canker
    on trunk at 3 ft
    share 8 % of circumference
  inspection 2026-05-06 from ground
    lean 5 deg toward N, steady
  defect A canker
    share 12 % of circumference
  defect B wound
    on trunk at 5 ft
    share 20 % of circumference

tree 493
  inspection 2022-05-04 from ground
  defect A wound
    on trunk at 3 ft
    share 28 % of circumference
  inspection 2026-05-06 from ground
  defect A wound
    share 8 % of circumference
`,
    },
  ],
  check,
};
