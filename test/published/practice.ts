/** Published values of practice: risk matrices, approach distances, wood, log rules, seasons and limits. */

import { MILLISECONDS_PER_DAY } from '../../server/base/dates.ts';
import { inWindow } from '../../server/base/yearly-window.ts';
import { type Confidence, cite, type SourceId } from '../../server/practice/citation.ts';
import { type BotanicalName, greenDensity } from '../../server/practice/density.ts';
import { approachDistance } from '../../server/practice/electricity.ts';
import type { Steps } from '../../server/practice/law/law-row.ts';
import { limit } from '../../server/practice/limits.ts';
import { type LogRuleValue, logRuleValue } from '../../server/practice/logs.ts';
import { regionPack } from '../../server/practice/regions.ts';
import {
  CONSEQUENCES,
  LIKELIHOODS,
  LIKELIHOODS_OF_FAILURE,
  LIKELIHOODS_OF_IMPACT,
  likelihood,
  riskMatrix,
  riskRating,
  riskSource,
} from '../../server/practice/risk.ts';
import { lookupGenus } from '../../server/practice/species.ts';
import { compressionByGravity, type WoodProperties, woodTable } from '../../server/practice/wood.ts';
import type { PublishedCheck } from './published-check.ts';

const shortly = (id: SourceId, confidence: Confidence = cite(id).confidence): string =>
  `${cite(id).short}${confidence === 'from memory' ? ', from memory' : ''}`;

const METRES_PER_INCH = 0.0254;

/** The matrices as printed, rows top to bottom, first letters of the words. */
const printedLikelihoods = {
  imminent: 'USLV',
  probable: 'UUSL',
  possible: 'UUUS',
  improbable: 'UUUU',
} as const;
const printedRatings = {
  'very likely': 'LMHE',
  likely: 'LMHH',
  'somewhat likely': 'LLMM',
  unlikely: 'LLLL',
} as const;
const likelihoodOfLetter = { U: 'unlikely', S: 'somewhat likely', L: 'likely', V: 'very likely' } as const;
const ratingOfLetter = { L: 'low', M: 'moderate', H: 'high', E: 'extreme' } as const;

const likelihoodChecks: readonly PublishedCheck[] = LIKELIHOODS_OF_FAILURE.flatMap(failure =>
  LIKELIHOODS_OF_IMPACT.map((impact, column) => ({
    name: `failure ${failure}, impact ${impact}`,
    source: shortly('bmp-risk-2017', riskSource.likelihood),
    expected: likelihoodOfLetter[printedLikelihoods[failure][column] as keyof typeof likelihoodOfLetter],
    compute: () => likelihood(failure, impact),
  })),
);

const ratingChecks: readonly PublishedCheck[] = LIKELIHOODS.flatMap(both =>
  CONSEQUENCES.map((consequences, column) => ({
    name: `${both}, consequences ${consequences}`,
    source: shortly('bmp-risk-2017', riskSource.risk),
    expected: ratingOfLetter[printedRatings[both][column] as keyof typeof ratingOfLetter],
    compute: () => riskMatrix[both][consequences],
  })),
);

const workedRatings: readonly PublishedCheck[] = [
  {
    name: 'probable, high, severe',
    expected: 'high',
    compute: () => riskRating('probable', 'high', 'severe'),
  },
  {
    name: 'imminent, high, severe',
    expected: 'extreme',
    compute: () => riskRating('imminent', 'high', 'severe'),
  },
  {
    name: 'possible, high, significant',
    expected: 'moderate',
    compute: () => riskRating('possible', 'high', 'significant'),
  },
].map(check => ({ ...check, source: shortly('bmp-risk-2017', riskSource.risk) }));

/** kV, then inches by the stepwise reading of the law. */
const stepwise = [
  [0.12, 120],
  [12.47, 120],
  [50, 120],
  [60, 124],
  [69, 128],
  [72.5, 132],
  [115, 148],
  [145, 160],
  [230, 192],
  [242, 200],
  [345, 240],
  [362, 248],
  [550, 320],
  [800, 420],
] as const;

const unqualified = regionPack('US').pack.approach.value;

const approachChecks: readonly PublishedCheck[] = stepwise.map(([kilovolts, inches]) => ({
  name: `unqualified person, ${kilovolts} kV`,
  source: shortly('osha-333'),
  expected: inches * METRES_PER_INCH,
  tolerance: 1e-9,
  unit: 'm',
  compute: () => approachDistance(kilovolts * 1000, unqualified),
}));

