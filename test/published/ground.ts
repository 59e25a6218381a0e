/** Roots, trenches and pull tests: figures of the papers, and worked figures computed apart, most through the notation. */

import { anchorageLeft } from '../../server/assess/anchorage-left.ts';
import { easedUnder } from '../../server/assess/load.ts';
import { decidingPull, type PullResult, pulledParts } from '../../server/assess/pull-tests.ts';
import { signsOf } from '../../server/assess/signs.ts';
import { exact, type Interval, interval } from '../../server/base/interval.ts';
import {
  anchorageMoment,
  leftOfRoots,
  structuralRootRadius,
  tippingShare,
} from '../../server/mechanics/anchorage.ts';
import { criticalWind } from '../../server/mechanics/wind.ts';
import { pullTest, rootEffect, rootRadii } from '../../server/practice/anchorage.ts';
import { cite } from '../../server/practice/citation.ts';
import { woodTable } from '../../server/practice/wood.ts';
import { dayContext } from '../assess/inventory.ts';
import type { PublishedCheck } from './published-check.ts';

const OWN = 'Computed apart, by another program';
const MEMORY = 'From memory';

const SITE = `site "Here"
  wind 33 m/s, exposure B
  gales from SW
`;

/** A tree of 1 m with these lines, on the site whose storms come from the southwest. */
const contextOf = (lines: string, dbh = '1 m') =>
  dayContext(`${SITE}
tree 1
  species Quercus robur
  dbh ${dbh}
  height 20 m
  crown from 4 m, 12 m wide
${lines}`);

function leftAfter(lines: string): { readonly low: number; readonly high: number } {
  const { tree, site, settings } = contextOf(lines);
  return anchorageLeft(tree, site, settings)!.share!;
}

const rootLoss = (share: number, facing: string) => `  defect A root loss
    on trunk at 0 m, facing ${facing}
    share ${share} % of roots
`;
const trench = (name: string, distance: number) => `  defect ${name} trench
    distance ${distance} m toward N
`;

const ends = (
  name: string,
  source: string,
  [low, high]: readonly [number, number],
  tolerance: number,
  compute: () => { readonly low: number; readonly high: number },
  unit?: string,
): readonly PublishedCheck[] =>
  (['low', 'high'] as const).map(end => ({
    name: `${name}, ${end} end`,
    source,
    expected: end === 'low' ? low : high,
    tolerance,
    ...(unit ? { unit } : {}),
    compute: () => compute()[end],
  }));

const SMILEY = 'Smiley 2008 and 2014, slopes judged from them';

