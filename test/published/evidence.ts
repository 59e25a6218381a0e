/** Cracks, cankers, rating codes and decay in time: published marks, and values computed apart from the program. */

import { codedAs, codedWords } from '../../server/assess/coded.ts';
import { decayCourses, wallOn } from '../../server/assess/decay-time.ts';
import { outerWoodLoss } from '../../server/assess/defect-verdict.ts';
import { instrumentWalls } from '../../server/assess/instruments.ts';
import { signsOf } from '../../server/assess/signs.ts';
import { formatDate, parseDate } from '../../server/base/dates.ts';
import { exact, interval } from '../../server/base/interval.ts';
import { nextLook, wallAfter, wallChange, yearsTo } from '../../server/mechanics/decay.ts';
import { SPLIT } from '../../server/mechanics/lost-sector.ts';
import { cite } from '../../server/practice/citation.ts';
import { dayContext } from '../assess/inventory.ts';
import type { PublishedCheck } from './published-check.ts';

const APART = 'Computed apart from the program';
const CODES = `${cite('usda-hazard-codes').short}, read in a copy`;

const contextOf = (fields: string, tree = '') =>
  dayContext(`tree 1\n${tree}  inspection 2026-05-04 from ground\n  defect A ${fields}\n`);

/** Rating of the defect of an inventory by the codes. */
function code(fields: string, tree?: string): string | undefined {
  const context = contextOf(fields, tree);
  const signs = signsOf(context);
  const coded = codedAs(signs[0]!, signs, context);
  return coded && (coded.least === coded.most ? coded.most : codedWords(coded));
}

function sector(share: string, depth: string): number {
  const context = contextOf(
    `canker\n    diameter 20 in\n    bark 0 in\n    share ${share} of circumference\n    depth ${depth}`,
  );
  return 100 * outerWoodLoss(context.tree.defects[0]!, context)!.loss.high;
}

const marks: readonly PublishedCheck[] = [
  ['a canker on 45 % of the circumference', 'high', 'canker\n    share 45 % of circumference'],
  ['a canker on 35 % of the circumference', 'moderate', 'canker\n    share 35 % of circumference'],
  ['a canker on 60 % of the circumference', 'high', 'canker\n    share 60 % of circumference'],
  ['42 % of the roots lost', 'high', 'root loss\n    share 42 % of roots'],
  ['a wall of 0.10 m in 0.60 m', 'moderate', 'decay\n    diameter 60 cm\n    bark 0 in\n    wall 10 cm'],
  ['a wall of 0.09 m in 0.60 m', 'high', 'decay\n    diameter 60 cm\n    bark 0 in\n    wall 9 cm'],
  ['a crack in the outer wood', 'moderate', 'crack\n    runs shallow'],
  ['a crack into the soil', 'high', 'crack\n    runs deep, into the soil'],
  ['a stem split in two', 'extremely high', 'crack\n    runs through'],
  ['a standing dead tree', 'high', 'wound\n    share 5 % of circumference', '  vigor dead\n'],
].map(
  ([name, expected, fields, tree]): PublishedCheck => ({
    name: name!,
    source: CODES,
    expected: expected!,
    compute: () => code(fields!, tree),
  }),
);

const sections: readonly PublishedCheck[] = [
  {
    name: 'modulus left by a crack through the pith, square to the wind',
    source: `${APART}: two half circles`,
    expected: 0.486,
    tolerance: 0.0005,
    compute: () => SPLIT.low,
  },
  ...(
    [
      ['20 %', '2 in', 22.0],
      ['40 %', '2.5 in', 33.0],
      ['60 %', '5 in', 63.6],
    ] as const
  ).map(
    ([share, depth, expected]): PublishedCheck => ({
      name: `strength lost by dead wood of ${share} of the circumference, ${depth} deep in a stem of 20 in`,
      source: `${APART}: summed over a polar grid`,
      expected,
      tolerance: 0.15,
      unit: '%',
      compute: () => sector(share, depth),
    }),
  ),
  {
    name: 'the same of half the circumference to the pith: a half circle',
    source: `${APART}: closed form`,
    expected: 75.71,
    tolerance: 0.02,
    unit: '%',
    compute: () => sector('50 %', '10 in'),
  },
];

