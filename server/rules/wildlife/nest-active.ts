import type { Span } from '../../../grammar/text.ts';
import { activeNests, nestDays } from '../../assess/active-nests.ts';
import { showDays } from '../../assess/days.ts';
import { isEmergency } from '../../assess/emergency.ts';
import { currentJobsAtCrown } from '../../assess/jobs.ts';
import { bufferOf } from '../../assess/nest-buffers.ts';
import { NESTING_CAUTION, nestingDays, nestingSeasons } from '../../assess/nesting.ts';
import { limitLike } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { capital } from '../../base/words.ts';
import { lookupBird } from '../../practice/birds.ts';
import { cite } from '../../practice/citation.ts';
import type { RegionPack } from '../../practice/region-pack.ts';
import type { TreeContext } from '../context.ts';
import { otherDaysOr } from '../other-days.ts';
import { pointTo, type Rule, type RuleReport } from '../rule.ts';

/** `law`, with short citations, or `local law`: what protects this nest. */
function laws({ statutes }: RegionPack, species: string | undefined): string {
  const group = species === undefined ? undefined : lookupBird(species)?.group;
  const kinds = new Set<string>(['birds']);
  if (group === 'raptor' || group === 'owl' || group === 'eagle') kinds.add('birds of prey');
  if (group === 'eagle') kinds.add('eagles');
  const named = statutes.filter(({ protects }) => kinds.has(protects)).map(({ citation }) => citation.short);
  return named.length > 0 ? `law (${named.join(', ')})` : 'local law';
}

const WAIT = 'wait until a nest check shows that the young have left, and record it';

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  const seasons = nestingSeasons(tree, settings);
  const nests = activeNests(tree);
  for (const { prescription, work, days, at, subject } of currentJobsAtCrown(tree, today)) {
    if (!days) continue;
    const standings = nests.flatMap(nest => {
      const standing = nestDays(nest, days, seasons);
      return standing ? [{ nest, ...standing }] : [];
    });
    const worst = standings.find(({ grade }) => grade === 'exceeds') ?? standings[0];
    if (!worst) continue;
    const { nest, grade, from, to } = worst;
    const bird = nest.species?.name;
    const buffer = bufferOf(nest, settings, days.to);
    const use = nest.use === 'active' ? 'in use' : 'that may be in use';
    // Outside the season only another check can clear the nest.
    const closed = nestingDays(days, seasons);
    const told: Span & { message: string } = pointTo(nest, 'The nest');
    yield {
      at,
      grade,
      subject,
      message: `A nest${bird ? ` of ${bird}` : ''} ${use} was found on ${formatDate(nest.seen)}. ${capital(prescription.kind.value)} ${prescription.id.value} ${work ? `was done on ${formatDate(days.from)}` : `may fall on ${showDays({ from, to })}`}. The buffer for work is ${limitLike(buffer, nest.height?.value, tree.height?.value)}. The nest is protected by ${laws(settings.region, bird)}.`,
      ...(work
        ? {
            remedy:
              'Record the decision of the wildlife biologist or the agency. If they were not asked, ask them now.',
          }
        : closed.length > 0 || isEmergency(context)
          ? otherDaysOr(context, prescription, days, WAIT)
          : { remedy: `${capital(WAIT)}.` }),
      related: [told],
    };
  }
}

export const nestActive: Rule = {
  name: 'nest-active',
  group: 'wildlife',
  level: 'error',
  summary: 'work on a tree with an active nest',
  sources: [
    cite('mbta'),
    cite('ca-fgc-3503'),
    cite('ca-fgc-3503-5'),
    cite('bgepa'),
    cite('wca-1981'),
    cite('ca-nest-conditions'),
    cite('eagle-guidelines-2007'),
  ],
  explanation:
    'A nest found active by a check counts as in use from that day to the end of its nesting season. A later check that finds it old, or finds none, ends that. Work recorded within the last year, and what remains of a prescription’s work window, are compared with those days. Work is cutting, and installing cables, braces, props and guys.\n\nThe buffer depends on the bird: the limits nest-buffer-passerine, -raptor, -eagle, -colony and -swainsons-hawk. An unknown bird counts as a bird of prey. Where the rows of the region set a greater distance, that distance applies. On the tree itself, every cut counts as within the buffer.\n\nA job with all of its days in use exceeds; one with some of them may exceed. A nest whose use is unclear, or that was active out of season, may exceed at most. Another check settles it.',
  limitations: 'Nests in other trees: see nest-near.',
  appliesTo: ['nests'],
  acceptable: false,
  caution: NESTING_CAUTION,
  examples: [
    {
      title: 'A flicker in the stem in March, work in April',
      text: `site "Fernhollow Court"
  region US-OR

tree 14 "Lawn maple"
  nest check 2026-03-14 from drone
    found active Colaptes auratus at 30 ft
  prescription R1 reduce
    dose 10 %
  work R1 2026-04-10 #! exceeds
    dose 10 %
`,
    },
    {
      title: 'Florida: eagles nest in winter, a robin does not',
      on: '2025-11-15',
      text: `site "Heron Point"
  region US-FL

tree 42
  nest check 2025-11-10 from drone
    found active Haliaeetus leucocephalus at 80 ft
  prescription R1 clean
    between 2025-11-20..2025-11-25 #! exceeds

tree 43
  nest check 2025-11-10 from drone
    found old Turdus migratorius at 20 ft
  prescription R1 clean
    between 2025-11-20..2025-11-25
`,
    },
    {
      title: 'Hawks: their season continues, and a window that outlasts it may be kept',
      text: `site "Fernhollow Court"
  region US-CA

tree 41 "Grove oak"
  nest check 2026-05-28 from drone
    found active Buteo jamaicensis at 62 ft
  prescription R1 clean
    between 2026-09-01..2026-09-12 #! exceeds
  prescription R2 thin
    dose 5 %
    between 2026-09-01..2026-10-15 #! may exceed
`,
    },
    {
      title: 'Use unclear, and a dove in October',
      on: '2026-10-16',
      text: `site "Fernhollow Court"
  region US-OR

tree 42
  nest check 2026-05-30 from ground
    found unclear
  prescription R1 thin
    dose 5 %
  work R1 2026-06-04 #! may exceed

tree 46
  nest check 2026-10-14 from lift
    found active Zenaida macroura at 20 ft
  prescription R1 thin
    dose 5 %
    between 2026-10-20..2026-10-25 #! may exceed
`,
    },
    {
      title: 'After the season, after the young have left, and in a later year',
      text: `site "Fernhollow Court"
  region US-OR

tree 43
  nest check 2026-03-14 from drone
    found active Colaptes auratus at 30 ft
  prescription R1 reduce
    dose 10 %
    between 2026-09-15..2026-11-30

tree 44
  nest check 2026-04-14 from lift
    found active Turdus migratorius at 18 ft
  nest check 2026-05-30 from lift
    found old Turdus migratorius at 18 ft
  prescription R1 reduce
    dose 10 %
    between 2026-06-02..2026-06-05

tree 45
  nest check 2025-05-14 from lift
    found active Turdus migratorius at 18 ft
  nest check 2026-05-30 from lift
    found none
  prescription R1 reduce
    dose 10 %
    between 2026-06-02..2026-06-05
`,
    },
  ],
  check,
};
