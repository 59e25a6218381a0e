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
      message: `${counted(later.length, 'row')} on record for ${region.value.toUpperCase()} ${later.length === 1 ? 'is' : 'are'} not in force on ${day} and ${later.length === 1 ? 'does' : 'do'} not count: ${listed(named)}. The earlier law is not on record.`,
      remedy: 'Look up the local law of that date.',
      in: placed,
    };
  }
}

export const lawNotInForce: Rule = {
  name: 'law-not-in-force',
  group: 'records',
  level: 'note',
  summary: 'a date before some of the law on record for the region came into force',
  sources: [],
  explanation:
    'A row of law counts from the date on which it came into force to its last day, where these are known. The date is that of the check: today, or that of --date. Rows that came later are left out, here and in explain --here. This is reported once for each site, since the law they replaced is not on record.',
  limitations:
    'Rows without a date, which count on every date. Work of the year before, which is compared with the law on the date of the check.',
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
