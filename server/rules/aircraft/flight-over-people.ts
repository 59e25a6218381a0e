import { droneLaw, flights } from '../../assess/flights.ts';
import { formatDate } from '../../base/dates.ts';
import { aircraftRule } from '../../practice/aircraft.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

/** What the place says. */
const OVER = {
  never: 'not flown over',
  consent: 'flown over with their consent only',
  'by class': 'flown over only with an aircraft of a class that may',
} as const;

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  for (const { inspection, flown } of flights(tree)) {
    if (!flown?.overPeople) continue;
    const law = droneLaw(settings, 'over');
    if (!law) return;
    const { value, authority, level } = law;
    const day = formatDate(inspection.date.value);
    yield {
      at: flown,
      grade: 'stated',
      ...(level ? { level } : {}),
      subject: day,
      message: `The drone was flown over people on ${day}; people who take no part are ${OVER[value]} (${authority}).`,
      remedy:
        'Close off the ground below, fly when nobody is there, or keep to the side; if everybody below took part or was under cover, take "over people" out.',
    };
  }
}

export const flightOverPeople: Rule = {
  name: 'flight-over-people',
  group: 'aircraft',
  level: 'error',
  summary: 'a drone flown over people who are not taking part',
  sources: [cite('part-107')],
  explanation: `Reports flights marked "over people". ${aircraftRule('107.39')!.summary} (From memory.)

The region of the site says whether that is never allowed, with consent, or with aircraft of some classes. A row that is from memory, or in part, is a warning; a region without a row produces no finding. Where no region is stated, the law of the United States stands in.`,
  limitations:
    'Aircraft certified for flight over people: leave the mark off and state the category in a note.',
  appliesTo: ['flights'],
  acceptable: false,
  caution: 'A falling drone kills: the pilot in command answers for everybody below.',
  examples: [
    {
      title: 'Over people',
      text: `tree 95
  inspection 2026-04-20 from drone
    flown 60 ft, permission owner, over people #! stated
`,
    },
    {
      title: 'In another country; and over no one',
      text: `site "Fernhollow Court"
  region DE

tree 95
  inspection 2026-04-20 from drone
    flown 20 m, permission owner, over people #! warning stated
  inspection 2026-04-21 from drone
    flown 20 m, permission owner
`,
    },
  ],
  check,
};
