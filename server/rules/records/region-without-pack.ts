import { listed } from '../../base/words.ts';
import type { Settings } from '../../facts/settings.ts';
import { settingsFor } from '../../facts/workspace.ts';
import { regionPacks } from '../../practice/regions.ts';
import { NOTHING, type PlacedReport, type Rule, spanOf, type WorkspaceContext } from '../rule.ts';

/** Countries whose states have laws of their own on nests, trees and lines. */
const FEDERAL: ReadonlySet<string> = new Set(['AT', 'AU', 'BE', 'CA', 'CH', 'DE', 'ES', 'US']);

const NO_LEAVE =
  'Anything not on record was not checked. The absence of findings is not permission for the work.';

/** `: US-OR?` where only the state was written. */
function meant(code: string): string {
  const states = regionPacks.map(pack => pack.code).filter(known => known.endsWith(`-${code}`));
  return states.length > 0 ? `: ${states.join(' or ')}` : '';
}

/** What neither the region nor the office states. */
function missing({ nesting, batMaternity, approach, region }: Settings): readonly string[] {
  return [
    ...(nesting ? [] : ['nesting season']),
    ...(batMaternity ? [] : ['season of bats']),
    ...(approach.from === 'stand-in' ? ['distances to lines'] : []),
    ...(region.drone.height ? [] : ['heights for drones']),
  ];
}

/** What an office has to state where no law is on record. */
const ofOffice = ({ nesting, approach }: Settings): readonly string[] => [
  ...(nesting ? [] : ['nesting season']),
  ...(approach.from === 'stand-in' ? ['distances to lines'] : []),
];

const STAND_IN = 'Near lines the greatest known distances stand in.';

const sentences = (some: readonly (string | false)[]): string => some.filter(Boolean).join(' ');

function* checkWorkspace({ workspace, today }: WorkspaceContext): Iterable<PlacedReport> {
  for (const placed of workspace.sites.values()) {
    const { region } = placed.fact;
    if (!region) continue;
    const settings = settingsFor(workspace, placed.path, today);
    const code = region.value.toUpperCase();
    const report = { at: spanOf(region), grade: 'stated' as const, subject: code, in: placed };
    const standsIn = settings.approach.from === 'stand-in' && STAND_IN;
    if (settings.regionApplied === 'none') {
      const unstated = ofOffice(settings);
      yield {
        ...report,
        ...(unstated.length > 0 ? {} : { level: 'note' }),
        message: sentences([
          `Nothing is on record for ${code}: no law, no seasons, no distances.`,
          unstated.length > 0
            ? `A practice block with the local ${listed(unstated)} is missing.`
            : 'The season and the distances of the office apply.',
          standsIn,
          NO_LEAVE,
        ]),
        remedy:
          unstated.length > 0
            ? `Look up what applies there and add it to a practice block, with its source as the reason: season nesting with its days, and approach with a distance and its upper voltage. Correct the region if another one is meant${meant(code)}.`
            : 'Look up the local law on nests, bats, permits and drones.',
      };
      continue;
    }
    const gaps = missing(settings);
    const isState = settings.regionApplied === 'country' && FEDERAL.has(code.split('-')[0]!);
    if (gaps.length === 0 && !isState) continue;
    const { name } = settings.region;
    yield {
      ...report,
      level: 'note',
      message: sentences([
        isState && `Nothing is on record for ${code} itself. What applies in all of ${name} was checked.`,
        gaps.length > 0 && `Nothing is on record for ${name} on the ${listed(gaps)}.`,
        standsIn,
        NO_LEAVE,
      ]),
      remedy: 'Look up the local law on it.',
    };
  }
}

export const regionWithoutPack: Rule = {
  name: 'region-without-pack',
  group: 'records',
  level: 'error',
  summary: 'a region whose seasons, laws or distances are not on record',
  sources: [],
  explanation:
    'Checks the region of each site. REGIONS.md lists what is on record for which region. Birds nest at another time of the year south of the equator and all year in the tropics, and minimum distances to lines differ by meters between countries. So the law of one country is never applied in another. Where nothing is on record for a country, it is an error until the office states its own nesting season and distances in a practice block. These are season nesting, and approach for workers without a line qualification. Near lines the greatest known distances stand in until then. They are a caution and not the law of any place.\n\nIt is a note where a country is on record and the state or province is not, for countries whose states have laws of their own. It is also a note where a region is on record without some of the seasons or distances.',
  limitations: 'Sites without a region, for which common seasons count.',
  appliesTo: [],
  acceptable: false,
  rests: 'law',
  examples: [
    {
      title: 'A country without anything on record',
      text: `site "Jacaranda square"
  region BR #! stated
`,
    },
    {
      title: 'The same, with the season and the distances of the office',
      text: `site "Jacaranda square"
  region BR #! note stated

practice "Office south"
  season nesting 08-01..03-31
    because "state agency, notice 14"
  approach 5 m up to 33 kV
    because "owner of the lines, letter of 2026-02-03"
  approach 12 m
    because "owner of the lines, letter of 2026-02-03"
`,
    },
    {
      title: 'A state that is not on record',
      text: `site "Sagebrush lane"
  region US-NV #! note stated
`,
    },
    {
      title: 'A region on record without distances to lines',
      text: `site "Orchard road"
  region SG #! note stated
`,
    },
    {
      title: 'On record',
      text: `site "Fernhollow Court"
  region US-OR
`,
    },
  ],
  check: () => NOTHING,
  checkWorkspace,
};
