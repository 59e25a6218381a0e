import { activeNests, type FoundNest, nestDays } from '../../assess/active-nests.ts';
import { isRead, readingOf } from '../../assess/fall-zone.ts';
import { type Approach, dronesNearCrown } from '../../assess/flights.ts';
import { showInterval } from '../../assess/judge.ts';
import { nestsNear } from '../../assess/near-nests.ts';
import { bufferOf } from '../../assess/nest-buffers.ts';
import { NESTING_CAUTION, nestingSeasons } from '../../assess/nesting.ts';
import { limitLike } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { limitVerdict } from '../../base/interval.ts';
import { showQuantity, unitOf } from '../../base/quantity.ts';
import type { Setting, Settings } from '../../facts/settings.ts';
import { nestBuffer } from '../../practice/birds.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { pointTo, type Rule, type RuleReport } from '../rule.ts';

/** Songbirds and unnamed birds tolerate a drone at photographing distance; other birds get their work buffer. */
function keptFrom(nest: FoundNest, settings: Settings, on: number): Setting {
  const buffer = nest.species && nestBuffer(nest.species.name);
  return buffer === undefined || buffer === 'nest-buffer-passerine'
    ? settings.limit('nest-stand-off', on)
    : bufferOf(nest, settings, on);
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings } = context;
  const seasons = nestingSeasons(tree, settings);
  for (const flight of dronesNearCrown(tree)) {
    const { at, day, standOff } = flight;
    yield* nearOthers(context, flight);
    const distance = readingOf(standOff, settings);
    const known = isRead(standOff);
    for (const nest of activeNests(tree)) {
      const inUse = nestDays(nest, { from: day, to: day }, seasons);
      const setting = keptFrom(nest, settings, day);
      const judged = limitVerdict(distance, setting.value, setting.direction);
      // An unrecorded stand-off is treated as too close.
      const standing = known || judged === 'within' ? judged : 'exceeds';
      if (!inUse || standing === 'within') continue;
      yield {
        at,
        grade: inUse.grade === 'exceeds' ? standing : 'may exceed',
        subject: formatDate(day),
        message: `The drone ${known ? `came within ${showQuantity(standOff!.value)} of` : 'was flown at an unrecorded distance from'} a nest ${nest.use === 'active' ? 'in use' : 'perhaps in use'}${nest.species ? ` of ${nest.species.name}` : ''} on ${formatDate(day)}. The minimum distance is ${limitLike(setting, standOff?.value)}.`,
        remedy:
          standing === 'exceeds' && known
            ? 'Stay farther away with a longer lens, approach from the side and not from above, and leave when a bird reacts.'
            : 'Record the stand-off distance from the nest, from the flight log.',
        related: [pointTo(nest, `Found on ${formatDate(nest.seen)}`)],
      };
    }
  }
}

/** The nest in another tree that is worst for a flight around this one: it may be nearer by the stand-off. */
function* nearOthers(context: TreeContext, { at, day, standOff }: Approach): Iterable<RuleReport> {
  const { tree, settings } = context;
  const off = isRead(standOff) ? readingOf(standOff, settings).high : 0;
  const found = nestsNear(context).flatMap(({ nest, where, distance, keeping }) => {
    const inUse = keeping.seasons && nestDays(nest, { from: day, to: day }, keeping.seasons);
    if (!inUse || !distance) return [];
    const around = { low: Math.max(0, distance.low - off), high: distance.high + off };
    const setting = keptFrom(nest, settings, day);
    const standing = limitVerdict(around, setting.value, setting.direction);
    if (standing === 'within') return [];
    return [
      { nest, where, around, setting, grade: inUse.grade === 'exceeds' ? standing : ('may exceed' as const) },
    ];
  });
  const worst = found.find(({ grade }) => grade === 'exceeds') ?? found[0];
  if (!worst) return;
  const { nest, where, around, setting, grade } = worst;
  const like = [standOff?.value, nest.height?.value, tree.height?.value];
  const unit = like.find(quantity => quantity?.unit)?.unit ?? unitOf(setting.unit)!;
  yield {
    at,
    grade,
    subject: formatDate(day),
    message: `The drone was flown at this tree on ${formatDate(day)}, ${showInterval(around, { unit: unit.symbol }, 0)} from a nest ${nest.use === 'active' ? 'in use' : 'perhaps in use'}${nest.species ? ` of ${nest.species.name}` : ''} in ${where}. The minimum distance is ${limitLike(setting, ...like)}.`,
    remedy: 'Fly after the young have left, or ask a wildlife biologist before a flight.',
  };
}

