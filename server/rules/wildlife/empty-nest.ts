import type { SpeciesName } from '../../../grammar/species.ts';
import { EMERGENCY_PERMIT, isEmergency } from '../../assess/emergency.ts';
import { currentJobs, type Job } from '../../assess/jobs.ts';
import { NESTING_CAUTION } from '../../assess/nesting.ts';
import { hearsay } from '../../assess/permit-needs.ts';
import { permitFor } from '../../assess/permits.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { addMonths, formatDate } from '../../base/dates.ts';
import { capital } from '../../base/words.ts';
import type { NestCheck } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import { ofKind, type RowOf } from '../../practice/law/laws-of.ts';
import type { TreeContext } from '../context.ts';
import { NOTHING, pointTo, type Rule, type RuleReport } from '../rule.ts';

type NestRow = RowOf<'nest'>;
type FoundNest = NestCheck['found'][number];

/** Work that takes the place of a nest, wherever in the tree it is. */
const TAKES_NEST: ReadonlySet<string> = new Set(['fell', 'monolith', 'pollard']);

const isOf = ({ rule }: NestRow, { genus, binomial }: SpeciesName): boolean =>
  rule.of !== undefined &&
  (rule.of.includes(genus) || (binomial !== undefined && rule.of.includes(binomial)));

/** The row that protects an empty nest, and whether it is certain that the nest is one of those. */
function protecting(
  rows: readonly NestRow[],
  species: SpeciesName | undefined,
): { readonly row: NestRow; readonly isCertain: boolean } | undefined {
  const named = species && rows.findLast(row => isOf(row, species));
  const row = named ?? rows.findLast(({ rule }) => rule.of === undefined);
  if (row && row.rule.empty !== 'free') return { row, isCertain: true };
  if (species?.binomial) return undefined;
  // Of an unknown bird, or a genus alone, it may be any.
  const perhaps = rows.findLast(
    ({ rule }) =>
      rule.empty !== 'free' && rule.of?.some(name => !species || name.startsWith(`${species.genus} `)),
  );
  return perhaps && { row: perhaps, isCertain: false };
}

/** Day from which the nest is free after a notice, if the row lets it become so. */
function freeFrom({ rule }: NestRow, { prescription: { notice } }: Job): number | undefined {
  return typeof rule.empty === 'object' && notice ? addMonths(notice.given, rule.empty.months) : undefined;
}

function reportOn(
  job: Job,
  { date }: NestCheck,
  nest: FoundNest,
  rows: readonly NestRow[],
  context: TreeContext,
): RuleReport | undefined {
  const { species } = nest;
  const found = protecting(rows, species);
  if (!found) return undefined;
  const { row, isCertain } = found;
  const { prescription, work, days, subject } = job;
  const free = freeFrom(row, job);
  if (free !== undefined && (days?.from ?? context.today) >= free) return undefined;
  const doubt = hearsay(row);
  const { empty } = row.rule;
  const until =
    typeof empty === 'object'
      ? `, until ${empty.months} months after notice to the authority with no use of the nest${free === undefined ? '' : ` (to ${formatDate(free)})`}`
      : '';
  const whose = species
    ? `of ${species.name}`
    : isCertain
      ? 'of an unrecorded bird'
      : `of an unrecorded bird, perhaps of ${row.rule.of!.join(' or ')}`;
  return {
    at: work?.at ?? prescription.at,
    grade: isCertain && doubt === undefined ? 'exceeds' : 'may exceed',
    subject,
    message: `${capital(jobName(prescription))} removes the empty nest ${whose}, found on ${formatDate(date.value)}. It ${isCertain ? 'is' : 'would be'} protected while empty${until} (${row.source}, ${row.force}${doubt ? `; ${doubt}` : ''}).`,
    remedy: work
      ? 'Add the permit under which it was done to the prescription. If there was none, notify the authority.'
      : isEmergency(context)
        ? EMERGENCY_PERMIT
        : species
          ? 'Keep the tree, or obtain a permit from the authority first and add it to the prescription.'
          : 'Have a wildlife biologist identify the bird and add it to the nest check. Until then keep the tree, or apply to the authority for a permit.',
    related: [pointTo(nest, 'The nest')],
  };
}

function check(context: TreeContext): readonly RuleReport[] {
  const { tree, settings, today } = context;
  const old = tree.nestChecks.flatMap(check =>
    check.found.flatMap(nest => (nest.use === 'old' ? [{ check, nest }] : [])),
  );
  if (old.length === 0) return NOTHING;
  const rows = ofKind(settings.region.rows, 'nest');
  return currentJobs(tree, today).flatMap(job => {
    const { prescription } = job;
    if (!TAKES_NEST.has(prescription.kind.value) || prescription.remove.length > 0) return [];
    if (permitFor(tree, prescription)) return [];
    const reports = old.flatMap(({ check, nest }) => reportOn(job, check, nest, rows, context) ?? []);
    const worst = reports.find(({ grade }) => grade === 'exceeds') ?? reports[0];
    return worst ? [worst] : [];
  });
}

export const emptyNest: Rule = {
  name: 'empty-nest',
  group: 'wildlife',
  level: 'error',
  summary: 'work that removes an empty nest which local law protects all year',
  sources: [cite('practice')],
  explanation:
    'A nest check that found an old nest opens the days of the season, not the nest. Some places protect the nests of certain birds while they are empty, permanently or for months after a notice. Examples are eagles in the United States, herons and the pileated woodpecker in Canada, and all birds elsewhere. For fellings, habitat snags and pollards, open or done within the last year, the rule applies the rows of the region for the bird on record. For a nest of an unrecorded bird, it asks for the species where the region protects some empty nests. A row that was not read itself is a warning. A permit on the prescription or on the protected line of the tree resolves the finding. So does a notice once its months have passed.',
  limitations:
    'Work that leaves the part with the nest, or that removes single stems and limbs. Nests that no check recorded. Active nests, which nest-active reports.',
  appliesTo: ['nest checks'],
  acceptable: false,
  caution: NESTING_CAUTION,
  examples: [
    {
      title: 'United States: an old eagle nest, one of a robin, one of an unknown bird; under a permit',
      text: `site "Heron Point"
  region US-OR

tree 521
  nest check 2026-05-20 from drone
    found old Haliaeetus leucocephalus
  prescription R1 fell #! exceeds

tree 522
  nest check 2026-05-20 from drone
    found old Turdus migratorius
  prescription R1 fell

tree 523
  nest check 2026-05-20 from drone
    found old
  prescription R1 fell #! may exceed

tree 528
  nest check 2026-05-20 from drone
    found old Haliaeetus
  prescription R1 fell #! may exceed

tree 524
  nest check 2026-05-20 from drone
    found old Haliaeetus leucocephalus
  prescription R1 fell
    permit EA-2, until 2026-12-31
`,
    },
    {
      title: 'Canada: 36 months after notice; the months have run; other work',
      text: `site "Cedar Bay"
  region CA-ON

tree 525
  nest check 2026-05-20 from rope
    found old Dryocopus pileatus
  prescription R1 fell #! exceeds
    notice 2026-04-01

tree 526
  nest check 2026-05-20 from rope
    found old Dryocopus pileatus
  prescription R1 fell
    notice 2023-04-01

tree 527
  nest check 2026-05-20 from rope
    found old Dryocopus pileatus
  prescription R1 clean
    dose 3 %
`,
    },
  ],
  check,
};
