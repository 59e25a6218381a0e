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
      message: `${capital(name)}: ${courseWords(course)}; it may come to ${showLimit(judged)} from ${formatDate(limitDays.low)} on, but it is next looked at on ${formatDate(next)}.`,
      remedy: `Look at the tree again by ${formatDate(by)}.`,
      advice: [followUp(tree, 're-inspection', [], by)],
    };
  }
}

export const nextLookLate: Rule = {
  name: 'next-look-late',
  group: 'follow-up',
  level: 'warning',
  summary: 'a lean, dieback or share that may come to its limit before anybody looks again',
  sources: [cite('practice')],
  rests: 'safety',
  explanation:
    'For what is within its limits and was read on several days: the lean of the tree, the dieback of its crown, the share of the crown, the girth or the roots that a defect takes. Its change a year is everything that the first and the last reading allow, each with its own range and both with what two readings may be off (the limits lean-change and share-change). By the fastest of these changes it may come to its limit on a certain day; it should be read again in half the time until then, not sooner than a year. The next look is the earliest follow-up of the tree or of the defect, or the last inspection plus the interval that applies. Where it comes later, this is reported. A lean is read against the limit lean-with-heave first, then against lean.',
  limitations:
    'Readings less than a year apart, and what was read once: nothing says how fast it changes. Signs beyond a limit or not judged, which other rules report; walls of hollows, which wall-reading-late reports. A change that was slow may become fast: a storm, a cut root or a new fungus is a reason to look whatever the rate.',
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
