import { flights, isUnderPart107 } from '../../assess/flights.ts';
import { formatDate } from '../../base/dates.ts';
import { aircraftRule } from '../../practice/aircraft.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check({ tree, site, settings }: TreeContext): Iterable<RuleReport> {
  const grounds = site?.grounds?.value;
  if (grounds !== 'public park' && grounds !== 'national park') return;
  for (const { inspection, flown, at } of flights(tree)) {
    if (flown?.permission === 'authority') continue;
    const day = formatDate(inspection.date.value);
    const said =
      flown?.permission === undefined
        ? 'with no permission on record'
        : flown.permission === 'none'
          ? 'without permission'
          : 'with permission of the owner only';
    yield grounds === 'national park' && isUnderPart107(settings)
      ? {
          at,
          grade: 'stated',
          subject: day,
          message: `The drone was flown in a national park on ${day}, ${said}. National parks are closed to launching, landing and operating drones (36 CFR 1.5, ${cite('nps-14-05').short}).`,
          remedy:
            'Ask the superintendent for a permit before any flight, and write permission authority where one was given. Otherwise inspect from a rope or the ground.',
        }
      : {
          at,
          grade: 'stated',
          level: 'warning',
          subject: day,
          message: `The drone was flown in a ${grounds} on ${day}, ${said}. Many parks are closed to drones by local rule (${cite('practice').short}).`,
          remedy: 'Ask the park authority, and write permission authority where it was given.',
        };
  }
}

export const flightPark: Rule = {
  name: 'flight-park',
  group: 'aircraft',
  level: 'error',
  summary: 'a drone flown in a park without permission from the park authority',
  sources: [cite('nps-14-05'), cite('practice')],
  explanation: `Checks flights where the grounds of the site are a national park or a public park and permission was not given by the authority. ${aircraftRule('36 CFR 1.5')!.summary} That is an error in the United States. Other parks, and national parks of other countries, have rules of their own, often just as strict: a warning.`,
  limitations:
    'Flights that a park ordinance allows for the park’s own maintenance: record permission authority.',
  appliesTo: ['flights'],
  acceptable: false,
  caution: 'The park authority and local law decide what is allowed.',
  examples: [
    {
      title: 'A national park, with the owner’s permission and with none stated',
      text: `site "Old grove"
  grounds national park

tree 98
  inspection 2026-04-20 from drone
    flown 120 ft, permission owner #! stated
  inspection 2026-04-21 from drone #! stated
    level limited
`,
    },
    {
      title: 'A public park with no permission stated; with the authority’s permission; private land',
      text: `site "Wren Park"
  grounds public park

tree 99
  inspection 2026-04-20 from drone
    flown 45 m #! warning stated
  inspection 2026-04-21 from drone
    flown 45 m, permission authority
`,
    },
    {
      title: 'Private land is covered by another rule',
      text: `site "Fernhollow Court"
  grounds private

tree 99
  inspection 2026-04-20 from drone
    flown 45 m, permission owner
`,
    },
  ],
  check,
};
