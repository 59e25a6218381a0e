/** Limbs, forks and cables: values of the sources, and values computed apart from the program. */

import { cablesFor } from '../../server/assess/cable-sizes.ts';
import { forkSafety, forksOf } from '../../server/assess/fork-safety.ts';
import { limbSafety, shorteningsOf } from '../../server/assess/limb-safety.ts';
import { judgedCable } from '../../server/assess/supports.ts';
import { exact, interval } from '../../server/base/interval.ts';
import { cableTension } from '../../server/mechanics/forks.ts';
import {
  coneShortened,
  iceOnTwig,
  type LimbShape,
  ownMoment,
  roundModulus,
  woodMass,
} from '../../server/mechanics/limbs.ts';
import { GRAVITY } from '../../server/mechanics/stem.ts';
import { strandCitation, strandFor } from '../../server/practice/cables.ts';
import { cite } from '../../server/practice/citation.ts';
import { aspectFactor } from '../../server/practice/limbs.ts';
import { dayContext } from '../assess/inventory.ts';
import type { PublishedCheck } from './published-check.ts';

const APART = 'Computed apart from the program';

const LIMB: LimbShape = {
  diameter: exact(0.25),
  length: exact(10),
  angle: exact(0),
  density: exact(1000),
  foliage: exact(0),
  foliageCenter: exact(0.6),
};
/** kN·m of a cone of 0.25 m × 10 m with some foliage at 0.6 of its length: the least of the range. */
const moment = (foliage: number) => ownMoment({ ...LIMB, foliage: exact(foliage) }).low / 1000;
const stress = (foliage: number) => (1000 * moment(foliage)) / roundModulus(LIMB.diameter).low / 1e6;

const own: readonly PublishedCheck[] = [
  {
    name: 'mass of a horizontal limb of 0.25 m and 10 m, a cone of 1000 kg/m³',
    source: APART,
    expected: 164,
    tolerance: 0.5,
    unit: 'kg',
    compute: () => woodMass(LIMB).low,
  },
  ...(
    [
      [0, 4.01, 2.62],
      [0.3, 6.9, 4.5],
      [1, 13.6, 8.89],
    ] as const
  ).flatMap(([foliage, kilonewtonmetres, megapascals]): readonly PublishedCheck[] => [
    {
      name: `its moment at the union with ${foliage} of the mass of its wood in foliage`,
      source: APART,
      expected: kilonewtonmetres,
      tolerance: 0.05,
      unit: 'kN·m',
      compute: () => moment(foliage),
    },
    {
      name: `its stress there with ${foliage} of the mass in foliage`,
      source: APART,
      expected: megapascals,
      tolerance: 0.01,
      unit: 'MPa',
      compute: () => stress(foliage),
    },
  ]),
  ...(
    [
      ['12.7 mm of ice on a twig of 20 mm', 0.0127, 0.02, 11.7, 0.05],
      ['6.35 mm of ice on a twig of 10 mm', 0.00635, 0.01, 2.93, 0.005],
    ] as const
  ).map(
    ([name, ice, twig, expected, tolerance]): PublishedCheck => ({
      name,
      source: APART,
      expected,
      tolerance,
      unit: 'N/m',
      compute: () => iceOnTwig(ice, twig),
    }),
  ),
  ...(
    [
      [0.02, 4.8],
      [0.005, 34],
    ] as const
  ).map(
    ([twig, expected]): PublishedCheck => ({
      name: `weight with 12.7 mm of ice over that of a twig of ${twig * 1000} mm, 1000 kg/m³`,
      source: APART,
      expected,
      tolerance: 0.05,
      compute: () => 1 + iceOnTwig(0.0127, twig) / (1000 * GRAVITY * (Math.PI / 4) * twig ** 2),
    }),
  ),
  ...(
    [
      [0.1, 0.4],
      [0.15, 1.2],
      [0.2, 2.7],
      [0.3, 8.4],
    ] as const
  ).map(
    ([share, expected]): PublishedCheck => ({
      name: `moment of a bare cone that is shortened by ${share * 100} %`,
      source: APART,
      expected,
      tolerance: 0.05,
      unit: '%',
      compute: () => 100 * coneShortened(share),
    }),
  ),
];

const OAK = `site "Tansy Creek"
  wind 92 mph, exposure B

tree 1
  species Quercus alba
  limb L1
    diameter 10 in
    length 30 ft
    lean 90 deg
  prescription R1 reduce
    shorten L1 10 m to 8 m
  prescription R2 reduce
    shorten L1 10 m to 9 m
  prescription R3 reduce
    shorten L1 10 m to 7 m
`;

const oakLimb = () => {
  const { tree, site, settings } = dayContext(OAK);
  const safety = limbSafety(tree.parts[0]!, tree, site, settings);
  if (safety === undefined || typeof safety === 'string') throw new Error('no figure');
  return safety;
};
const gain = (prescription: number) => {
  const { tree, settings } = dayContext(OAK);
  return shorteningsOf(tree.prescriptions[prescription]!, settings)[0]!.gain;
};

