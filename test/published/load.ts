/** Published values of wind, logs and stems: tables, worked figures and closed forms. */

import { exact } from '../../server/base/interval.ts';
import { BLACK_CHERRIES } from '../../server/mechanics/black-cherry.ts';
import type { Crown } from '../../server/mechanics/crown.ts';
import { momentRatio, reducedCrown } from '../../server/mechanics/reduction.ts';
import { equivalentDiameter, rootProtectionRadius, slenderness } from '../../server/mechanics/stem.ts';
import {
  boardFeet,
  formFactor,
  huberVolume,
  type LogRule,
  newtonVolume,
  smalianVolume,
} from '../../server/mechanics/timber.ts';
import {
  type Exposure,
  pressureCoefficient,
  velocityPressure,
  type WindEdition,
  type WindSite,
  windMoment,
} from '../../server/mechanics/wind.ts';
import type { PublishedCheck } from './published-check.ts';

const METRES_PER_INCH = 0.0254;
const METRES_PER_FOOT = 0.3048;
const CUBIC_METRES_PER_CUBIC_FOOT = METRES_PER_FOOT ** 3;
const METRES_PER_SECOND_PER_MILE_PER_HOUR = 0.44704;
const PASCALS_PER_POUND_PER_SQUARE_FOOT = 47.880259;

const HEIGHTS = [15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 100] as const;
/** Kz as printed to two places (ASCE 7-10 table 27.3-1, from memory), and of 7-22 by its formula. */
const PRINTED: Readonly<Record<'ASCE 7-10' | 'ASCE 7-22', Readonly<Record<Exposure, readonly number[]>>>> = {
  'ASCE 7-10': {
    B: [0.57, 0.62, 0.66, 0.7, 0.76, 0.81, 0.85, 0.89, 0.93, 0.96, 0.99],
    C: [0.85, 0.9, 0.94, 0.98, 1.04, 1.09, 1.13, 1.17, 1.21, 1.24, 1.26],
    D: [1.03, 1.08, 1.12, 1.16, 1.22, 1.27, 1.31, 1.34, 1.38, 1.4, 1.43],
  },
  'ASCE 7-22': {
    B: [0.57, 0.62, 0.66, 0.69, 0.74, 0.79, 0.83, 0.86, 0.9, 0.92, 0.95],
    C: [0.85, 0.9, 0.94, 0.98, 1.04, 1.09, 1.13, 1.17, 1.2, 1.23, 1.25],
    D: [1.04, 1.09, 1.13, 1.17, 1.23, 1.28, 1.32, 1.35, 1.38, 1.41, 1.44],
  },
};

const coefficientChecks: readonly PublishedCheck[] = (['ASCE 7-10', 'ASCE 7-22'] as const).flatMap(edition =>
  (['B', 'C', 'D'] as const).flatMap(exposure =>
    HEIGHTS.map((feet, i) => ({
      name: `Kz, ${edition}, exposure ${exposure}, ${feet} ft`,
      source: edition === 'ASCE 7-10' ? 'ASCE 7-10 table 27.3-1, from memory' : 'ASCE 7-22, its formula',
      expected: PRINTED[edition][exposure][i]!,
      // Two printed places, and some rows cut rather than rounded.
      tolerance: 0.0101,
      compute: () => pressureCoefficient(feet * METRES_PER_FOOT, { exposure, edition }),
    })),
  ),
);

const site = (exposure: Exposure, edition: WindEdition = 'ASCE 7-16'): WindSite => ({ exposure, edition });
/** Pressure at Kz = 1, Pa. */
const basicPressure = (speed: number) =>
  velocityPressure(10, speed, site('C')) / pressureCoefficient(10, site('C'));
const inPsf = (pascals: number) => pascals / PASCALS_PER_POUND_PER_SQUARE_FOOT;
const mph = (speed: number) => speed * METRES_PER_SECOND_PER_MILE_PER_HOUR;
/** Directionality factor of the worked value; a comparison of crowns has no use for one. */
const KD = 0.85;

const pressureChecks: readonly PublishedCheck[] = [
  {
    name: 'pressure at Kz 1, 90 mph',
    source: 'ASCE 7-10 equation 27.3-1, 0.00256 V²',
    expected: 20.736,
    tolerance: 0.03,
    unit: 'psf',
    compute: () => inPsf(basicPressure(mph(90))),
  },
  {
    name: 'pressure at 30 ft, exposure C, 115 mph, Kd 0.85',
    source: 'ASCE 7-10 equation 27.3-1',
    expected: 28.2,
    tolerance: 0.1,
    unit: 'psf',
    compute: () => inPsf(velocityPressure(30 * METRES_PER_FOOT, mph(115), site('C', 'ASCE 7-10'))) * KD,
  },
  {
    name: 'pressure at Kz 0.90, 100 mph, Kd 0.85',
    source: 'ASCE 7-10 equation 27.3-1, worked value in a public code',
    expected: 19.58,
    tolerance: 0.03,
    unit: 'psf',
    compute: () => inPsf(basicPressure(mph(100))) * 0.9 * KD,
  },
  {
    name: 'pressure at Kz 1, 40 m/s',
    source: 'ASCE 7-10 equation 27.3-1.SI, 0.613 V²',
    expected: 980.8,
    tolerance: 0.8,
    unit: 'Pa',
    compute: () => basicPressure(40),
  },
];

