/** Hills, mean winds and leaning trees: from the text of an inventory, against figures of a standard or computed apart. */

import { leanSafety } from '../../server/assess/lean-safety.ts';
import { designWind, windsOf } from '../../server/assess/site-wind.ts';
import { exact, interval } from '../../server/base/interval.ts';
import { readFile } from '../../server/facts/file.ts';
import { latestState } from '../../server/facts/state.ts';
import { buildWorkspace, settingsFor, siteOf } from '../../server/facts/workspace.ts';
import { peakPressure, turbulenceIntensity } from '../../server/mechanics/gusts.ts';
import { leaningArms, stemMass, weightMoment } from '../../server/mechanics/own-weight.ts';
import { topographicFactor } from '../../server/mechanics/wind.ts';
import type { PublishedCheck } from './published-check.ts';

const OWN = 'Computed apart, by another program';
const METRES_PER_FOOT = 0.3048;
const PATH = 'a.wood';

/** Of the only tree of an inventory. */
function treeOf(text: string) {
  const file = readFile(PATH, text);
  const workspace = buildWorkspace([file]);
  return {
    tree: latestState(file.trees[0]!.fact),
    site: siteOf(workspace, PATH),
    settings: settingsFor(workspace, PATH),
  };
}

const siteText = (...lines: readonly string[]) =>
  `site "Court"\n${lines.map(line => `  ${line}\n`).join('')}\n`;

const HILLS = [
  [
    'wind 92 mph, exposure C',
    'hill escarpment, 50 ft high, half-length 60 ft, 25 ft upwind of crest',
    30 * METRES_PER_FOOT,
    1.3626,
    'ASCE 7, worked example in a building code that copies it',
  ],
  ['wind 41 m/s, exposure C', 'hill ridge, 30 m high, half-length 100 m, at crest', 12, 1.699, OWN],
  ['wind 41 m/s, exposure C', 'hill ridge, 30 m high, half-length 100 m, at crest', 20, 1.534, OWN],
] as const;

const hillChecks: readonly PublishedCheck[] = HILLS.map(([wind, hill, height, expected, source]) => ({
  name: `Kzt at ${height.toFixed(1)} m: ${wind}, ${hill}`,
  source,
  expected,
  tolerance: 6e-4,
  compute: () => {
    const { tree, site, settings } = treeOf(`${siteText(wind, hill)}tree 1\n`);
    const up = windsOf(tree, site, settings)[0]?.hill;
    return up && topographicFactor(height, up);
  },
}));

const gustChecks: readonly PublishedCheck[] = [
  ...(
    [
      [10, 0.05, 0.1887, 2.321],
      [15, 0.3, 0.2556, 2.789],
    ] as const
  ).flatMap(([height, roughness, intensity, factor]) => [
    {
      name: `turbulence intensity at ${height} m, roughness ${roughness} m`,
      source: 'EN 1991-1-4, from memory; computed apart',
      expected: intensity,
      tolerance: 6e-5,
      compute: () => turbulenceIntensity(height, roughness),
    },
    {
      name: `peak over mean pressure at ${height} m, roughness ${roughness} m`,
      source: 'EN 1991-1-4, from memory; computed apart',
      expected: factor,
      tolerance: 6e-4,
      compute: () => peakPressure(height, roughness),
    },
  ]),
  {
    name: 'gust of wind 25 m/s, exposure C, ten-minute mean',
    source: 'EN 1991-1-4, from memory; computed apart',
    expected: 38.0885,
    tolerance: 6e-5,
    unit: 'm/s',
    compute: () => {
      const { tree, site, settings } = treeOf(
        `${siteText('wind 25 m/s, exposure C, ten-minute mean')}tree 1\n`,
      );
      return designWind(tree, site, settings)!.gust.low;
    },
  },
];

/** A stem of 1.016 m and 18.29 m, 1010 kg/m³; its crown 11 m up. */
const stem = () => stemMass(exact(1.016), exact(18.29), exact(1010));
const momentOf = (lean: number, isCrowned: boolean) => {
  const { low, high } = stem();
  return weightMoment({
    stem: stem(),
    crown: isCrowned ? interval(0.2 * low, 0.5 * high) : exact(0),
    ...leaningArms(exact(lean), exact(18.29), exact(11)),
  });
};

const ends = (
  name: string,
  [low, high]: readonly [number, number],
  tolerance: number,
  unit: string,
  compute: () => { readonly low: number; readonly high: number },
): readonly PublishedCheck[] =>
  (['low', 'high'] as const).map(end => ({
    name: `${name}, ${end} end`,
    source: OWN,
    expected: end === 'low' ? low : high,
    tolerance,
    unit,
    compute: () => compute()[end],
  }));

const kilo = ({ low, high }: { readonly low: number; readonly high: number }) => ({
  low: low / 1e3,
  high: high / 1e3,
});

