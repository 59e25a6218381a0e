/**
 * Published values of stem sections: closed forms of the mechanics of beams, and worked figures of the papers
 * behind the rules of thumb.
 */

import { exact } from '../../server/base/interval.ts';
import { figuresWithPeakLoss, sectionFigures } from '../../server/mechanics/section.ts';
import type { CrossSection, WallReading } from '../../server/mechanics/section-types.ts';
import { barkThickness } from '../../server/mechanics/stem.ts';
import { cubicLoss, openHollowLoss, quarticLoss, rulesOfThumb } from '../../server/mechanics/thumb.ts';
import type { PublishedCheck } from './published-check.ts';

const BEAM = 'Closed form, mechanics of beams';
const radians = (degrees: number) => (degrees * Math.PI) / 180;

/** Walls read at every degree, for a void whose edge is known at each. */
const everyDegree = (wall: (bearing: number) => number): readonly WallReading[] =>
  Array.from({ length: 360 }, (_, bearing) => ({ bearing, wall: wall(radians(bearing)) }));

/** A circular hole of radius r whose centre lies e from the pith towards north. */
const eccentricHole = (R: number, r: number, e: number): CrossSection => ({
  outer: { diameter: 2 * R },
  cavities: [
    {
      walls: everyDegree(
        bearing => R - e * Math.cos(bearing) - Math.sqrt(r * r - (e * Math.sin(bearing)) ** 2),
      ),
    },
  ],
});

/** R 1 m, hollow of 0.6 m, open to the north over the full angle. */
const openRing = (degrees: number): CrossSection => ({
  outer: { diameter: 2 },
  cavities: [{ bearing: 0, walls: [{ bearing: 0, wall: 0.4 }], opening: 2 * Math.sin(radians(degrees / 2)) }],
});

/** Semi-axes 0.4 m north and 0.6 m east, the hollow half as large. */
const hollowEllipse: CrossSection = {
  outer: { diameter: 0.8, crossDiameter: 1.2 },
  cavities: [
    {
      walls: everyDegree(
        bearing => (0.5 * 0.24) / Math.hypot(0.6 * Math.cos(bearing), 0.4 * Math.sin(bearing)),
      ),
    },
  ],
};

const lossTowards = (section: CrossSection, bearing: number) =>
  100 * sectionFigures(section).lossByBearing[bearing]!;

const solids: readonly PublishedCheck[] = [
  {
    name: 'section modulus of a sound stem of 0.5 m',
    source: `${BEAM}: πD³/32`,
    expected: 0.0122718,
    tolerance: 1e-6,
    unit: 'm³',
    compute: () => sectionFigures({ outer: { diameter: 0.5 }, cavities: [] }).sectionModulus,
  },
  {
    name: 'section modulus of a hollow ellipse, the weak way',
    source: `${BEAM}: π/4 (ab³ − a′b′³) / b`,
    expected: 0.0706858,
    tolerance: 1e-5,
    unit: 'm³',
    compute: () => sectionFigures(hollowEllipse).sectionModulus,
  },
  ...[0, 90].map(bearing => ({
    name: `loss of a hollow ellipse of half the size, bearing ${bearing}°`,
    source: `${BEAM}: 1/16`,
    expected: 6.25,
    tolerance: 0.01,
    unit: '%',
    compute: () => lossTowards(hollowEllipse, bearing),
  })),
];

const concentric: readonly PublishedCheck[] = [0.3, 0.5, 0.6, 0.7, 0.8, 0.9].map(ratio => ({
  name: `concentric hollow, d/D ${ratio.toFixed(2)}`,
  source: `${BEAM}: (d/D)⁴`,
  expected: 100 * ratio ** 4,
  tolerance: 0.01,
  unit: '%',
  compute: () =>
    100 *
    sectionFigures({
      outer: { diameter: 1 },
      cavities: [{ walls: [{ bearing: 0, wall: (1 - ratio) / 2 }] }],
    }).strengthLoss,
}));

/** Radius of the hole, its offset, loss in percent; R is 0.5 m. */
const eccentric: readonly PublishedCheck[] = (
  [
    [0.3, 0, 12.96],
    [0.3, 0.1, 29.85],
    [0.3, 0.15, 42.85],
    [0.35, 0.1, 49.15],
  ] as const
).map(([r, e, expected]) => ({
  name: `hole of radius ${r} m, ${e} m off the pith, in a stem of 1 m`,
  source: `${BEAM}: parallel axes`,
  expected,
  tolerance: 0.05,
  unit: '%',
  compute: () => lossTowards(eccentricHole(0.5, r, e), 0),
}));

/** A probe of 0.6 m in a stem of 1 m: a hole of radius 0.3 m, 0.2 m off the pith. */
const touching: PublishedCheck = {
  name: 'hole of a probe’s depth 0.6 m that touches the surface of a stem of 1 m',
  source: `${BEAM}: parallel axes`,
  // A π(R² − r²), y −r²e/(R² − r²), I π/4 (R⁴ − r⁴) − πr²e²R²/(R² − r²), Z I/(R + |y|).
  expected: 58.33,
  tolerance: 0.01,
  unit: '%',
  compute: () => lossTowards({ outer: { diameter: 1 }, cavities: [{ bearing: 0, depth: 0.6 }] }, 0),
};