const BEAM = 'Closed form: area times arm';
/** All of it below 15 ft, where the pressure is constant. */
const LOW: Crown = { base: 1, top: 4.5, spread: 3 };
const area = (Math.PI / 4) * 3.5 * 3;
/** Moment in units of q · Cd. */
const momentOf = (crown: Crown, height: number) =>
  windMoment([crown], height, 30, site('B')) / (velocityPressure(0, 30, site('B')) * 0.25);

const momentChecks: readonly PublishedCheck[] = [
  {
    name: 'drag on 50 m² at Kz 1, 25 m/s, 0.25',
    source: '½ ρ Cd A V²',
    expected: 4785.2,
    tolerance: 0.1,
    unit: 'N',
    compute: () => basicPressure(25) * 0.25 * 50,
  },
  {
    name: 'drag on 50 m² at Kz 1, 40 m/s, 0.25',
    source: '½ ρ Cd A V²',
    expected: 12250,
    tolerance: 0.1,
    unit: 'N',
    compute: () => basicPressure(40) * 0.25 * 50,
  },
  {
    name: 'ellipse of 3.5 m by 3 m, 2.75 m up',
    source: BEAM,
    expected: area * 2.75,
    tolerance: 1e-5,
    unit: 'm³',
    compute: () => momentOf(LOW, 0),
  },
  {
    name: 'upper half of the ellipse about its widest level',
    source: 'Closed form: centroid of a half ellipse at 4b/(3π)',
    expected: (area / 2) * ((4 * 1.75) / (3 * Math.PI)),
    tolerance: 1e-5,
    unit: 'm³',
    compute: () => momentOf(LOW, 2.75),
  },
  {
    name: 'half ellipse widest at its base',
    source: 'Closed form: centroid of a half ellipse at 4b/(3π)',
    expected: area * (1 + (4 * 3.5) / (3 * Math.PI)),
    tolerance: 1e-4,
    unit: 'm³',
    compute: () => momentOf({ ...LOW, widest: 1 }, 0),
  },
  {
    name: 'moment ratio, a crown of 3.5 m by 3 m drawn in to 2 m',
    source: BEAM,
    expected: 2 / 3,
    tolerance: 1e-9,
    compute: () => momentRatio([LOW], [reducedCrown(LOW, { spread: 2 })], 0, site('B')),
  },
];

const SCALING = 'Log scaling tables';
/** Rule, tolerance, source, then small end in inches, length in feet, board feet. */
const PRINTED_LOGS: readonly (readonly [
  rule: LogRule,
  tolerance: number,
  source: string,
  logs: readonly (readonly [inches: number, feet: number, boardFeet: number])[],
])[] = [
  [
    'Doyle',
    0.51,
    SCALING,
    [
      [4, 16, 0],
      [8, 16, 16],
      [10, 8, 18],
      [12, 16, 64],
      [14, 10, 63],
      [20, 16, 256],
      [24, 16, 400],
      [30, 16, 676],
      [36, 16, 1024],
    ],
  ],
  [
    'International 1/4-inch',
    2.51,
    `${SCALING}, to the nearest 5, from memory`,
    [
      [8, 16, 40],
      [10, 16, 65],
      [12, 16, 95],
      [16, 16, 180],
      [20, 16, 290],
      [24, 16, 425],
      [30, 16, 675],
      [36, 16, 980],
      [12, 8, 45],
      [20, 8, 135],
    ],
  ],
  [
    'Scribner',
    0.51,
    'The formula fitted to the table: (0.79 D² − 2 D − 4) L / 16',
    [
      [12, 16, 86],
      [16, 16, 166],
      [20, 16, 272],
      [24, 16, 403],
      [30, 16, 647],
    ],
  ],
];

const logChecks: readonly PublishedCheck[] = PRINTED_LOGS.flatMap(([rule, tolerance, source, logs]) =>
  logs.map(([inches, feet, expected]) => ({
    name: `${rule}, ${inches} in by ${feet} ft`,
    source,
    expected,
    tolerance,
    unit: 'board feet',
    compute: () => boardFeet(rule, { smallEnd: inches * METRES_PER_INCH, length: feet * METRES_PER_FOOT }),
  })),
);

