import { droneLaw, flights } from '../../assess/flights.ts';
import { lengthLike } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { limitVerdict } from '../../base/interval.ts';
import { showQuantity } from '../../base/quantity.ts';
import { valuesOf } from '../../facts/interval.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Inspection } from '../../facts/types.ts';
import { aircraftRule } from '../../practice/aircraft.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

type Flown = NonNullable<Inspection['flown']>;

/** What the place says. */
const OVER = {
  never: 'not flown over',
  consent: 'flown over with their consent only',
  'by class': 'flown over only with an aircraft of a class that may',
} as const;

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  for (const { inspection, flown } of flights(tree)) {
    if (flown?.overPeople) yield* reportOver(inspection, flown, settings);
    else if (flown?.people) yield* reportAside(inspection, flown, flown.people, settings);
  }
}

function* reportOver({ date }: Inspection, flown: Flown, settings: Settings): Iterable<RuleReport> {
  const law = droneLaw(settings, 'over');
  if (!law) return;
  const { value, authority, level } = law;
  const day = formatDate(date.value);
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

/** Nearer to the side of people than the place allows. */
function* reportAside(
  { date }: Inspection,
  flown: Flown,
  people: NonNullable<Flown['people']>,
  settings: Settings,
): Iterable<RuleReport> {
  const law = droneLaw(settings, 'people');
  if (!law) return;
  const kept = limitVerdict(valuesOf(people.value, settings), law.value, 'at least');
  if (kept === 'within') return;
  // Aircraft of some classes may come nearer.
  const byClass = droneLaw(settings, 'over')?.value === 'by class';
  const day = formatDate(date.value);
  yield {
    at: flown,
    grade: kept === 'exceeds' && !byClass && !law.level ? 'exceeds' : 'may exceed',
    subject: day,
    message: `The drone came to ${showQuantity(people.value)} from people who took no part on ${day}; ${lengthLike(law.value, people.value)} to their side are kept${byClass ? ', but by aircraft of a class that may come nearer' : ''} (${law.authority}).`,
    remedy: 'Close off the ground around the tree, or fly when nobody is there.',
  };
}

export const flightOverPeople: Rule = {
  name: 'flight-over-people',
  group: 'aircraft',
  level: 'error',
  summary: 'a drone flown over people who are not taking part, or nearer to their side than the place allows',
  sources: [cite('part-107')],
  explanation: `Reports flights marked "over people". ${aircraftRule('107.39')!.summary} (From memory.)

The region of the site says whether that is never allowed, with consent, or with aircraft of some classes. Some regions state a distance to the side of people as well, which is compared with what the flight says it kept from people. A row that is from memory, or in part, is a warning; a region without a row produces no finding. Where no region is stated, the law of the United States stands in.`,
  limitations:
    'Aircraft certified for flight over people: leave the mark off and state the category in a note. A distance from people that is not on record.',
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
    {
      title: 'Canada: 100 ft to the side',
      text: `site "Fernhollow Court"
  region CA

tree 95
  inspection 2026-04-20 from drone
    flown 60 ft, permission owner, 90 ft from people #! exceeds
  inspection 2026-04-21 from drone
    flown 60 ft, permission owner, 110 ft from people
`,
    },
    {
      title: 'The Union: 30 m, for aircraft of some classes',
      text: `site "Fernhollow Court"
  region DE

tree 95
  inspection 2026-04-20 from drone
    flown 20 m, permission owner, 20 m from people #! may exceed
`,
    },
  ],
  check,
};