/** Full angle of the opening, loss in percent along the opening and across it. */
const open: readonly PublishedCheck[] = (
  [
    [0, 12.96, 12.96],
    [30, 31.11, 13.29],
    [60, 45.85, 15.47],
    [120, 68.28, 29.98],
  ] as const
).flatMap(([angle, along, across]) =>
  [along, across].map((expected, i) => ({
    name: `ring with an opening of ${angle}°, bent ${i === 0 ? 'along' : 'across'} it`,
    source: `${BEAM}: ring less sector`,
    expected,
    tolerance: 0.05,
    unit: '%',
    compute: () => lossTowards(openRing(angle), i * 90),
  })),
);

const INCH = 0.0254;
const JUDGED = 'Computed apart from the program, from the outline of each void';

/** Mouth 20 in wide and a probe of 8 in, in a stem of 30 in under the bark; its loss over every direction. */
const behindMouth = (smallest: boolean): number =>
  100 *
  figuresWithPeakLoss({
    outer: { diameter: 30 * INCH },
    cavities: [{ bearing: 0, depth: 8 * INCH, opening: 20 * INCH, smallest }],
  }).loss;

const behindMouths: readonly PublishedCheck[] = (
  [
    ['smallest void', true, 34.42],
    ['trough', false, 47.55],
  ] as const
).map(([name, smallest, expected]) => ({
  name: `${name} behind a mouth of 20 in and a probe of 8 in, in a stem of 30 in`,
  source: JUDGED,
  expected,
  tolerance: 0.05,
  unit: '%',
  compute: () => behindMouth(smallest),
}));

const rings: readonly PublishedCheck[] = [
  {
    name: 'section modulus of a sound stem of 0.8 m',
    source: `${BEAM}: πD³/32`,
    expected: 0.05027,
    tolerance: 1e-5,
    unit: 'm³',
    compute: () => sectionFigures({ outer: { diameter: 0.8 }, cavities: [] }).sectionModulus,
  },
  ...(
    [
      [0.08, 59],
      [0.12, 76],
    ] as const
  ).map(([allRound, expected]) => ({
    name: `what a wall of ${allRound} m leaves of it`,
    source: `${BEAM}: 1 − (d/D)⁴`,
    expected,
    tolerance: 0.05,
    unit: '%',
    compute: () =>
      100 * (1 - sectionFigures({ outer: { diameter: 0.8 }, cavities: [{ allRound }] }).strengthLoss),
  })),
  {
    name: 'wall of 9 in, straight to 2 in opposite, in a stem of 40 in',
    source: JUDGED,
    expected: 46.4,
    tolerance: 0.1,
    unit: '%',
    compute: () =>
      100 *
      figuresWithPeakLoss({
        outer: { diameter: 40 * INCH },
        cavities: [
          {
            walls: [
              { bearing: 180, wall: 9 * INCH },
              { bearing: 0, wall: 2 * INCH },
            ],
          },
        ],
      }).loss,
  },
  {
    name: 'bark of 16 % of the volume of the wood, on a stem of 0.6 m',
    source: 'Closed form: D/2 · (1 − 1/√1.16)',
    expected: 0.02146,
    tolerance: 1e-5,
    unit: 'm',
    compute: () => barkThickness(exact(0.6), 0.16).high,
  },
];

const KANE = 'Kane, Ryan and Bloniarz 2001';

/** d/D of two sawn sections as their printed cubes and fourth powers give it, in whole percent. */
const sections: readonly PublishedCheck[] = [
  { name: 'section A, d³/D³', expected: 22, compute: () => 100 * cubicLoss(0.6) },
  { name: 'section A, d⁴/D⁴', expected: 13, compute: () => 100 * quarticLoss(0.6) },
  { name: 'section A, with no opening', expected: 22, compute: () => 100 * openHollowLoss(0.6, 0) },
  { name: 'section B, d³/D³', expected: 9, compute: () => 100 * cubicLoss(0.448) },
  { name: 'section B, d⁴/D⁴', expected: 4, compute: () => 100 * quarticLoss(0.448) },
  { name: 'section B, opening of 5.5 %', expected: 14, compute: () => 100 * openHollowLoss(0.448, 0.055) },
].map(check => ({ ...check, source: KANE, tolerance: 0.5, unit: '%' }));

const thumbs: readonly PublishedCheck[] = [
  {
    name: 'd/D 0.70 by the cube',
    source: 'Wagener 1963',
    expected: 34.3,
    tolerance: 0.001,
    unit: '%',
    compute: () => 100 * cubicLoss(0.7),
  },
  {
    name: 'd/D 0.70 by the fourth power',
    source: 'Coder 1989',
    expected: 24.01,
    tolerance: 0.001,
    unit: '%',
    compute: () => 100 * quarticLoss(0.7),
  },
  {
    name: 'D 30, d 20, opening 10 % of the circumference',
    source: 'Smiley and Fraedrich 1992',
    expected: 36.667,
    tolerance: 0.001,
    unit: '%',
    compute: () => 100 * openHollowLoss(20 / 30, 0.1),
  },
  {
    name: 't/R of d/D 0.70',
    source: 'Mattheck and Breloer 1994',
    expected: 0.3,
    tolerance: 1e-9,
    compute: () => {
      const ratio = rulesOfThumb({ diameter: exact(1) }, { allRound: exact(0.15) }).wallRatio;
      return ratio.applies ? ratio.value.low : Number.NaN;
    },
  },
];

export const sectionChecks: readonly PublishedCheck[] = [
  ...solids,
  ...concentric,
  ...eccentric,
  touching,
  ...behindMouths,
  ...rings,
  ...open,
  ...sections,
  ...thumbs,
];
