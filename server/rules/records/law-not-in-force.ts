import { formatDate } from '../../base/dates.ts';
import { counted, listed } from '../../base/words.ts';
import { laterLawsIn } from '../../practice/law/laws-of.ts';
import { NOTHING, type PlacedReport, type Rule, spanOf, type WorkspaceContext } from '../rule.ts';

function* checkWorkspace({ workspace, today }: WorkspaceContext): Iterable<PlacedReport> {
  const day = formatDate(today);
  for (const placed of workspace.sites.values()) {
    const { region } = placed.fact;
    if (!region) continue;
    const later = laterLawsIn(region.value, day);
    if (later.length === 0) continue;
    const named = [...new Set(later.map(({ act, source, from }) => `${act ?? source} (from ${from})`))];
    yield {
      at: spanOf(region),
      grade: 'stated',
      subject: region.value.toUpperCase(),
      message: `${counted(later.length, 'row')} on record for ${region.value.toUpperCase()} ${later.length === 1 ? 'is' : 'are'} not in force on ${day} and ${later.length === 1 ? 'does' : 'do'} not count: ${listed(named)}. What held before is not on record.`,
      remedy: 'Look up what the law of the place said on that day.',
      in: placed,
    };
  }
}

export const lawNotInForce: Rule = {
  name: 'law-not-in-force',
  group: 'records',
  level: 'note',
  summary: 'a day before some of the law on record for the region came into force',
  sources: [],
  explanation:
    'A row of law counts from the day on which it came into force to its last, where these are known. The day is that of the check, today or the one of --date. Rows that came later are left out, here and in explain --here, and this is said once for each site, since what they replaced is not on record.',
  limitations:
    'Rows without a date count on every day. Work of the year before is held against the law of the day of the check.',
  appliesTo: [],
  acceptable: false,
  rests: 'practice',
  examples: [
    {
      title: 'France before and after the distances of 2024-12-19',
      on: '2024-12-18',
      text: `site "Les Tilleuls"
  region FR #! stated
`,
    },
    {
      title: 'From that day on',
      on: '2024-12-19',
      text: `site "Les Tilleuls"
  region FR
`,
    },
  ],
  check: () => NOTHING,
  checkWorkspace,
};
