import { flights, isUnderPart107 } from '../../assess/flights.ts';
import { formatDate } from '../../base/dates.ts';
import { aircraftRule } from '../../practice/aircraft.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check({ tree, site, settings }: TreeContext): Iterable<RuleReport> {
  const airspace = site?.airspace;
  if (!airspace?.controlled) return;
  const us = isUnderPart107(settings);
  const until = airspace.authorizedUntil;
  for (const { inspection, at } of flights(tree)) {
    const day = inspection.date.value;
    if (until !== undefined && day <= until) continue;
    yield {
      at,
      grade: 'stated',
      ...(us ? {} : { level: 'warning' }),
      subject: formatDate(day),
      message: `The drone was flown on ${formatDate(day)} in controlled airspace, which requires an authorization (${us ? '14 CFR 107.41' : `${cite('practice').short}; local law applies`}). ${until === undefined ? 'None is on record' : `The one on record had ended on ${formatDate(until)}`}.`,
      remedy:
        'If there was an authorization for that date, write its last day on the airspace line of the site. Otherwise obtain one before the next flight.',
    };
  }
}

export const flightAirspace: Rule = {
  name: 'flight-airspace',
  group: 'aircraft',
  level: 'error',
  summary: 'a drone flight in controlled airspace without authorization on that date',
  sources: [cite('part-107'), cite('practice')],
  explanation: `Checks drone inspections on sites in controlled airspace and compares the flight date with the last day of the authorization. ${aircraftRule('107.41')!.summary} (From memory.)\n\nWhere the site record does not state the airspace, nothing is reported. The rule is the law of the United States. In other countries the finding is a warning, since controlled airspace requires authorization nearly everywhere.`,
  limitations:
    'There are no exceptions in controlled airspace. Where authorization is available at all, it takes minutes to obtain.',
  appliesTo: ['flights'],
  acceptable: false,
  caution: 'The pilot in command checks the airspace before every flight; closures change daily.',
  examples: [
    {
      title: 'Authorization expired',
      text: `site "Wren Park"
  airspace controlled, authorized 2026-04-30

tree 101
  inspection 2026-05-07 from drone #! stated
    level limited
  inspection 2026-04-30 from drone
    level limited
`,
    },
    {
      title: 'Controlled, with no authorization',
      text: `site "Wren Park"
  airspace controlled

tree 101
  inspection 2026-05-07 from drone
    flown 45 m, permission authority #! stated
`,
    },
    {
      title: 'Uncontrolled',
      text: `site "Fernhollow Court"
  airspace uncontrolled

tree 102
  inspection 2026-05-07 from drone
    flown 120 ft, permission owner
`,
    },
  ],
  check,
};
