import { activeNests, nestDays } from '../../assess/active-nests.ts';
import { showDays } from '../../assess/days.ts';
import { isEmergency } from '../../assess/emergency.ts';
import { currentJobs } from '../../assess/jobs.ts';
import { showInterval } from '../../assess/judge.ts';
import { isUnplaced, judgeNear, type NearNest, nestsNear } from '../../assess/near-nests.ts';
import { NESTING_CAUTION, nestingSeasons } from '../../assess/nesting.ts';
import { limitLike } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { unitOf } from '../../base/quantity.ts';
import type { DaySpan } from '../../base/yearly-window.ts';
import { noNestTrees } from '../../facts/nest-index.ts';
import type { Prescription } from '../../facts/types.ts';
import { nestBuffer } from '../../practice/birds.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { otherDaysOr } from '../other-days.ts';
import { NOTHING, type Remedy, type Rule, type RuleReport } from '../rule.ts';

const WAIT = 'wait until a nest check of that tree shows that the young have left, and record it there';
const ASK = 'Record what a wildlife biologist or the agency decided; if they were not asked, ask them now.';

/** What comes near a nest: a job, or an inspection from the crown. */
interface Visit extends Pick<RuleReport, 'at' | 'subject'> {
  readonly days: DaySpan;
  /** `reduce R1 may fall on 2026-05-01`. */
  readonly words: (days: DaySpan) => string;
  readonly open: Prescription | undefined;
}

const ALOFT: ReadonlySet<string> = new Set(['rope', 'lift']);
const REPORTED_DAYS = 366;

function visitsOf({ tree, today }: TreeContext): readonly Visit[] {
  const jobs = currentJobs(tree, today).flatMap(({ prescription, work, days, at, subject }): Visit[] => {
    if (!days) return [];
    const name = `${prescription.kind.value} ${prescription.id.value}`;
    return [
      {
        at,
        subject,
        days,
        open: work ? undefined : prescription,
        words: near =>
          work ? `${name} was done on ${formatDate(days.from)}` : `${name} may fall on ${showDays(near)}`,
      },
    ];
  });
  const climbs = [...tree.inspections, ...tree.nestChecks]
    .filter(({ from, date }) => ALOFT.has(from.value) && today - date.value <= REPORTED_DAYS)
    .map(
      ({ at, date, from }): Visit => ({
        at,
        subject: formatDate(date.value),
        days: { from: date.value, to: date.value },
        open: undefined,
        words: () => `somebody was in the crown (${from.value}) on ${formatDate(date.value)}`,
      }),
    );
  return [...jobs, ...climbs];
}

function check(context: TreeContext): readonly RuleReport[] {
  if (context.nestTreesNear === noNestTrees && context.tree.nestChecks.length === 0) return NOTHING;
  const near = nestsNear(context);
  const unplaced = unplacedNests(context);
  if (near.length === 0) return unplaced;
  return [...unplaced, ...visitsOf(context).flatMap(visit => reportOf(context, visit, near) ?? [])];
}

/** The nest that is worst for a visit. */
function reportOf(
  context: TreeContext,
  { at, subject, days, words, open }: Visit,
  nests: readonly NearNest[],
): RuleReport | undefined {
  const { settings, tree } = context;
  const found = nests.flatMap(near => {
    const inUse = nestDays(near.nest, days, near.seasons);
    const judged = judgeNear(near, settings, days.to);
    if (!inUse || judged?.standing === 'within') return [];
    const exceeds = inUse.grade === 'exceeds' && judged?.standing === 'exceeds';
    return [{ near, inUse, judged, grade: exceeds ? ('exceeds' as const) : ('may exceed' as const) }];
  });
  const placed = found.filter(({ judged }) => judged);
  const worst = found.find(({ grade }) => grade === 'exceeds') ?? placed[0] ?? found[0];
  if (!worst) return undefined;
  const { near, inUse, judged, grade } = worst;
  const { nest, where } = near;
  const bird = nest.species?.name;
  const setting = judged?.setting ?? settings.limit(nestBuffer(bird), days.to);
  const like = [nest.height?.value, tree.height?.value];
  const unit = like.find(quantity => quantity?.unit)?.unit ?? unitOf(setting.unit)!;
  const from = judged
    ? `${showInterval(judged.value, { unit: unit.symbol }, 0)} from this tree`
    : 'at an unknown distance, since this tree has no position, or only a coarse one';
  return {
    at,
    grade,
    ...(judged ? {} : { level: 'note' }),
    subject,
    message: `A nest${bird ? ` of ${bird}` : ''} ${nest.use === 'active' ? 'in use' : 'that may be in use'} was found on ${formatDate(nest.seen)} in ${where}, ${from}, and ${words(inUse)}; work keeps ${limitLike(setting, ...like)} away.`,
    ...(judged
      ? remedyOf(context, open, days)
      : { remedy: 'Write the position of this tree to at least five decimals, or keep the work away.' }),
  };
}