const throughTheNotation: readonly PublishedCheck[] = [
  {
    name: 'least moment of a level limb of white oak, 10 in and 30 ft',
    source: `${APART}, 1016 kg/m³ less 10 %`,
    expected: 5.066,
    tolerance: 0.01,
    unit: 'kN·m',
    compute: () => oakLimb().moment.low / 1000,
  },
  {
    name: 'greatest moment of it',
    source: `${APART}, 1016 kg/m³ and 10 %`,
    expected: 23.99,
    tolerance: 0.05,
    unit: 'kN·m',
    compute: () => oakLimb().moment.high / 1000,
  },
  ...(
    [
      [1, '10 m to 9 m', 19, 27.1],
      [0, '10 m to 8 m', 36, 48.8],
      [2, '10 m to 7 m', 51, 65.7],
    ] as const
  ).flatMap(([at, words, low, high]): readonly PublishedCheck[] => [
    {
      name: `moment that shortening a limb from ${words} takes off at the least`,
      source: APART,
      expected: low,
      tolerance: 0.01,
      unit: '%',
      compute: () => 100 * gain(at).low,
    },
    {
      name: `the same from ${words} at the most`,
      source: APART,
      expected: high,
      tolerance: 0.01,
      unit: '%',
      compute: () => 100 * gain(at).high,
    },
  ]),
];

const attachment: readonly PublishedCheck[] = (
  [
    [0.5, 1, 1],
    [0.6, 0.82, 0.91],
    [0.7, 0.63, 0.81],
    [1, 0.25, 0.55],
  ] as const
).flatMap(([ratio, low, high]): readonly PublishedCheck[] => [
  {
    name: `least strength of the attachment of a limb ${ratio} as thick as its stem, over that at 0.5`,
    source: `${cite('gilman-2003').short}, from its ten regressions; extrapolated at 1`,
    expected: low,
    tolerance: 1e-9,
    compute: () => aspectFactor(exact(ratio)).low,
  },
  {
    name: `greatest strength of it at a ratio of ${ratio}`,
    source: `${cite('gilman-2003').short}, from its ten regressions; extrapolated at 1`,
    expected: high,
    tolerance: 1e-9,
    compute: () => aspectFactor(exact(ratio)).high,
  },
]);

/** 8 kN at 6 m above the fork; a cable at 6.67 m. */
const tension = (fork: number, slope = 0) =>
  cableTension(exact(48_000), 1, exact(fork), { above: exact(6.67), slope: exact(slope) }).high / 1000;

const MAPLE = `site "Tansy Creek"
  wind 92 mph, exposure B

tree 1
  species Acer rubrum
  height 20 m
  crown from 6 m, 12 m wide
  stem East
    from 4 m
    diameter 40 cm
    height 20 m
    crown from 8 m, 8 m wide
    lean 0 deg
    union included bark, at the apex, with West
  stem West
    diameter 40 cm
    height 20 m
    crown from 8 m, 8 m wide
    lean 0 deg
  support C1 cable
    holds East, West
    fixed at 15 m, 0 deg from horizontal
    rated 5000 kN
`;
const maple = () => {
  const context = dayContext(MAPLE);
  const { tree, site, settings } = context;
  const [one, other] = forksOf(tree)[0]!;
  const fork = forkSafety(one, other, tree, site, settings);
  if (typeof fork === 'string') throw new Error(fork);
  return { context, fork };
};

const cables: readonly PublishedCheck[] = [
  {
    name: 'tension of a cable that relieves the fork of all',
    source: APART,
    expected: 7.2,
    tolerance: 0.005,
    unit: 'kN',
    compute: () => tension(0),
  },
  {
    name: 'the same if the fork keeps 20 kN·m',
    source: APART,
    expected: 4.2,
    tolerance: 0.005,
    unit: 'kN',
    compute: () => tension(20_000),
  },
  {
    name: 'the same in full at a slope of 20 degrees',
    source: APART,
    expected: 7.66,
    tolerance: 0.005,
    unit: 'kN',
    compute: () => tension(0, 20),
  },
  {
    name: 'strand for 5.91 kN',
    source: `${strandCitation.short}, from memory: 1/4 in breaks at 6,650 lbf, a fifth is 5.92 kN`,
    expected: '1/4 in',
    compute: () => strandFor(5910)?.name,
  },
  {
    name: 'strand for 7.20 kN',
    source: `${strandCitation.short}, from memory: 1/4 in is too thin`,
    expected: '5/16 in',
    compute: () => strandFor(7200)?.name,
  },
  {
    name: 'greatest strength of a fork of two stems of 40 cm with bark at the apex',
    source: `${APART}: 0.60 · 0.76 · 1.26 · 53.1 MPa · π d³ / 32`,
    expected: 191.5,
    tolerance: 1,
    unit: 'kN·m',
    compute: () => maple().fork.resistance.high / 1000,
  },
  {
    name: 'tension of the cable that holds it, over its moment and the height above the fork',
    source: `${APART}: (1.5 M − R) / 11 m at the upper end`,
    expected: 1,
    tolerance: 1e-9,
    compute: () => {
      const { context, fork } = maple();
      const { tree, site, settings } = context;
      const [cable] = tree.supports;
      const judged = judgedCable(cable!, cable!.holds, tree, site, settings);
      if (!judged || typeof judged.load === 'string') throw new Error('no figure');
      return judged.load.tension.high / ((1.5 * fork.moment.high - fork.resistance.low) / 11);
    },
  },
  {
    name: 'height from which a cable may hold it: 4 m and two thirds of 16 m, rounded up as by tape',
    source: `${cite('ztv-baumpflege').short}, read in a glossary`,
    expected: '14.7 m',
    compute: () => /at ([\d.]+ m) or higher/.exec(cablesFor(['East'], maple().context).join())?.[1],
  },
];

const unmeasured: readonly PublishedCheck[] = [
  {
    name: 'strength of an attachment whose ratio nobody measured',
    source: `${cite('gilman-2003').short}: from 0.25 to 1`,
    expected: '0.25 to 1',
    compute: () => {
      const { low, high } = aspectFactor(interval(0, 1));
      return `${low} to ${high}`;
    },
  },
];

export const limbChecks: readonly PublishedCheck[] = [
  ...own,
  ...throughTheNotation,
  ...attachment,
  ...unmeasured,
  ...cables,
];