/** The upper end of each voltage range, feet and inches as printed: the law's formula, to the nearest inch. */
const printedForArborists = [
  [50, 10, 0],
  [72.5, 10, 9],
  [121, 12, 4],
  [145, 13, 2],
  [169, 14, 0],
  [242, 16, 5],
  [362, 20, 5],
  [550, 26, 8],
  [800, 35, 0],
] as const;

const [[baseVoltage, baseDistance]] = unqualified.steps as readonly [Steps[number]];
const step = unqualified.beyond!;
/** Without rounding up to whole steps of 10 kV. */
const proportionalDistance = (volts: number): number =>
  baseDistance + (step.distance * Math.max(0, volts - baseVoltage)) / step.volts;

const proportionChecks: readonly PublishedCheck[] = printedForArborists.map(([kilovolts, feet, inches]) => ({
  name: `arborist not qualified for line clearance, ${kilovolts} kV`,
  source: shortly('z133'),
  expected: (feet * 12 + inches) * METRES_PER_INCH,
  tolerance: 0.5 * METRES_PER_INCH,
  unit: 'm',
  compute: () => proportionalDistance(kilovolts * 1000),
}));

/** Common name, then rupture in MPa, elasticity in GPa and compression in MPa as printed in the metric table. */
const printedWood = [
  ['Pine, pond', 51, 8.8, 25.2],
  ['Pine, ponderosa', 35, 6.9, 16.9],
  ['Pine, red', 40, 8.8, 18.8],
  ['Pine, sand', 52, 7.0, 23.7],
  ['Pine, shortleaf', 51, 9.6, 24.3],
  ['Pine, slash', 60, 10.5, 26.3],
  ['Pine, spruce', 41, 6.9, 19.6],
  ['Pine, sugar', 34, 7.1, 17.0],
  ['Pine, Virginia', 50, 8.4, 23.6],
  ['Pine, western white', 32, 8.2, 16.8],
  ['Redwood, old-growth', 52, 8.1, 29.0],
  ['Redwood, young-growth', 41, 6.6, undefined],
  ['Oak, laurel', 54, 9.6, 21.9],
  ['Oak, bur', 50, 6.1, 22.7],
] as const;

const woodChecks: readonly PublishedCheck[] = printedWood.flatMap(
  ([common, rupture, elasticity, compression]) => {
    const row = (): WoodProperties | undefined => woodTable.find(wood => wood.common === common);
    const check = (
      what: string,
      unit: string,
      expected: number,
      tolerance: number,
      compute: PublishedCheck['compute'],
    ): PublishedCheck => ({
      name: `${common}, ${what}`,
      source: shortly('wood-handbook'),
      expected,
      tolerance,
      unit,
      compute,
    });
    const inMega = (value: number | undefined) => (value === undefined ? undefined : value / 1e6);
    return [
      check('modulus of rupture', 'MPa', rupture, 0.51, () => inMega(row()?.modulusOfRupture)),
      check('modulus of elasticity', 'MPa', elasticity * 1000, 60, () => inMega(row()?.modulusOfElasticity)),
      ...(compression === undefined
        ? []
        : [check('compression', 'MPa', compression, 0.06, () => inMega(row()?.compressionStrength))]),
    ];
  },
);

/** Green wood, and wood with bark, kg/m³, as the table's copy gives them. */
const printedDensities = [
  ['Liriodendron tulipifera', 780, 791],
  ['Nyssa sylvatica', 925, 904],
  ['Quercus alba', 1010, 1016],
  ['Acer saccharum', 881, 901],
] as const;

const named = (botanical: string): BotanicalName => ({
  genus: botanical.split(' ')[0]!,
  binomial: botanical,
});

const densityChecks: readonly PublishedCheck[] = printedDensities.flatMap(([botanical, wood, withBark]) => {
  const check = (what: string, expected: number, compute: () => number | undefined): PublishedCheck => ({
    name: `${botanical}, ${what}`,
    source: shortly('miles-smith-2009'),
    expected,
    tolerance: 0.5,
    unit: 'kg/m³',
    compute,
  });
  return [
    check('green wood', wood, () => greenDensity(named(botanical))?.wood),
    check('green wood with bark', withBark, () => greenDensity(named(botanical))?.density),
  ];
});