export const flightNearNest: Rule = {
  name: 'flight-near-nest',
  group: 'aircraft',
  level: 'warning',
  summary: 'a drone flown closer to an active nest than accepted practice allows',
  sources: [cite('practice'), cite('vas-2015'), cite('eagle-guidelines-2007')],
  explanation:
    'Checks drone inspections and drone nest checks on dates when a nest in the tree was in use as far as the record shows. A nest is in use from the day it was found until a later check cleared it or its season ended. A nest in another tree counts by the distance between the positions of the trees: see nest-near.\n\nThe stand-off distance is compared with the limit nest-stand-off, a distance from which nests are commonly photographed without disturbance. For a named bird of prey, eagle, owl or heron it is compared with the buffer for work near its nest. An inspection and a nest check on the same day count as one flight, and the stand-off of either applies. Without a recorded stand-off the finding exceeds; where use of the nest is unclear it may exceed.',
  limitations: 'Flights by a biologist under a permit: record an exception that cites the permit.',
  appliesTo: ['flights', 'nest checks'],
  acceptable: true,
  caution: NESTING_CAUTION,
  examples: [
    {
      title: 'Forty feet from a flicker’s nest; no stand-off recorded',
      text: `site "Fernhollow Court"
  region US-OR

tree 103
  nest check 2026-05-14 from drone
    stand-off 40 ft #! exceeds
    found active Colaptes auratus at 30 ft
  inspection 2026-05-20 from drone #! exceeds
    level limited
`,
    },
    {
      title: 'Sixty feet is enough for a flicker, not for a hawk',
      text: `site "Fernhollow Court"
  region US-OR

tree 104
  nest check 2026-05-14 from ground
    found active Buteo jamaicensis at 60 ft
  inspection 2026-05-20 from drone
    flown 120 ft, permission owner, 60 ft stand-off #! exceeds

tree 105
  nest check 2026-05-14 from drone
    stand-off 60 ft
    found active Colaptes auratus at 30 ft
  inspection 2026-05-14 from drone
    flown 120 ft, permission owner
`,
    },
    {
      title: 'Eagles, herons and Swainson’s hawk: the buffers for work apply',
      text: `site "Fernhollow Court"
  region US-OR

tree 107
  nest check 2026-05-14 from ground
    found active Haliaeetus leucocephalus at 90 ft
  inspection 2026-05-20 from drone
    flown 120 ft, permission owner, 500 ft stand-off #! exceeds

tree 108
  nest check 2026-05-14 from ground
    found active Ardea herodias at 70 ft
  inspection 2026-05-20 from drone
    flown 120 ft, permission owner, 400 ft stand-off #! exceeds

tree 109
  nest check 2026-05-14 from ground
    found active Buteo swainsoni at 50 ft
  inspection 2026-05-20 from drone
    flown 120 ft, permission owner, 1000 ft stand-off #! exceeds
`,
    },
    {
      title: 'Before the nest was found, and after the young had left',
      text: `site "Fernhollow Court"
  region US-OR

tree 106
  inspection 2026-02-10 from drone
    flown 120 ft, permission owner, 20 ft stand-off
  nest check 2026-03-14 from ground
    found active Turdus migratorius
  nest check 2026-05-20 from ground
    found old
  inspection 2026-05-28 from drone
    flown 120 ft, permission owner, 20 ft stand-off
`,
    },
  ],
  check,
};
