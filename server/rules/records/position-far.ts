import { authority } from '../../assess/judge.ts';
import { distanceBetween } from '../../base/distance.ts';
import { plainNumber } from '../../base/quantity.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { NOTHING, type Rule, type RuleReport, spanOf } from '../rule.ts';

const METRES_PER_KILOMETRE = 1000;

const kilometres = (metres: number): string => `${plainNumber(metres / METRES_PER_KILOMETRE, 1)} km`;

function check({ tree: { position, tag }, site, settings }: TreeContext): readonly RuleReport[] {
  if (!position || !site?.position) return NOTHING;
  const limit = settings.limit('site-distance');
  const apart = distanceBetween(position, site.position);
  if (apart <= limit.value) return NOTHING;
  return [
    {
      at: spanOf(position),
      grade: 'exceeds',
      level: 'warning',
      subject: tag.value,
      message: `The position is ${kilometres(apart)} from that of ${site.name.value}. The limit is ${kilometres(limit.value)} (${authority(limit)}).`,
      remedy: 'Check the digits, the signs and the order: latitude first; west and south are negative.',
    },
  ];
}

export const positionFar: Rule = {
  name: 'position-far',
  group: 'records',
  level: 'warning',
  summary: 'a tree whose position is far from its site',
  sources: [cite('practice')],
  explanation:
    'Compares the great-circle distance between the position of a tree and that of its site with the limit site-distance. A missing minus sign, swapped coordinates or a wrong digit puts a tree in another county, and the crew’s map shows nothing at the site.',
  limitations: 'Sites of a client with trees in many places: raise the limit site-distance there.',
  acceptable: true,
  examples: [
    {
      title: 'A missing sign, a wrong digit',
      text: `site "Fernhollow Court"
  position 44.3127, -122.8714

tree 471
  position 44.3128, 122.8713 #! warning exceeds

tree 472
  position 44.5128, -122.8713 #! warning exceeds
`,
    },
    {
      title: 'Across the road, and with no position',
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
