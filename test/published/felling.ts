/** Rigging, logs behind a rotten core and green density: worked values, mostly computed apart from the program. */

import { millOf } from '../../server/assess/mill.ts';
import { riggingsOf } from '../../server/assess/rigging.ts';
import { exact } from '../../server/base/interval.ts';
import { arrestForce, frustumVolume } from '../../server/mechanics/rigging.ts';
import {
  boardFeet,
  cullShare,
  LOG_RULES,
  type LogRule,
  soundBoardFeet,
  squaredDefect,
} from '../../server/mechanics/timber.ts';
import { greenDensity } from '../../server/practice/density.ts';
import { dayContext } from '../assess/inventory.ts';
import type { PublishedCheck } from './published-check.ts';

const APART = 'Computed apart from the program';
const INCH = 0.0254;
const FOOT = 0.3048;

/** A piece of 2 kN; the line gives 40 kN/m over 10 m. */
const rigged = (drop: string, rope: string, more = '') => {
  const { tree, crew, settings } = dayContext(`crew ROPE "Rope crew"
  line 80 kN, stretches 2 %
  block 100 kN
  sling 80 kN

tree 1
  prescription R1 fell
    with ROPE
    piece 203.9432426 kg
    rigged caught, drop ${drop}, rope ${rope}${more}
`);
  return riggingsOf(tree, crew, settings)[0]!;
};

const forces: readonly PublishedCheck[] = [
  ...(
    [
      [
        'peak force of 2 kN falling 2 m on 10 m of rope of 40 kN/m',
        20.0,
        () => rigged('2 m', '10 m').peak.high,
      ],
      ['the same on 15 m of rope', 16.7, () => rigged('2 m', '15 m').peak.high],
      ['the same as little as drop tests gave', 6.67, () => rigged('2 m', '10 m').peak.low],
      ['the same without a fall', 4.0, () => rigged('0 m', '10 m').peak.high],
      ['at the block, both legs down', 40.0, () => rigged('2 m', '10 m', ', legs 0 deg').atBlock.high],
      [
        'at the block, legs 60 degrees apart',
        34.64,
        () => rigged('2 m', '10 m', ', legs 60 deg').atBlock.high,
      ],
    ] as const
  ).map(
    ([name, expected, compute]): PublishedCheck => ({
      name,
      source: `${APART}: W (1 + √(1 + 2 h k / W)), 2 F cos(θ/2)`,
      expected,
      tolerance: 0.05,
      unit: 'kN',
      compute: () => compute() / 1000,
    }),
  ),
  {
    name: 'force over weight of 500 lb falling 4 ft, k 40 kN/m',
    source: APART,
    expected: 7.7,
    tolerance: 0.05,
    compute: () => arrestForce(2224.1, 4 * FOOT, 40_000) / 2224.1,
  },
  {
    name: 'a log of 0.60 and 0.50 m by 2 m at 1016 kg/m³',
    source: APART,
    expected: 484,
    tolerance: 0.5,
    unit: 'kg',
    compute: () => 1016 * frustumVolume(exact(2), exact(0.6), exact(0.5)).low,
  },
  {
    name: 'oak 1 m thick and 2 m long at 1000 kg/m³ (printed as 1500 with π = 3)',
    source: 'Training article on rigging, read in a copy',
    expected: 1571,
    tolerance: 0.5,
    unit: 'kg',
    compute: () => 1000 * frustumVolume(exact(2), exact(1), exact(1)).low,
  },
];

const KEYS: Readonly<Record<LogRule, string>> = {
  Doyle: 'Doyle',
  Scribner: 'Scribner',
  'International 1/4-inch': 'International ¼',
};

/** Small end in inches, length in feet; core in inches and feet; gross, squared, share in %, net: as Doyle, Scribner, International. */
const CORES = [
  {
    d: 20,
    l: 16,
    w: 6,
    c: 16,
    gross: [256, 272, 289.8],
    squared: [52.3, 49.0],
    share: 13.57,
    low: [221, 220, 241],
    high: [221, 235, 250],
  },
  {
    d: 24,
    l: 12,
    w: 10,
    c: 6,
    gross: [300, 302, 311.4],
    squared: [48.4, 45.4],
    share: 11.44,
    low: [266, 254, 266],
    high: [266, 268, 276],
  },
  {
    d: 16,
    l: 16,
    w: 4,
    c: 8,
    gross: [144, 166, 180.6],
    squared: [13.3, 12.5],
    share: 5.56,
    low: [136, 153, 168],
    high: [136, 157, 171],
  },
] as const;