const mm = (value: number) => exact(value / 1000);
const years = (growth: number, advance: number) =>
  yearsTo(mm(90), mm(120), wallChange(mm(growth), mm(advance)));

/** A wall of 120 mm, rings of 2 to 3 mm, decay of up to 7 mm a year. */
const range = (after: number) =>
  wallAfter(mm(120), wallChange(interval(0.002, 0.003), interval(0, 0.007)), after);

const OVER_TIME = `tree 1
  species Tilia cordata
  vigor good
  inspection 2020-05-04 from ground
  defect A decay
    on trunk at 4 ft
    seen 2020-05-04
    diameter 540 mm
    bark 0 mm
    wall 120 mm at N
  drilling 2025-05-04 of A
    error 0 mm
    wall 95 mm at N
`;

const course = () => {
  const { tree, site, settings } = dayContext(OVER_TIME);
  return decayCourses(tree, site, settings)[0]!;
};

const time: readonly PublishedCheck[] = [
  {
    name: 'wall of 120 mm, limit 90, rings 2, decay 7 mm a year: years to the limit',
    expected: 6,
    tolerance: 1e-9,
    compute: () => years(2, 7).low,
  },
  {
    name: 'the same: years to the next look',
    expected: 3,
    tolerance: 1e-9,
    compute: () => nextLook(years(2, 7), 100),
  },
  {
    name: 'rings 3, decay 2 mm a year: years to the limit',
    expected: 'never',
    compute: () => (years(3, 2).low === Number.POSITIVE_INFINITY ? 'never' : years(3, 2).low),
  },
  ...(
    [
      [5, 95, 135],
      [10, 70, 150],
    ] as const
  ).flatMap(([after, low, high]): readonly Omit<PublishedCheck, 'source'>[] => [
    {
      name: `rings 2 to 3, decay 0 to 7 mm a year: least wall in year ${after}`,
      expected: low,
      tolerance: 1e-9,
      unit: 'mm',
      compute: () => 1000 * range(after).low,
    },
    {
      name: `rings 2 to 3, decay 0 to 7 mm a year: greatest wall in year ${after}`,
      expected: high,
      tolerance: 1e-9,
      unit: 'mm',
      compute: () => 1000 * range(after).high,
    },
  ]),
  {
    name: 'from the notation: 120 mm, five years later 95 mm: change a year',
    expected: -5,
    tolerance: 0.005,
    unit: 'mm',
    compute: () => 1000 * course().change.low,
  },
  {
    name: 'the same: down to a sixth of 540 mm a year later',
    expected: '2026-05-04',
    compute: () => formatDate(course().limitDays.low),
  },
  {
    name: 'the same: least wall ten years later',
    expected: 45,
    tolerance: 0.05,
    unit: 'mm',
    compute: () => 1000 * wallOn(course(), parseDate('2035-05-04')!).low,
  },
].map(check => ({ ...check, source: APART }));

const DRILLED = `tree 1
  inspection 2026-05-04 from ground
  defect A decay
    diameter 20 in
    bark 0 in
    wall 4 in at N
  drilling 2026-05-05 of A
    error 0.5 in
    wall 3 in at N
  tomogram 2026-05-05 of A
    error 1 in
    sound 40 % at S
`;

const instruments: readonly PublishedCheck[] = (
  [
    ['a wall of 3 in drilled with an error of 0.5 in: at the least', 0, 'low', 2.5],
    ['a wall of 3 in drilled with an error of 0.5 in: at the most', 0, 'high', 3.5],
    ['40 % of a radius of 10 in by a tomograph with an error of 1 in: at the least', 1, 'low', 3],
    ['40 % of a radius of 10 in by a tomograph with an error of 1 in: at the most', 1, 'high', 5],
  ] as const
).map(([name, index, end, expected]) => ({
  name,
  source: APART,
  expected,
  tolerance: 1e-9,
  unit: 'in',
  compute: () => {
    const { tree, settings } = dayContext(DRILLED);
    return instrumentWalls(tree.defects[0]!, tree, settings)[index]!.wall[end] / 0.0254;
  },
}));

export const evidenceChecks: readonly PublishedCheck[] = [...marks, ...sections, ...time, ...instruments];
