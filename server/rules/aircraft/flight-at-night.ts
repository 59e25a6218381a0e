import { droneLaw, flights, isUnderPart107 } from '../../assess/flights.ts';
import { formatDate } from '../../base/dates.ts';
import { capital } from '../../base/words.ts';
import { aircraftRule } from '../../practice/aircraft.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  const byDay = droneLaw(settings, 'byDay');
  const asks = isUnderPart107(settings)
    ? 'anti-collision lights visible for 3 statute miles and night training since 2021-04-06 are required (14 CFR 107.29)'
    : byDay && `flights are allowed by day only (${byDay.authority})`;
  if (asks === undefined) return;
  for (const { inspection, flown } of flights(tree)) {
    if (flown?.time !== 'night') continue;
    const day = formatDate(inspection.date.value);
    yield {
      at: flown,
      grade: 'stated',
      subject: day,
      message: `The drone was flown at night on ${day}. ${capital(asks)}.`,
      remedy:
        'Record an exception and give the lights and the training, or the authorization, as its reason. Otherwise inspect again by day: darkness hides defects.',
    };
  }
}

export const flightAtNight: Rule = {
  name: 'flight-at-night',
  group: 'aircraft',
  level: 'warning',
  summary: 'a drone flown at night',
  sources: [cite('part-107')],
  explanation: `Reports flights marked "at night". ${aircraftRule('107.29')!.summary} In other countries flights are reported where the region allows them by day only. The notation does not record lights or training. The person responsible for the flight records an exception with these as the reason.`,
  limitations:
    'Thermal flights for roosts or nests, which are flown in the dark on purpose: record an exception.',
  appliesTo: ['flights'],
  acceptable: true,
  caution: 'The pilot in command is responsible for the flight, and local law applies.',
  examples: [
    {
      title: 'At night',
      text: `tree 96
  inspection 2026-04-20 from drone
    flown 120 ft, permission owner, at night #! stated
`,
    },
    {
      title: 'By day, and with no time stated',
      text: `tree 97
  inspection 2026-04-20 from drone
    flown 120 ft, permission owner, at day
  inspection 2026-04-21 from drone
    flown 120 ft, permission owner
`,
    },
  ],
  check,
};