const weightChecks: readonly PublishedCheck[] = [
  ...ends('mass of a stem of 1.016 m and 18.29 m, cone to paraboloid', [4992, 7488], 1, 'kg', stem),
  ...ends('moment of this stem alone, 38 degrees', [175, 350], 0.6, 'kN m', () => kilo(momentOf(38, false))),
  ...(
    [
      [15, 89, 228],
      [38, 259, 665],
      [45, 332, 852],
    ] as const
  ).flatMap(([lean, low, high]) =>
    ends(`moment with its crown, ${lean} degrees`, [low, high], 0.6, 'kN m', () =>
      kilo(momentOf(lean, true)),
    ),
  ),
  {
    name: 'moment of 3000 kg at 1.0 m and 1000 kg at 3.5 m to the side',
    source: OWN,
    expected: 63.7,
    tolerance: 0.05,
    unit: 'kN m',
    compute: () =>
      weightMoment({
        stem: exact(3000),
        stemArm: exact(1),
        crown: exact(1000),
        crownArm: exact(3.5),
      }).low / 1e3,
  },
  {
    name: 'stress of 200 kN m on a sound stem of 0.80 m',
    source: OWN,
    expected: 3.98,
    tolerance: 0.005,
    unit: 'MPa',
    compute: () => 200e3 / ((Math.PI * 0.8 ** 3) / 32) / 1e6,
  },
];

/** White oak: density 1016 kg/m³ ± 10 %, bark up to 1.3 times 0.16 of the wood, 3560 psi ± 30 % in compression. */
const leaningOak =
  (dbh: string, size: string, lean: string, ...site: readonly string[]) =>
  () => {
    const {
      tree,
      site: at,
      settings,
    } = treeOf(
      `${siteText(...site)}tree 1\n  species Quercus alba\n  dbh ${dbh}\n  ${size}\n  lean ${lean}\n`,
    );
    const safety = leanSafety(tree, at, settings);
    if (typeof safety !== 'object') throw new Error(safety ?? 'no lean');
    return safety;
  };

const BIG = ['101.6 cm', 'height 18.29 m\n  crown from 3.71 m, 10 m wide'] as const;
const MIDDLE = ['80 cm', 'height 18 m\n  crown from 4 m, 10 m wide'] as const;

const percent = ({ low, high }: { readonly low: number; readonly high: number }) => ({
  low: low * 100,
  high: high * 100,
});

const textChecks: readonly PublishedCheck[] = [
  ...(
    [
      [15, 2.449, 18.958],
      [38, 7.141, 55.277],
      [45, 9.14, 70.752],
    ] as const
  ).flatMap(([lean, low, high]) =>
    ends(
      `share of the strength of a white oak of 1.016 m that its weight takes, ${lean} degrees`,
      [low, high],
      2e-3,
      '%',
      () => percent(leaningOak(...BIG, `${lean} deg, steady`)().weight.value),
    ),
  ),
  ...ends('the same, 0.80 m, trunk 1.2 m and crown 3.5 m to the side', [3.205, 22.495], 2e-3, '%', () =>
    percent(leaningOak(...MIDDLE, '20 deg, corrected, crown 3.5 m aside, trunk 1.2 m aside')().weight.value),
  ),
  ...(
    [
      ['40 m/s, exposure C', [], [1.0466, 9.8342], [1.6931, 11.5837]],
      [
        '40 m/s, exposure C',
        ['hill ridge, 30 m high, half-length 100 m, at crest'],
        [0.617, 5.7978],
        [0.9982, 6.8292],
      ],
      ['26 m/s, exposure C, ten-minute mean', [], [1.0672, 10.0278], [1.7264, 11.8117]],
    ] as const
  ).flatMap(([wind, hill, toward, ahead]) => {
    const oak = leaningOak(...MIDDLE, '20 deg, steady', `wind ${wind}`, ...hill);
    const name = `factor of a white oak of 0.80 m leaning 20 degrees, wind ${[wind, ...hill].join(', ')}`;
    return [
      ...ends(`${name}, toward its lean`, toward, 2e-3, '', () => oak().wind!.judged.value),
      ...ends(`${name}, from ahead of it`, ahead, 2e-3, '', () => oak().wind!.against),
    ];
  }),
  {
    name: 'critical wind of the same oak on flat ground, toward its lean, low end',
    source: OWN,
    expected: 40.921,
    tolerance: 0.02,
    unit: 'm/s',
    compute: () =>
      leaningOak(...MIDDLE, '20 deg, steady', 'wind 40 m/s, exposure C')().wind!.criticalWind.low,
  },
];

export const leanChecks: readonly PublishedCheck[] = [
  ...hillChecks,
  ...gustChecks,
  ...weightChecks,
  ...textChecks,
];