/** 20, 18 and 16 in, 16 ft. */
const LOG = {
  length: 16 * METRES_PER_FOOT,
  smallEnd: 16 * METRES_PER_INCH,
  middle: 18 * METRES_PER_INCH,
  largeEnd: 20 * METRES_PER_INCH,
};
const volumeChecks: readonly PublishedCheck[] = (
  [
    ['Smalian', smalianVolume, 28.6234],
    ['Huber', huberVolume, 28.2743],
    ['Newton', newtonVolume, 28.3907],
  ] as const
).map(([name, figure, expected]) => ({
  name: `${name}, 20, 18 and 16 in by 16 ft`,
  source: 'Formulas of forest mensuration with 0.005454154 D²',
  expected,
  tolerance: 1e-3,
  unit: 'ft³',
  compute: () => figure(LOG) / CUBIC_METRES_PER_CUBIC_FOOT,
}));

const CHERRIES = 'trees, R datasets (Ryan, Joiner and Ryan 1976)';
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
const cherrySlenderness = () =>
  BLACK_CHERRIES.map(({ diameter, height }) => slenderness(exact(height), exact(diameter)).low);

const cherryChecks: readonly PublishedCheck[] = [
  {
    name: '31 black cherries, sum of diameters',
    source: CHERRIES,
    expected: 410.7,
    tolerance: 1e-6,
    unit: 'in',
    compute: () => sum(BLACK_CHERRIES.map(tree => tree.diameter)) / METRES_PER_INCH,
  },
  {
    name: '31 black cherries, sum of heights',
    source: CHERRIES,
    expected: 2356,
    tolerance: 1e-6,
    unit: 'ft',
    compute: () => sum(BLACK_CHERRIES.map(tree => tree.height)) / METRES_PER_FOOT,
  },
  {
    name: '31 black cherries, sum of volumes',
    source: CHERRIES,
    expected: 935.3,
    tolerance: 1e-6,
    unit: 'ft³',
    compute: () => sum(BLACK_CHERRIES.map(tree => tree.volume)) / CUBIC_METRES_PER_CUBIC_FOOT,
  },
  {
    name: '31 black cherries, mean form factor',
    source: CHERRIES,
    expected: 0.384895,
    tolerance: 1e-6,
    compute: () => sum(BLACK_CHERRIES.map(formFactor)) / BLACK_CHERRIES.length,
  },
  {
    name: '31 black cherries, mean slenderness',
    source: CHERRIES,
    expected: 71.83,
    tolerance: 0.005,
    compute: () => sum(cherrySlenderness()) / BLACK_CHERRIES.length,
  },
  {
    name: '31 black cherries, least slenderness',
    source: CHERRIES,
    expected: 50.68,
    tolerance: 0.005,
    compute: () => Math.min(...cherrySlenderness()),
  },
  {
    name: '31 black cherries, greatest slenderness',
    source: CHERRIES,
    expected: 101.2,
    tolerance: 0.005,
    compute: () => Math.max(...cherrySlenderness()),
  },
];

const BS_5837 = 'BS 5837:2012, 4.6.1';
const THREE_STEMS = [0.18, 0.16, 0.14].map(exact);
const stemChecks: readonly PublishedCheck[] = [
  {
    name: 'stems of 180, 160 and 140 mm together',
    source: BS_5837,
    expected: 0.27857,
    tolerance: 5e-6,
    unit: 'm',
    compute: () => equivalentDiameter(THREE_STEMS).low,
  },
  {
    name: 'root protection radius of stems of 180, 160 and 140 mm',
    source: BS_5837,
    expected: 3.343,
    tolerance: 5e-4,
    unit: 'm',
    compute: () => rootProtectionRadius(THREE_STEMS).low,
  },
  {
    name: 'greatest root protection area',
    source: BS_5837,
    expected: 707,
    tolerance: 0.5,
    unit: 'm²',
    compute: () => Math.PI * rootProtectionRadius([exact(2)]).low ** 2,
  },
  {
    name: 'root protection radius at 1.25 m diameter',
    source: BS_5837,
    expected: 15,
    tolerance: 1e-9,
    unit: 'm',
    compute: () => rootProtectionRadius([exact(1.25)]).low,
  },
  {
    name: 'slenderness, 30 m and 0.6 m',
    source: 'Height over diameter in one unit',
    expected: 50,
    tolerance: 1e-9,
    compute: () => slenderness(exact(30), exact(0.6)).low,
  },
];

export const loadChecks: readonly PublishedCheck[] = [
  ...coefficientChecks,
  ...pressureChecks,
  ...momentChecks,
  ...logChecks,
  ...volumeChecks,
  ...cherryChecks,
  ...stemChecks,
];