const cores: readonly PublishedCheck[] = CORES.flatMap(({ d, l, w, c, gross, squared, share, low, high }) => {
  const log = { smallEnd: d * INCH, length: l * FOOT };
  const core = { width: w * INCH, length: c * FOOT };
  const name = `${d} in by ${l} ft, core of ${w} in over ${c} ft`;
  const rule = (i: number) => LOG_RULES[i]!;
  return [
    ...LOG_RULES.flatMap((one, i): readonly PublishedCheck[] => [
      {
        name: `${KEYS[one]}, ${d} in by ${l} ft, gross`,
        source: APART,
        expected: gross[i]!,
        tolerance: 0.6,
        unit: 'board feet',
        compute: () => boardFeet(one, log),
      },
      ...(['low', 'high'] as const).map(
        (end): PublishedCheck => ({
          name: `${KEYS[one]}, ${name}, net, ${end === 'low' ? 'least' : 'most'}`,
          source: `${APART}; deductions from memory`,
          expected: (end === 'low' ? low : high)[i]!,
          tolerance: 0.6,
          unit: 'board feet',
          compute: () => soundBoardFeet(one, log, core)[end],
        }),
      ),
    ]),
    ...[1, 2].map(
      (i): PublishedCheck => ({
        name: `${KEYS[rule(i)]}, squared defect of ${w} in over ${c} ft`,
        source: `${APART}; rule from memory`,
        expected: squared[i - 1]!,
        tolerance: 0.06,
        unit: 'board feet',
        compute: () => squaredDefect(rule(i), core)!,
      }),
    ),
    {
      name: `share lost, ${name}`,
      source: `${APART}; Grosenbaugh 1952, formula from memory`,
      expected: share,
      tolerance: 0.005,
      unit: '%',
      compute: () => 100 * cullShare(log.smallEnd, log.length, core),
    },
  ];
});

/** A log whose small end is 20 in under bark, at the height of a second diameter that the bark of the species makes up. */
const milled = () => {
  const over = 20 * Math.sqrt(1 + 1.3 * 0.15);
  const { tree, settings } = dayContext(`tree 1
  species Juglans nigra
  dbh 30 in
  height 80 ft
  taper ${over.toFixed(6)} in at 17 ft
  prescription R1 fell
    logs 16 ft
`);
  const mill = millOf(tree, settings);
  if (typeof mill !== 'object') throw new Error(mill);
  return mill.logs[0]!;
};

const throughNotation: readonly PublishedCheck[] = [
  ['Doyle', 256],
  ['Scribner', 272],
  ['International 1/4-inch', 289.8],
].map(
  ([rule, expected]): PublishedCheck => ({
    name: `${KEYS[rule as LogRule]}, least yield of a butt log that is 20 in under bark at 17 ft`,
    source: `${APART}, through the notation`,
    expected: expected!,
    tolerance: 0.6,
    unit: 'board feet',
    compute: () => milled().boards![rule as LogRule].low,
  }),
);

const densities: readonly PublishedCheck[] = (
  [
    ['Liriodendron', 'tulipifera', 780, 791],
    ['Nyssa', 'sylvatica', 925, 904],
    ['Quercus', 'alba', 1010, 1016],
    ['Acer', 'saccharum', 881, 901],
  ] as const
).flatMap(([genus, epithet, wood, withBark]) => {
  const found = () => greenDensity({ genus, binomial: `${genus} ${epithet}` })!;
  const check = (what: string, expected: number, compute: () => number): PublishedCheck => ({
    name: `${genus} ${epithet}, green, ${what}`,
    source: 'Miles and Smith 2009, in the table of reference species of the national forest inventory',
    expected,
    tolerance: 0.6,
    unit: 'kg/m³',
    compute,
  });
  return [check('wood', wood, () => found().wood), check('wood with bark', withBark, () => found().density)];
});

export const fellingChecks: readonly PublishedCheck[] = [
  ...forces,
  ...cores,
  ...throughNotation,
  ...densities,
];
