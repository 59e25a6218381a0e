/** Cuts and stems in the wind: worked figures, computed apart by another program. */

import { exact, interval, multiply } from '../../server/base/interval.ts';
import { type Crown, sharesBelow } from '../../server/mechanics/crown.ts';
import { momentRatio, reducedCrown } from '../../server/mechanics/reduction.ts';
import { sectionFigures } from '../../server/mechanics/section.ts';
import {
  criticalWind,
  type Exposure,
  GUST_EFFECT,
  pressureCoefficient,
  safetyFactor,
  velocityPressure,
  type WindSite,
} from '../../server/mechanics/wind.ts';
import type { PublishedCheck } from './published-check.ts';

const METRES_PER_FOOT = 0.3048;
const site = (exposure: Exposure): WindSite => ({ exposure, edition: 'ASCE 7-16' });
/** Pressure at Kz = 1, Pa. */
const basicPressure = (speed: number) =>
  velocityPressure(10, speed, site('C')) / pressureCoefficient(10, site('C'));

const OWN = 'Computed apart, by another program';

/** Feet: base, top, the new top, a section; shares in % off silhouette and volume, then moment left in % by wind. */
const CUTS = [
  {
    crown: [14, 52, 46, 0],
    silhouette: 10.1,
    volume: 6.7,
    left: { uniform: 85.1, B: 83.7, C: 84.1 },
  },
  { crown: [14, 52, 46, 18], left: { B: 78.1, C: 78.5 } },
  {
    crown: [15, 60, 48, 4],
    silhouette: 21.4,
    volume: 17.5,
    left: { uniform: 68.7, B: 66.2, C: 66.8 },
  },
  { crown: [20, 100, 90, 4], silhouette: 7.2, volume: 4.3, left: { uniform: 88.4 } },
] as const satisfies readonly {
  readonly crown: readonly [number, number, number, number];
  readonly silhouette?: number;
  readonly volume?: number;
  readonly left: Readonly<Partial<Record<Exposure | 'uniform', number>>>;
}[];

/** So small that all of it stands below 15 ft, where the pressure is the same at every height. */
const IN_LOW_WIND = 0.01;

const cutChecks: readonly PublishedCheck[] = CUTS.flatMap(cut => {
  const [base, top, to, height] = cut.crown;
  const name = `crown from ${base} to ${top} ft cut at ${to} ft`;
  const crownOf = (scale: number): Crown => ({ base: base * scale, top: top * scale, spread: scale });
  const percent = (what: string, expected: number, compute: () => number): PublishedCheck => ({
    name: `${name}, ${what}`,
    source: OWN,
    expected,
    tolerance: 0.06,
    unit: '%',
    compute: () => compute() * 100,
  });
  const left = (scale: number, exposure: Exposure) => () => {
    const crown = crownOf(scale);
    return momentRatio([crown], [reducedCrown(crown, { top: to * scale })], height * scale, site(exposure));
  };
  return [
    ...('silhouette' in cut
      ? (['silhouette', 'volume'] as const).map(measure =>
          percent(
            `${measure} removed`,
            cut[measure],
            () => 1 - sharesBelow(crownOf(METRES_PER_FOOT), to * METRES_PER_FOOT)[measure],
          ),
        )
      : []),
    ...Object.entries(cut.left).map(([wind, expected]) =>
      wind === 'uniform'
        ? percent(
            `moment left at ${height} ft, the same wind at every height`,
            expected,
            left(IN_LOW_WIND, 'B'),
          )
        : percent(
            `moment left at ${height} ft, exposure ${wind}`,
            expected,
            left(METRES_PER_FOOT, wind as Exposure),
          ),
    ),
  ];
});

const half = { base: 14, top: 52, spread: 1 };
const centroidCheck: PublishedCheck = {
  name: 'crown from 14 to 52 ft cut at 46 ft, centroid of what comes off, in half heights above the centre',
  source: OWN,
  expected: 0.8124,
  tolerance: 5e-5,
  compute: () => {
    // 1 − m = A + S · b / (centre − height), at the ground.
    const crown = { base: 14 * IN_LOW_WIND, top: 52 * IN_LOW_WIND, spread: 1 };
    const gone = 1 - momentRatio([crown], [reducedCrown(crown, { top: 46 * IN_LOW_WIND })], 0, site('B'));
    const area = 1 - sharesBelow(half, 46).silhouette;
    return ((gone - area) * ((14 + 52) / 2)) / ((52 - 14) / 2) / area;
  },
};

