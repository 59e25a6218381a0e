import { activeNests, type FoundNest, nestDays, standingNests } from '../../assess/active-nests.ts';
import { showDays } from '../../assess/days.ts';
import { isEmergency } from '../../assess/emergency.ts';
import { currentJobsAtCrown } from '../../assess/jobs.ts';
import { showInterval } from '../../assess/judge.ts';
import { isUnplaced, meetingOf, type NearNest, nestsNear } from '../../assess/near-nests.ts';
import { bufferOf, isWithoutBuffer, treesKept } from '../../assess/nest-buffers.ts';
import { NESTING_CAUTION, nestingSeasons } from '../../assess/nesting.ts';
import { limitLike } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { unitOf } from '../../base/quantity.ts';
import { capital, listed } from '../../base/words.ts';
import type { DaySpan } from '../../base/yearly-window.ts';
import { noNestTrees } from '../../facts/nest-index.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { otherDaysOr } from '../other-days.ts';
import { NOTHING, type Remedy, type Rule, type RuleReport } from '../rule.ts';

const WAIT = 'wait until a nest check of that tree shows that the young have left, and record it there';
const PERMIT = 'keep the tree, or obtain a permit from the agency first';
const ASK =
  'Record the decision of the wildlife biologist or the agency. If they were not asked, ask them now.';

/** What comes near a nest: a job, or an inspection from the crown. */
interface Visit extends Pick<RuleReport, 'at' | 'subject'> {
  readonly days: DaySpan;
  /** `reduce R1 may fall on 2026-05-01`. */
  readonly words: (days: DaySpan) => string;
  readonly job: Prescription | undefined;
  readonly isOpen: boolean;
}

const ALOFT: ReadonlySet<string> = new Set(['rope', 'lift']);
const REPORTED_DAYS = 366;

function visitsOf({ tree, today }: TreeContext): readonly Visit[] {
  const jobs = currentJobsAtCrown(tree, today).flatMap(
    ({ prescription, work, days, at, subject }): Visit[] => {
      if (!days) return [];
      const name = `${prescription.kind.value} ${prescription.id.value}`;
      return [
        {
          at,
          subject,
          days,
          job: prescription,
          isOpen: !work,
          words: near =>
            work ? `${name} was done on ${formatDate(days.from)}` : `${name} may fall on ${showDays(near)}`,
        },
      ];
    },
  );
  const climbs = [...tree.inspections, ...tree.nestChecks]
    .filter(({ from, date }) => ALOFT.has(from.value) && today - date.value <= REPORTED_DAYS)
    .map(
      ({ at, date, from }): Visit => ({
        at,
        subject: formatDate(date.value),
        days: { from: date.value, to: date.value },
        job: undefined,
        isOpen: false,
        words: () => `the crown was entered (${from.value}) on ${formatDate(date.value)}`,
      }),
    );
  return [...jobs, ...climbs];
}

function check(context: TreeContext): readonly RuleReport[] {
  if (context.nestTreesNear === noNestTrees && context.tree.nestChecks.length === 0) return NOTHING;
  const near = nestsNear(context);
  const own = ownNests(context);
  if (near.length === 0) return own;
  return [...own, ...visitsOf(context).flatMap(visit => reportOf(context, visit, near) ?? [])];
}

const USE = { active: 'in use', unclear: 'that may be in use', old: 'not in use' } as const;

/** The nest that is worst for a visit: a certain meeting, else one at a known distance. */
function reportOf(
  context: TreeContext,
  { at, subject, days, words, job, isOpen }: Visit,
  nests: readonly NearNest[],
): RuleReport | undefined {
  const { settings, tree } = context;
  const found = nests.flatMap(near => meetingOf(near, days, job) ?? []);
  const worst =
    found.find(({ grade }) => grade === 'exceeds') ?? found.find(({ distance }) => distance) ?? found[0];
  if (!worst) return undefined;
  const { nest, where, distance, setting, keeping, doubts, grade } = worst;
  const bird = nest.species?.name;
  const like = [nest.height?.value, tree.height?.value];
  const unit = like.find(quantity => quantity?.unit)?.unit ?? unitOf(setting.unit)!;
  const from = distance
    ? `${showInterval(distance, { unit: unit.symbol }, 0)} from this tree`
    : 'at an unknown distance, because this tree has no position or only a coarse one';
  const kept = keeping.seasons
    ? `the buffer for work is ${limitLike(setting, ...like)}`
    : `trees within ${limitLike(setting, ...like)} of it must not be removed at any date`;
  const asked =
    keeping.seasons && isWithoutBuffer(nest, settings)
      ? ` No distance for ${bird} is on record here, so this one only stands in`
      : '';
  return {
    at,
    grade,
    subject,
    message: `A nest${bird ? ` of ${bird}` : ''} ${USE[nest.use]} was found on ${formatDate(nest.seen)} in ${where}, ${from}. ${capital(words(worst.days))}; ${kept}.${doubts.length > 0 ? ` Uncertain: ${listed(doubts)}.` : ''}${asked}`,
    ...(distance
      ? remedyOf(context, isOpen ? job : undefined, days, keeping.seasons ? WAIT : PERMIT)
      : { remedy: 'Record the position of this tree to at least five decimals, or keep the work away.' }),
  };
}

function remedyOf(
  context: TreeContext,
  open: Prescription | undefined,
  days: DaySpan,
  orElse: string,
): Remedy {
  if (!open) return { remedy: ASK };
  if (isEmergency(context)) return otherDaysOr(context, open, days, undefined);
  return otherDaysOr(context, open, days, orElse);
}