const rootChecks: readonly PublishedCheck[] = [
  ...(
    [
      [12.5, 0.875, 0.925],
      [25, 0.75, 0.85],
      [50, 0.5, 0.7],
    ] as const
  ).flatMap(([share, low, high]) =>
    ends(
      `anchorage left with ${share} % of the roots lost away from the wind, written`,
      SMILEY,
      [low, high],
      1e-9,
      () => leftAfter(rootLoss(share, 'NE')),
    ),
  ),
  ...ends('anchorage left with 25 % of the roots lost toward the wind, written', OWN, [0.7, 0.82], 1e-9, () =>
    leftAfter(rootLoss(25, 'SW')),
  ),
  {
    name: 'half of the buttress roots cut: 30 % less, the high end',
    source: 'Smiley 2008',
    expected: 0.7,
    tolerance: 1e-9,
    compute: () => leftOfRoots(exact(0.5), interval(rootEffect.low, rootEffect.high)).high,
  },
  {
    name: 'more than half of the roots lost, written',
    source: 'Smiley, Holmes and Fraedrich 2014, the end of the tests',
    expected: 'no figure',
    compute: () => {
      const { tree, site, settings } = contextOf(rootLoss(51, 'NE'));
      return anchorageLeft(tree, site, settings)!.share ? 'a figure' : 'no figure';
    },
  },
  ...(
    [
      [0, 0.65],
      [1, 0.7667],
      [2, 0.8833],
      [3, 1],
    ] as const
  ).map(([distance, expected]) => ({
    name: `anchorage left beside a trench ${distance} diameters away, low end, written`,
    source: OWN,
    expected,
    tolerance: 5e-5,
    compute: () => leftAfter(trench('A', distance)).low,
  })),
  {
    name: 'anchorage left beside a trench 2.5 diameters away, high end, written',
    source: 'Smiley 2008; Pallafray, Sivarajah and Ruel 2024',
    expected: 1,
    tolerance: 1e-9,
    compute: () => leftAfter(trench('A', 2.5)).high,
  },
  {
    name: 'anchorage left between trenches 1 and 2 diameters away, low end, written',
    source: OWN,
    expected: 0.6772,
    tolerance: 5e-5,
    compute: () => leftAfter(trench('A', 1) + trench('B', 2)).low,
  },
  ...(
    [
      [0.3, 2],
      [0.5, 2.47],
      [0.8, 3.01],
      [1, 3.31],
    ] as const
  ).map(([diameter, expected]) => ({
    name: `structural root radius of a stem of ${diameter} m`,
    source: 'AS 4970-2009, from memory',
    expected,
    tolerance: 0.006,
    unit: 'm',
    compute: () => structuralRootRadius(exact(diameter), rootRadii.structural.least).low,
  })),
  ...(
    [
      ['30 cm', 0.9],
      ['50 cm', 1.5],
      ['80 cm', 2.4],
      ['100 cm', 3],
    ] as const
  ).flatMap(([dbh, distance]) =>
    (['within', 'exceeds'] as const).map(standing => ({
      name: `a trench ${standing === 'within' ? distance : `nearer than ${distance}`} m from a stem of ${dbh}, written`,
      source: 'Smiley 2008',
      expected: standing,
      compute: () =>
        signsOf(contextOf(trench('A', standing === 'within' ? distance : distance - 0.01), dbh)).find(
          ({ kind }) => kind === 'trench',
        )?.standing,
    })),
  ),
];

/** The worked example: 12 kN at 9 m, 25° from the horizontal. */
const pulled = (inclination: string, extra = ''): PullResult => {
  const { tree, site, settings } = contextOf(
    `  pull test 2026-05-12 toward NE
    force 12 kN
    rope at 9 m, 25 deg from horizontal${extra}
    inclination ${inclination}
    strain 0.045 % at 0 m
    strain 0.045 % at 1.3 m
    soil moist
`,
    '80 cm',
  );
  return decidingPull(tree, site, settings)!;
};
/** 60 kN on the same tree with a lean of 4°. */
const leaning = (): PullResult => {
  const { tree, site, settings } = contextOf(
    `  lean 4 deg toward E, steady
  pull test 2026-05-12 toward E
    force 60 kN
    rope at 9 m, 25 deg from horizontal
    inclination 0.18 deg, 0.15 deg
    soil moist
`,
    '80 cm',
  );
  return decidingPull(tree, site, settings)!;
};
function cutAt46(): Interval {
  const { tree, site, settings } = dayContext(`${SITE}
tree 1
  species Quercus robur
  dbh 30 in
  height 52 ft
  crown from 14 ft, 30 ft wide
  pull test 2026-05-12
    force 12 kN
    rope at 9 m, 25 deg from horizontal
    inclination 0.18 deg, 0.15 deg
    soil moist
  prescription R1 reduce
    height 52 ft to 46 ft
`);
  const parts = pulledParts(tree, site, settings);
  const [after] = easedUnder(parts, tree.prescriptions[0]!, tree, site, settings)!;
  const before = parts[0]!.judged.value;
  return interval(after!.judged.value.low / before.low, after!.judged.value.high / before.high);
}
const example = () => pulled('0.18 deg, 0.15 deg');
const kilo = (value: number) => value / 1000;
const kiloOf = ({ low, high }: { readonly low: number; readonly high: number }) => ({
  low: kilo(low),
  high: kilo(high),
});
const scatter = interval(pullTest.scatter.low, pullTest.scatter.high);
/** Anchorage of the example over the 150 kN m of the design wind at 33 m/s. */
const factor = () => ({
  low: example().anchorage!.low / 150e3,
  middle: (2.5 * example().reading!.low) / 150e3,
  high: example().anchorage!.high / 150e3,
});
const bySquareLaw = (value: number) => criticalWind(33, exact(value)).low;