/** Factor, then speed over the design wind by the square law and by the streamlined one. */
const CRITICAL = [
  [0.5, Math.SQRT1_2, 0.587],
  [0.8, 0.894, 0.842],
  [1.5, 1.225, 1.366],
  [2, Math.SQRT2, 1.704],
  [4, 2, 2.905],
] as const;
const criticalChecks: readonly PublishedCheck[] = CRITICAL.flatMap(([factor, square, streamlined]) => {
  const ends = [Math.min(square, streamlined), Math.max(square, streamlined)] as const;
  return (['low', 'high'] as const).map((end, i) => ({
    name: `critical wind over design wind at a factor of ${factor}, ${end} end`,
    source: OWN,
    expected: ends[i]!,
    tolerance: 6e-4,
    compute: () => criticalWind(1, exact(factor))[end],
  }));
});

/** White oak, green: compression and rupture, Pa. */
const OAK = { compression: 24.5e6, rupture: 57.2e6 };
const soundModulus = () => sectionFigures({ outer: { diameter: 0.8 }, cavities: [] }).sectionModulus;
const ringShare = (wall: number) =>
  1 -
  sectionFigures({ outer: { diameter: 0.8 }, cavities: [{ walls: [{ bearing: 0, wall }] }] }).strengthLoss;
/** An ellipse of 10 by 15 m with its centre 12 m up, in 40 m/s at every height, drag 0.25. */
const chainMoment = (drag: number) => basicPressure(40) * drag * (Math.PI / 4) * 10 * 15 * 12;
const chainFactor = () =>
  safetyFactor(exact(OAK.compression), exact(soundModulus()), exact(chainMoment(0.25)));
const chainRange = () =>
  safetyFactor(
    interval(0.7 * OAK.compression, 1.3 * OAK.compression),
    exact(soundModulus()),
    multiply(GUST_EFFECT, interval(chainMoment(0.15), chainMoment(0.3))),
  );

const stemWindChecks: readonly PublishedCheck[] = [
  {
    name: 'section modulus of a sound stem of 0.80 m',
    source: 'Closed form: πD³/32',
    expected: 0.05027,
    tolerance: 5e-6,
    unit: 'm³',
    compute: soundModulus,
  },
  {
    name: 'moment at first crushing, sound white oak of 0.80 m',
    source: OWN,
    expected: 1232,
    tolerance: 0.6,
    unit: 'kN m',
    compute: () => (OAK.compression * soundModulus()) / 1e3,
  },
  {
    name: 'moment at rupture of clear wood, the same',
    source: OWN,
    expected: 2875,
    tolerance: 1,
    unit: 'kN m',
    compute: () => (OAK.rupture * soundModulus()) / 1e3,
  },
  ...(
    [
      [0.08, 0.59],
      [0.12, 0.76],
    ] as const
  ).map(([wall, expected]) => ({
    name: `section modulus left by a ring of ${wall} m in 0.80 m`,
    source: OWN,
    expected,
    tolerance: 6e-4,
    compute: () => ringShare(wall),
  })),
  {
    name: 'moment on an ellipse of 10 by 15 m, 12 m up, in 40 m/s',
    source: OWN,
    expected: 346,
    tolerance: 0.8,
    unit: 'kN m',
    compute: () => chainMoment(0.25) / 1e3,
  },
  {
    name: 'factor of the oak under this crown',
    source: OWN,
    expected: 3.56,
    tolerance: 0.006,
    compute: () => chainFactor().low,
  },
  {
    name: 'critical wind of the oak under this crown, square law',
    source: OWN,
    expected: 75.4,
    tolerance: 0.1,
    unit: 'm/s',
    compute: () => criticalWind(40, chainFactor()).low,
  },
  {
    name: 'factor of the oak, low end over strength, drag and gusts',
    source: OWN,
    expected: 1.81,
    tolerance: 0.01,
    compute: () => chainRange().low,
  },
  {
    name: 'factor of the oak, high end over strength, drag and gusts',
    source: OWN,
    expected: 9.04,
    tolerance: 0.04,
    compute: () => chainRange().high,
  },
  {
    name: 'critical wind of the oak, low end',
    source: OWN,
    expected: 53.9,
    tolerance: 0.2,
    unit: 'm/s',
    compute: () => criticalWind(40, chainRange()).low,
  },
  {
    name: 'critical wind of the oak, high end by the square law',
    source: OWN,
    expected: 120.2,
    tolerance: 0.4,
    unit: 'm/s',
    compute: () => criticalWind(40, exact(chainRange().high)).low,
  },
];

export const windChecks: readonly PublishedCheck[] = [
  ...cutChecks,
  centroidCheck,
  ...criticalChecks,
  ...stemWindChecks,
];
