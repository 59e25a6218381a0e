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
      message: `The drone was out of sight on ${day}; somebody of the crew sees it all the time (${law.authority}).`,
      remedy:
        'Fly where the aircraft stays in view, or with an observer beside the pilot; if it was in sight after all, take "out of sight" out.',
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
    'Reports flights marked "out of sight", as behind a crown, where the region of the site asks for sight. A row that is from memory, or in part, is a warning; a region without a row produces no finding. Where no region is stated, the law of the United States stands in.',
  limitations:
    'Flights that say nothing of it, and authorizations for flight beyond sight: accept them and cite the authorization.',
  appliesTo: ['flights'],
  acceptable: true,
  caution: 'Whether an observer’s eyes count as the pilot’s is for the law of the place.',
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