const pullChecks: readonly PublishedCheck[] = [
  {
    name: 'moment of 12 kN at 9 m and 25°, written',
    source: OWN,
    expected: 97.9,
    tolerance: 0.05,
    unit: 'kN m',
    compute: () => kilo(example().moment!.low),
  },
  {
    name: 'the same 0.3 m off the axis, written',
    source: OWN,
    expected: 99.4,
    tolerance: 0.05,
    unit: 'kN m',
    compute: () => kilo(pulled('0.18 deg, 0.15 deg', ', 0.3 m off axis').moment!.low),
  },
  {
    name: 'moment at 0.25° from 0.18°, written',
    source: OWN,
    expected: 135.9,
    tolerance: 0.06,
    unit: 'kN m',
    compute: () => kilo(example().reading!.low),
  },
  {
    name: 'anchorage from this, without scatter',
    source: `${OWN}; 40 % at 0.25° from memory`,
    expected: 339.9,
    tolerance: 0.1,
    unit: 'kN m',
    compute: () => kilo(anchorageMoment(example().reading!, pullTest, exact(1)).low),
  },
  ...ends(
    'anchorage from this, written',
    'Detter, Rust and Krišāns 2023, the residuals of its table A2',
    [216.2, 535],
    0.1,
    () => kiloOf(example().anchorage!),
    'kN m',
  ),
  ...ends(
    'anchorage from 80 kN m at 0.25°',
    OWN,
    [127, 315],
    0.6,
    () => kiloOf(anchorageMoment(exact(80e3), pullTest, scatter)),
    'kN m',
  ),
  {
    name: 'anchorage of the example by the curve',
    source: OWN,
    expected: 318.1,
    tolerance: 0.4,
    unit: 'kN m',
    compute: () => kilo(example().moment!.low) / tippingShare(0.18, pullTest),
  },
  ...(
    [
      [0.25, 0.4],
      [2.5, 0.994],
    ] as const
  ).map(([inclination, expected]) => ({
    name: `share of the anchorage at ${inclination}°, by the curve`,
    source: MEMORY,
    expected,
    tolerance: 6e-4,
    compute: () => tippingShare(inclination, pullTest),
  })),
  ...(
    [
      ['low', 1.44, 39.6],
      ['middle', 2.27, 49.7],
      ['high', 3.56, 62.3],
    ] as const
  ).flatMap(([end, times, speed]) => [
    {
      name: `factor of the example under 150 kN m, ${end}`,
      source: OWN,
      expected: times,
      tolerance: 0.01,
      compute: () => factor()[end],
    },
    {
      name: `critical wind of the example, square law, ${end}`,
      source: OWN,
      expected: speed,
      tolerance: 0.1,
      unit: 'm/s',
      compute: () => bySquareLaw(factor()[end]),
    },
  ]),
  ...ends(
    'design wind of 33 m/s, exposure B, at the ground, on a crown from 4 to 20 m and 12 m wide, written',
    OWN,
    [118.97, 321.91],
    0.02,
    () => kiloOf(example().load!),
    'kN m',
  ),
  ...ends(
    'factor of the example under this wind, written',
    OWN,
    [0.6715, 4.4967],
    3e-4,
    () => example().judged!.value,
  ),
  ...ends(
    'critical wind of the example under this wind, written',
    OWN,
    [24.29, 104.89],
    0.02,
    () => example().criticalWind!,
    'm/s',
  ),
  ...ends(
    'weight of 0.80 m by 20 m at 4° with 830.9 to 1246.35 kg/m³ and a crown centered at 12 m, at the ground, written',
    OWN,
    [14.1294, 54.4172],
    5e-4,
    () => kiloOf(leaning().weight),
    'kN m',
  ),
  ...ends(
    'factor of this tree toward its lean, 60 kN at 9 m and 25° for 0.18°, written',
    OWN,
    [(1080.772 - 54.4172) / 321.906, (2674.741 - 14.1294) / 118.965],
    5e-4,
    () => leaning().judged!.value,
  ),
  ...ends(
    'factor of this tree from ahead of its lean, written',
    OWN,
    [(1080.772 + 14.1294) / 321.906, (2674.741 + 54.4172) / 118.965],
    5e-4,
    () => leaning().against!,
  ),
  ...ends(
    'factor over that under the full crown, crown from 14 to 52 ft cut at 46 ft: 83.7 % of the moment, half of that effect at the least, written',
    OWN,
    [1 / (1 - 0.5 * 0.163), 1 / 0.837],
    1e-3,
    cutAt46,
  ),
  ...(
    [
      ['0.09 deg, 0.08 deg', 'not judged'],
      ['0.26 deg, 0.2 deg', 'not judged'],
      ['0.18 deg, 0.15 deg', 'may exceed'],
    ] as const
  ).map(([inclination, expected]) => ({
    name: `the example with inclinations of ${inclination}, written`,
    source: `${MEMORY}: from 0.1° to 0.25°`,
    expected,
    compute: () => pulled(inclination).verdict.standing,
  })),
  ...ends(
    'moment at first crushing by a strain of 0.045 % at the ground, limit 0.41 % for one tree, written',
    `${OWN}; limit strain of Quercus robur from memory`,
    [0.7 * 891.81, 1.3 * 891.81],
    0.1,
    () => kiloOf(example().strains[0]!.capacity),
    'kN m',
  ),
  ...ends(
    'the same at 1.3 m, written',
    `${OWN}; limit strain of Quercus robur from memory`,
    [0.7 * 762.99, 1.3 * 762.99],
    0.1,
    () => kiloOf(example().strains[1]!.capacity),
    'kN m',
  ),
  ...(
    [
      ['least', 0.2, Math.min],
      ['greatest', 0.55, Math.max],
    ] as const
  ).map(([name, expected, end]) => ({
    name: `compression strength over modulus of elasticity, ${name} of all woods`,
    source: cite('wood-handbook').short,
    expected,
    tolerance: 0.006,
    unit: '%',
    compute: () => 100 * end(...woodTable.map(row => row.compressionStrength / row.modulusOfElasticity)),
  })),
  {
    name: 'the same, mean of all woods',
    source: cite('wood-handbook').short,
    expected: 0.27,
    tolerance: 0.006,
    unit: '%',
    compute: () =>
      (100 / woodTable.length) *
      woodTable.reduce((sum, row) => sum + row.compressionStrength / row.modulusOfElasticity, 0),
  },
  {
    name: 'root rot at the base of a tree that was not pulled, written',
    source: 'Guide to decay fungi',
    expected: 'not judged',
    compute: () =>
      signsOf(
        contextOf(`  defect A fungus
    on trunk at 0 m
    species Kretzschmaria deusta
`),
      )[0]!.standing,
  },
  {
    name: 'a trench dug after the pull test, written',
    source: 'Rule',
    expected: 'not judged',
    compute: () => {
      const { tree, site, settings } = contextOf(`  pull test 2026-05-12
    force 120 kN
    rope at 9 m, 25 deg from horizontal
    inclination 0.18 deg, 0.15 deg
    soil moist
  defect A trench
    distance 4 m
    dug 2026-05-13
`);
      return decidingPull(tree, site, settings)!.verdict.standing;
    },
  },
];

export const groundChecks: readonly PublishedCheck[] = [...rootChecks, ...pullChecks];
