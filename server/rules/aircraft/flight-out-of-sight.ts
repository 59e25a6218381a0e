import { droneLaw, flights } from '../../assess/flights.ts';
import { formatDate } from '../../base/dates.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  for (const { inspection, flown } of flights(tree)) {
    if (!flown?.unseen) continue;
    const law = droneLaw(settings, 'sight');
    if (!law) return;
    const day = formatDate(inspection.date.value);
    yield {
      at: flown,
      grade: 'stated',
      ...(law.level ? { level: law.level } : {}),
      subject: day,
      message: `The drone was out of sight on ${day}. A member of the crew must keep it in sight at all times (${law.authority}).`,
      remedy:
        'Fly where the aircraft stays in view, or with an observer beside the pilot. If it was in sight after all, remove "out of sight".',
    };
  }
}

export const flightOutOfSight: Rule = {
  name: 'flight-out-of-sight',
  group: 'aircraft',
  level: 'error',
  summary: 'a drone flown out of sight',
  sources: [cite('part-107')],
  explanation:
    'Reports flights marked "out of sight", for example behind a crown, where the region of the site requires line of sight. A row that is wholly or partly from memory makes the finding a warning. A region without a row produces no finding. Where no region is stated, the law of the United States stands in.',
  limitations:
    'Flights without this mark. Flights authorized beyond line of sight: record an exception that cites the authorization.',
  appliesTo: ['flights'],
  acceptable: true,
  caution: 'Local law decides whether an observer may replace the pilot’s own line of sight.',
  examples: [
    {
      title: 'Behind the crown',
      text: `site "Fernhollow Court"
  region NZ

tree 95
  inspection 2026-04-20 from drone
    flown 20 m, permission owner, out of sight #! stated
`,
    },
    {
      title: 'In sight',
      text: `site "Fernhollow Court"
  region NZ

tree 95
  inspection 2026-04-20 from drone
    flown 20 m, permission owner
`,
    },
  ],
  check,
};
