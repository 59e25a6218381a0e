import { flights } from '../../assess/flights.ts';
import { formatDate } from '../../base/dates.ts';
import type { Site } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

/** See flight-park. */
const PARKS: ReadonlySet<NonNullable<Site['grounds']>['value']> = new Set(['public park', 'national park']);

function* check({ tree, site }: TreeContext): Iterable<RuleReport> {
  const grounds = site?.grounds?.value;
  if (grounds !== undefined && PARKS.has(grounds)) return;
  const land =
    grounds === undefined
      ? 'land of unrecorded ownership'
      : grounds === 'private' || grounds === 'open'
        ? `${grounds} land`
        : `a ${grounds}`;
  for (const { inspection, flown, at } of flights(tree)) {
    // flight-height reports a flight with no record at all.
    if (!flown) continue;
    const { permission } = flown;
    if (permission !== undefined && permission !== 'none') continue;
    const day = formatDate(inspection.date.value);
    yield permission === 'none'
      ? {
          at,
          grade: 'stated',
          level: 'error',
          subject: day,
          message: `The drone was flown on ${day} over ${land} without permission.`,
          remedy:
            'Obtain the owner’s permission before the next flight, and inform the client about this one.',
        }
      : {
          at,
          grade: 'stated',
          subject: day,
          message: `No permission is recorded for the flight on ${day} over ${land}.`,
          remedy: 'Add it to the flown line: permission owner, permission authority or permission none.',
        };
  }
}

export const flightPermission: Rule = {
  name: 'flight-permission',
  group: 'aircraft',
  level: 'warning',
  summary: 'a drone flight without permission, or with none recorded',
  sources: [cite('practice'), cite('part-107')],
  explanation:
    'Checks drone inspections outside parks. A pilot’s certificate allows the flight itself. Taking off, landing and filming over another person’s land depend on the owner’s permission and on local law. Permission none is an error; a flight with no permission recorded is a warning.',
  limitations: 'Flights covered by the client’s work order: record permission owner.',
  appliesTo: ['flights'],
  acceptable: true,
  caution: 'Trespass and privacy are matters of local law. Ask where the land is not the client’s.',
  examples: [
    {
      title: 'None, and not stated',
      text: `site "Fernhollow Court"
  grounds private

tree 93
  inspection 2026-04-20 from drone
    flown 120 ft, permission none #! error stated
  inspection 2026-04-21 from drone
    flown 120 ft #! stated
`,
    },
    {
      title: 'Permission from the owner; an inspection from the ground',
      text: `site "Fernhollow Court"
  grounds private

tree 94
  inspection 2026-04-20 from drone
    flown 120 ft, permission owner
  inspection 2026-04-21 from ground
    level basic
`,
    },
  ],
  check,
};
