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
  never: 'never be flown over',
  consent: 'be flown over only with their consent',
  'by class': 'be flown over only with an aircraft of a permitted class',
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
    message: `The drone was flown over people on ${day}. Uninvolved people may ${OVER[value]} (${authority}).`,
    remedy:
      'Close off the ground below, fly when the area is empty, or keep to the side. If everyone below was involved or under cover, remove "over people".',
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
    message: `The drone came within ${showQuantity(people.value)} of uninvolved people on ${day}. The minimum horizontal distance is ${lengthLike(law.value, people.value)}${byClass ? ', except for aircraft of a class that may come closer' : ''} (${law.authority}).`,
    remedy: 'Close off the ground around the tree, or fly when the area is empty.',
  };
}

export const flightOverPeople: Rule = {
  name: 'flight-over-people',
  group: 'aircraft',
  level: 'error',
  summary: 'a drone flown over uninvolved people, or closer to them than local law allows',
  sources: [cite('part-107')],
  explanation: `Reports flights marked "over people". ${aircraftRule('107.39')!.summary} (From memory.)\n\nThe region of the site determines whether this is never allowed, allowed with consent, or allowed with aircraft of some classes. Some regions also state a horizontal distance from people, which is compared with the distance on the flight record. A row that is wholly or partly from memory makes the finding a warning. A region without a row produces no finding. Where no region is stated, the law of the United States stands in.`,
  limitations:
    'Aircraft certified for flight over people: leave the mark out and state the category in a note. Flights with no recorded distance from people.',
  appliesTo: ['flights'],
  acceptable: false,
  caution: 'A falling drone kills. The pilot in command is responsible for everyone below.',
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