function remedyOf(context: TreeContext, open: Prescription | undefined, days: DaySpan): Remedy {
  if (!open) return { remedy: ASK };
  if (isEmergency(context)) return otherDaysOr(context, open, days, undefined);
  return otherDaysOr(context, open, days, WAIT);
}

/** A nest at an unknown place keeps no work away from it: said once, where the position is to be written. */
function unplacedNests({ tree, settings, today }: TreeContext): readonly RuleReport[] {
  if (tree.nestChecks.length === 0 || !isUnplaced(tree) || tree.felled) return NOTHING;
  const seasons = nestingSeasons(tree, settings);
  const nest = activeNests(tree).find(one =>
    nestDays(one, { from: today, to: today + REPORTED_DAYS }, seasons),
  );
  if (!nest) return NOTHING;
  const bird = nest.species?.name;
  return [
    {
      at: nest,
      grade: 'stated',
      level: 'note',
      subject: formatDate(nest.seen),
      message: `This tree has no position, or only a coarse one, so that work at other trees is not compared with the nest${bird ? ` of ${bird}` : ''}; it keeps ${limitLike(settings.limit(nestBuffer(bird), today), nest.height?.value, tree.height?.value)} away.`,
      remedy: 'Write the position of the tree, to at least five decimals.',
    },
  ];
}

export const nestNear: Rule = {
  name: 'nest-near',
  group: 'wildlife',
  level: 'error',
  summary: 'work or climbing near an active nest in another tree',
  sources: [cite('ca-nest-conditions'), cite('eagle-guidelines-2007'), cite('practice')],
  explanation: `Compares work, done within a year or open, and inspections and nest checks from a rope or a lift, with the active nests in all other trees of the inventory, of other files and sites too. Days are those of nest-active; the distance is that between the positions of the two trees, and the buffer that of the bird: the limits nest-buffer-passerine, -raptor, -eagle, -colony and -swainsons-hawk.

A distance is an interval: each position may be off by the limit tree-position-error and by half its last digit, and crowns whose spread is on record reach nearer. If all of the interval is within the buffer on all days of the work, it exceeds; if part of it is, it may exceed. Days within the buffer are not offered for the work, in remedies, calendars and work orders alike.

A tree without a position, or with one of less than three decimals, can't be compared. That is a note, at the nest where the tree with the nest has no position, and at the work where only the tree with the work has none.`,
  limitations:
    'Nests in files that were not read. Differences in height; what falls, or swings, toward the nest; crowns of unknown spread. Flights have a rule of their own, flight-near-nest.',
  acceptable: true,
  caution: NESTING_CAUTION,
  examples: [
    {
      title: 'Hawks 45 m away, a robin next door and one three trees on',
      text: `site "Fernhollow Court"
  region US-OR

tree 41
  position 44.31280, -122.87130
  nest check 2026-05-28 from drone
    found active Buteo jamaicensis at 62 ft

tree 42
  position 44.31320, -122.87130
  prescription R1 reduce
    dose 10 %
    between 2026-06-08..2026-06-12 #! exceeds

tree 43
  position 44.33000, -122.87130
  nest check 2026-05-28 from ground
    found active Turdus migratorius

tree 44
  position 44.33010, -122.87130
  prescription R1 reduce
    dose 10 %
    between 2026-08-25..2026-09-12 #! may exceed

tree 45
  position 44.33040, -122.87130
  prescription R1 reduce
    dose 10 %
    between 2026-06-08..2026-06-12 #! may exceed
`,
    },
    {
      title: 'No position where the nest is; none where the work is',
      text: `site "Fernhollow Court"
  region US-OR

tree 46
  nest check 2026-05-28 from ground
    found active Turdus migratorius #! note stated

tree 47
  position 44.31280, -122.87130
  nest check 2026-05-28 from ground
    found active Turdus migratorius

tree 48
  prescription R1 reduce
    dose 10 %
    between 2026-06-08..2026-06-12 #! note may exceed
`,
    },
    {
      title: 'Climbed next to a nest',
      text: `site "Fernhollow Court"
  region US-OR

tree 49
  position 44.31280, -122.87130
  nest check 2026-04-28 from ground
    found active Turdus migratorius

tree 50
  position 44.31281, -122.87130
  inspection 2026-05-20 from rope #! exceeds
    level advanced
`,
    },
    {
      title: 'Far enough; after the season; after the young have left',
      text: `site "Fernhollow Court"
  region US-OR

tree 51
  position 44.31280, -122.87130
  nest check 2026-04-28 from ground
    found active Turdus migratorius

tree 52
  position 44.31380, -122.87130
  prescription R1 reduce
    dose 10 %
    between 2026-06-08..2026-06-12

tree 53
  position 44.31281, -122.87130
  prescription R1 reduce
    dose 10 %
    between 2026-09-08..2026-09-12

tree 54
  position 44.33000, -122.87130
  nest check 2026-04-28 from ground
    found active Turdus migratorius
  nest check 2026-05-30 from ground
    found old Turdus migratorius

tree 55
  position 44.33001, -122.87130
  prescription R1 reduce
    dose 10 %
    between 2026-06-08..2026-06-12
`,
    },
  ],
  check,
};