/** What can't be told from the record at other trees: said once, where it is to be mended. */
function ownNests(context: TreeContext): readonly RuleReport[] {
  const { tree, settings, today } = context;
  if (tree.nestChecks.length === 0 || tree.felled) return NOTHING;
  const seasons = nestingSeasons(tree, settings);
  const nests = activeNests(tree).filter(one =>
    nestDays(one, { from: today, to: today + REPORTED_DAYS }, seasons),
  );
  const unplaced = isUnplaced(tree)
    ? (nests[0] ?? standingNests(tree).find(one => treesKept(one, settings).length > 0))
    : undefined;
  if (unplaced) return [unplacedNest(context, unplaced)];
  const without = nests.find(nest => isWithoutBuffer(nest, settings));
  return without ? [nestWithoutBuffer(context, without)] : NOTHING;
}

/** A nest at an unknown place keeps no work away from it. */
function unplacedNest({ tree, settings, today }: TreeContext, nest: FoundNest): RuleReport {
  const bird = nest.species?.name;
  const like = [nest.height?.value, tree.height?.value];
  const kept =
    nest.use === 'old'
      ? `trees within ${limitLike(treesKept(nest, settings)[0]!.setting(), ...like)} of it must not be removed at any date`
      : `the buffer for work is ${limitLike(bufferOf(nest, settings, today), ...like)}`;
  return {
    at: nest,
    grade: 'stated',
    level: 'warning',
    subject: formatDate(nest.seen),
    message: `This tree has no position or only a coarse one. Work at other trees is not compared with the nest${bird ? ` of ${bird}` : ''} here; ${kept}.`,
    remedy: 'Record the position of the tree, to at least five decimals.',
  };
}

function nestWithoutBuffer({ tree, settings, today }: TreeContext, nest: FoundNest): RuleReport {
  const buffer = bufferOf(nest, settings, today);
  return {
    at: nest,
    grade: 'stated',
    level: 'warning',
    subject: formatDate(nest.seen),
    message: `No distance between work and nests of ${nest.species!.name} is on record for ${settings.region.name}. ${limitLike(buffer, nest.height?.value, tree.height?.value)} only stands in, and work farther away is not reported.`,
    remedy:
      'Ask a wildlife biologist, and set the distance as the limit nest-buffer-eagle in a practice block.',
  };
}

export const nestNear: Rule = {
  name: 'nest-near',
  group: 'wildlife',
  level: 'error',
  summary: 'work or climbing near an active nest in another tree',
  sources: [cite('ca-nest-conditions'), cite('eagle-guidelines-2007'), cite('practice')],
  explanation:
    'Compares work with the active nests in all other trees of the inventory, including those of other files and sites. Work is cutting, and installing cables, braces, props and guys, done within a year or open. Inspections and nest checks from a rope or an aerial lift count too. The days are those of nest-active. The distance is that between the positions of the two trees. The buffer is that of the bird: the limits nest-buffer-passerine, -raptor, -eagle, -colony and -swainsons-hawk. Where rows of the region set other distances for a bird, these are compared too, each in its own season. Some rows protect the trees around a nest from felling at any date, even while it is empty.\n\nA distance is a range. Each position may be off by the limit tree-position-error and by half its last digit, and crowns with a recorded spread reach closer. If all of the range is within the buffer on all days of the work, it exceeds. If part of it is, it may exceed. Anything from memory or left to local decision may exceed at most. Days within the buffer are not offered for the work in remedies, calendars or work orders.\n\nA tree with no position, or with fewer than three decimals, cannot be compared. Until its position is recorded, every nest of its site counts for work there, as a warning. Where the tree with the nest has no position, the warning is at the nest. A bird for which the region has no distance is a warning too.',
  limitations:
    'Nests in files that were not read. Differences in height. Wood that falls or swings toward the nest. Crowns of unknown spread. Flights: see flight-near-nest.',
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
      title: 'Scotland: 200 m from a sea eagle in use, and 400 m; an empty nest of one',
      on: '2026-03-20',
      text: `site "Glen Farrow"
  region GB-SCT

tree 61
  position 56.80001, -5.20003
  nest check 2026-03-01 from ground
    found active Haliaeetus albicilla

tree 62
  position 56.80181, -5.20003
  prescription R1 cable
    between 2026-04-01..2026-04-03 #! exceeds

tree 63
  position 56.80361, -5.20003
  prescription R1 reduce
    dose 10 %
    between 2026-04-01..2026-04-03 #! may exceed

tree 64
  position 56.90001, -5.20003
  nest check 2026-03-01 from ground
    found old Haliaeetus albicilla

tree 65
  position 56.90091, -5.20003
  prescription R1 fell
    between 2026-10-01..2026-10-03
`,
    },
    {
      title: 'United States: trees around the nest of a bald eagle stay; no distance for a golden eagle',
      text: `site "Heron Point"
  region US-OR

tree 71
  position 44.31280, -122.87130
  nest check 2026-05-20 from drone
    found old Haliaeetus leucocephalus

tree 72
  position 44.31341, -122.87131
  prescription R1 fell
    between 2026-11-02..2026-11-06 #! exceeds
  prescription R2 clean
    between 2026-11-02..2026-11-06

tree 73
  position 44.31481, -122.87131
  prescription R1 fell
    between 2026-11-02..2026-11-06

tree 74
  position 44.41281, -122.87131
  nest check 2026-05-20 from ground
    found active Aquila chrysaetos #! warning stated
`,
    },
    {
      title: 'No position where the nest is; none where the work is',
      text: `site "Fernhollow Court"
  region US-OR

tree 46
  nest check 2026-05-28 from ground
    found active Turdus migratorius #! warning stated

tree 47
  position 44.31280, -122.87130
  nest check 2026-05-28 from ground
    found active Turdus migratorius

tree 48
  prescription R1 reduce
    dose 10 %
    between 2026-06-08..2026-06-12 #! may exceed
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
