/** A tree that stands far from its site. */

import { plainNumber } from '../../../grammar/quantity.ts';
import { authority } from '../../assess/judge.ts';
import type { Position } from '../../facts/types.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

/** m; mean radius of the earth (IUGG). */
const EARTH_RADIUS = 6_371_008.8;
const RADIANS = Math.PI / 180;
const METRES_PER_KILOMETRE = 1000;

/** Great-circle distance by the haversine formula, m. */
function distance(a: Position, b: Position): number {
  const latitude = Math.sin(((b.latitude - a.latitude) * RADIANS) / 2) ** 2;
  const longitude = Math.sin(((b.longitude - a.longitude) * RADIANS) / 2) ** 2;
  const cosines = Math.cos(a.latitude * RADIANS) * Math.cos(b.latitude * RADIANS);
  return 2 * EARTH_RADIUS * Math.asin(Math.min(1, Math.sqrt(latitude + cosines * longitude)));
}

const kilometres = (metres: number): string => `${plainNumber(metres / METRES_PER_KILOMETRE, 1)} km`;

function* check({ tree: { position, tag }, site, settings }: TreeContext): Iterable<Report> {
  if (!position || !site?.position) return;
  const limit = settings.limit('site-distance');
  const apart = distance(position, site.position);
  if (apart <= limit.value) return;
  yield {
    at: { start: position.start, end: position.end },
    grade: 'exceeds',
    level: 'warning',
    subject: tag.value,
    message: `The position lies ${kilometres(apart)} from that of ${site.name.value}; the limit is ${kilometres(limit.value)} (${authority(limit)}).`,
    remedy: 'Check the digits, the signs and the order: latitude first, west and south are negative.',
  };
}

export const positionFar: Rule = {
  name: 'position-far',
  group: 'records',
  level: 'warning',
  summary: 'a tree whose position lies far from its site',
  sources: [cite('practice')],
  explanation:
    'Measures the distance, along a great circle, between the position of a tree and that of its site, and compares it with the limit site-distance. A lost sign, swapped coordinates or a wrong digit puts a tree into another county; the map then shows nothing where a crew should look.',
  whenNot: 'Sites of a client with trees in many places: raise the limit site-distance there.',
  acceptable: true,
  examples: [
    {
      title: 'A sign lost, a digit wrong',
      text: `site "Fernhollow Court"
  position 44.3127, -122.8714

tree 471
  position 44.3128, 122.8713 #! warning exceeds

tree 472
  position 44.5128, -122.8713 #! warning exceeds
`,
    },
    {
      title: 'Across the road, and without a position',
      text: `site "Fernhollow Court"
  position 44.3127, -122.8714

tree 473
  position 44.3151, -122.8713

tree 474
`,
    },
  ],
  check,
};
