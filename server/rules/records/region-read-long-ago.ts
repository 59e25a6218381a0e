import { formatDate } from '../../base/dates.ts';
import { counted } from '../../base/words.ts';
import { settingsFor } from '../../facts/workspace.ts';
import { isReadLongAgo, readOn } from '../../practice/law/laws-of.ts';
import { NOTHING, type PlacedReport, type Rule, spanOf, type WorkspaceContext } from '../rule.ts';

function* checkWorkspace({ workspace, today }: WorkspaceContext): Iterable<PlacedReport> {
  const day = formatDate(today);
  for (const placed of workspace.sites.values()) {
    const { region } = placed.fact;
    if (!region) continue;
    const { rows, name } = settingsFor(workspace, placed.path, today).region;
    const old = rows.filter(row => isReadLongAgo(row, day));
    if (old.length === 0) continue;
    const oldest = old.map(readOn).sort()[0]!;
    yield {
      at: spanOf(region),
      grade: 'stated',
      subject: region.value.toUpperCase(),
      message: `${counted(old.length, 'row')} of law and guidance on record for ${name} ${old.length === 1 ? 'was' : 'were'} read more than a year ago, the oldest on ${oldest}. Laws change, some of them every year.`,
      remedy:
        'Use a newer version of the program, or compare the rows with current law. soundwood explain --here PATH lists each row and when it was read.',
      in: placed,
    };
  }
}

export const regionReadLongAgo: Rule = {
  name: 'region-read-long-ago',
  group: 'records',
  level: 'note',
  summary: 'a region whose law was read more than a year before the day of the check',
  sources: [],
  explanation:
    'Compares the dates on which the rows on record for the region of a site were read with the date of the check. It is reported once for each site. Rows from memory were never read; they are marked wherever they are shown.',
  limitations: 'Sites without a region.',
  appliesTo: [],
  acceptable: false,
  rests: 'practice',
  examples: [
    {
      title: 'A year and a day after the reading',
      on: '2027-12-01',
      text: `site "Fernhollow Court"
  region US-OR #! stated
`,
    },
    {
      title: 'Within the year',
      on: '2027-06-01',
      text: `site "Kauri road"
  region NZ
`,
    },
  ],
  check: () => NOTHING,
  checkWorkspace,
};