/** Largest and least of the table, and the mean, computed here: what makes factors by rupture too high. */
const ruptureOverCompression = (): readonly number[] =>
  woodTable.map(row => row.modulusOfRupture / row.compressionStrength);
const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

const strengthChecks: readonly PublishedCheck[] = (
  [
    ['mean', 2.22, meanOf],
    ['least', 1.79, (values: readonly number[]) => Math.min(...values)],
    ['greatest', 2.71, (values: readonly number[]) => Math.max(...values)],
  ] as const
).map(([what, expected, of]) => ({
  name: `modulus of rupture over compression, ${what} of ${woodTable.length} woods (computed from the table)`,
  source: shortly('wood-handbook'),
  expected,
  tolerance: 0.006,
  compute: () => of(ruptureOverCompression()),
}));

/** Spread of the logarithms of what the functions of density give over the rows of the table, computed apart. */
const functionChecks: readonly PublishedCheck[] = (
  [
    ['broadleaved', 0.13],
    ['needleleaved', 0.1],
  ] as const
).map(([leaf, expected]) => ({
  name: `compression by specific gravity over the rows of the table, ${leaf}: spread of the logarithm`,
  source: shortly('wood-handbook'),
  expected,
  tolerance: 0.006,
  compute: () => {
    const rows = woodTable.filter(({ botanical }) => lookupGenus(botanical.split(' ')[0]!)?.leaf === leaf);
    const errors = rows.map(row =>
      Math.log(compressionByGravity(row.specificGravity, leaf) / row.compressionStrength),
    );
    return Math.sqrt(meanOf(errors.map(error => (error - meanOf(errors)) ** 2)));
  },
}));

/** Decimal C is the Scribner table in tens, to the nearest: the two must agree. */
const decimalChecks: readonly PublishedCheck[] = [12, 16, 20, 24, 30].map(diameter => {
  const value = (rule: LogRuleValue['rule']) => logRuleValue(rule, diameter, 16)?.value ?? Number.NaN;
  return {
    name: `Scribner in tens, ${diameter} in by 16 ft`,
    source: shortly('log-scaling-handbook'),
    expected: value('Scribner Decimal C'),
    unit: 'tens of board feet',
    compute: () => Math.round(value('Scribner') / 10),
  };
});

const oaksClosed = (region: string, month: number, day: number): string =>
  regionPack(region).pack.pruning.some(
    ({ genera, window }) =>
      genera.includes('Quercus') && inWindow(Date.UTC(2026, month - 1, day) / MILLISECONDS_PER_DAY, window),
  )
    ? 'closed'
    : 'open';

const oakWiltChecks: readonly PublishedCheck[] = (
  [
    ['US-MN', 'mn-dnr-oak-wilt', 4, 1, 'closed'],
    ['US-MN', 'mn-dnr-oak-wilt', 11, 1, 'open'],
    ['US-WI', 'wi-dnr-oak-wilt', 7, 31, 'closed'],
    ['US-MI', 'mi-dnr-oak-wilt', 4, 15, 'closed'],
    ['US-MI', 'mi-dnr-oak-wilt', 7, 15, 'closed'],
    ['US-TX', 'tx-oak-wilt', 2, 1, 'closed'],
    ['US-TX', 'tx-oak-wilt', 7, 1, 'open'],
    ['US-NY', 'ny-dec-oak-wilt', 10, 1, 'open'],
    ['US-MO', 'mo-oak-wilt', 3, 15, 'closed'],
  ] as const
).map(([region, source, month, day, expected]) => ({
  name: `oaks in ${region} on ${month}-${day}`,
  source: shortly(source),
  expected,
  compute: () => oaksClosed(region, month, day),
}));

const limitChecks: readonly PublishedCheck[] = [
  {
    name: 'opening up to which t/R holds',
    source: shortly('mattheck-breloer-1994'),
    expected: 120,
    tolerance: 1e-9,
    unit: 'deg',
    compute: () => limit('opening-share').value * 360,
  },
];

export const practiceChecks: readonly PublishedCheck[] = [
  ...likelihoodChecks,
  ...ratingChecks,
  ...workedRatings,
  ...approachChecks,
  ...proportionChecks,
  ...woodChecks,
  ...densityChecks,
  ...strengthChecks,
  ...functionChecks,
  ...decimalChecks,
  ...oakWiltChecks,
  ...limitChecks,
];
