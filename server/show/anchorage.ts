/** What is known of the anchorage of a tree, in words: for `weigh`, hovers and the report. */

import { anchorageLeft, leftWords } from '../assess/anchorage-left.ts';
import { showLimit } from '../assess/judge.ts';
import { type PullResult, pullResults } from '../assess/pull-tests.ts';
import { signsOf } from '../assess/signs.ts';
import { designWind } from '../assess/site-wind.ts';
import type { SignContext } from '../assess/standing.ts';
import { diameterOf } from '../assess/trenches.ts';
import { numberText, ratioText } from '../base/figures.ts';
import { exact, type Interval, middle } from '../base/interval.ts';
import { type Quantity, unitOf } from '../base/quantity.ts';
import { capital, listed } from '../base/words.ts';
import { structuralRootRadius } from '../mechanics/anchorage.ts';
import { pullTest, rootRadii } from '../practice/anchorage.ts';
import { weakGroundWords } from '../practice/weak-ground.ts';
import { tellingText } from './figures.ts';
import type { WeighSection } from './weighed.ts';

const NOTHING = '–';
const KILO = 1000;
const FOOT_POUND = unitOf('lbf')!.factor * unitOf('ft')!.factor;

/** N·m in the units of the force that was read, to three digits: `98 kN m`, `72000 ft lbf`. */
function momentText(moment: Interval, force: Quantity | undefined): string {
  const [unit, name] = force?.unit?.symbol === 'lbf' ? [FOOT_POUND, 'ft lbf'] : [KILO, 'kN m'];
  const [low, high] = [moment.low / unit, moment.high / unit];
  const step = 10 ** (Math.floor(Math.log10(high)) - 2);
  const outward = { low: Math.floor(low / step + 1e-6) * step, high: Math.ceil(high / step - 1e-6) * step };
  return `${numberText(outward, step < 1 ? Math.round(-Math.log10(step)) : 0)} ${name}`;
}

/** In the unit and averaging time of the wind of the site. */
const gust = ({ low }: Interval, { tree, site, settings }: SignContext): string => {
  const unit = site!.wind!.speed.value.unit!;
  const { overStated } = designWind(tree, site, settings)!;
  return `${Math.floor(low / overStated / unit.factor)} ${unit.symbol}`;
};

/** The figures of a pull test, as sentences. */
export function pullLines(result: PullResult): readonly string[] {
  const { name, moment, reading, anchorage, load, weight, against, strains, usual, verdict, test } = result;
  const text = (value: Interval) => momentText(value, test.force?.value);
  const { citation, curve, inclination, scatter } = pullTest;
  return [
    ...(moment ? [`${capital(name)}: a moment of ${text(moment)} at the ground.`] : []),
    ...(reading && anchorage
      ? [
          `Scaled to ${inclination}°: ${text(reading)}; at failure of the root plate: ${text(anchorage)}, ${pullTest.peak} times that (${curve.short}, from memory), times ${scatter.low} to ${scatter.high} for the scatter of single trees (${citation.short}).`,
        ]
      : []),
    ...(load ? [`Design wind on the full crown in leaf: ${text(load)} at the ground.`] : []),
    ...(weight.high > 0
      ? [
          `Its own weight adds ${text(weight)} toward its lean${against ? `; with the wind against the lean the factor would be ${tellingText(against, 2)}` : ''}.`,
        ]
      : []),
    ...(usual !== undefined
      ? [
          `With the usual drag and no scatter the factor would be ${numberText(exact(usual), 1)}. Do not rely on this figure.`,
        ]
      : []),
    ...(verdict.standing === 'not judged' ? [`${capital(verdict.why)}.`] : []),
    ...(result.weak.length > 0
      ? [`The verdict depends on ${listed(result.weak.map(weakGroundWords))}.`]
      : []),
    ...strains.map(
      ({ shown, capacity, limit }) =>
        `At ${shown} the outermost wood first yields under ${text(capacity)}: strain in proportion up to ${numberText({ low: limit.low * 100, high: limit.high * 100 }, 2)} % (${limit.words}), allowing for variation between trees.`,
    ),
  ];
}

/** Radii in which roots matter, with their sources; empty without a diameter. */
export function radiusLines({ tree, settings }: SignContext): readonly string[] {
  const diameter = diameterOf(tree, settings);
  if (!diameter) return [];
  const symbol = tree.diameters[0]?.value.unit?.symbol;
  const unit = unitOf(symbol === 'in' || symbol === 'ft' ? 'ft' : 'm')!;
  const at = (value: Interval) =>
    `${(Math.ceil((middle(value) / unit.factor) * 100 - 1e-6) / 100).toFixed(2)} ${unit.symbol}`;
  const times = (count: number) => at({ low: diameter.low * count, high: diameter.high * count });
  const { structural, critical, protection } = rootRadii;
  const from = ({ citation, confidence }: typeof structural | typeof critical | typeof protection) =>
    `${citation.short}, ${confidence}`;
  return [
    `Roots within ${at(structuralRootRadius(diameter, structural.least))} of the stem carry it (${from(structural)}); the critical radius is ${times(critical.diameters)} (${from(critical)}), the radius to protect ${times(protection.diameters)} (${from(protection)}).`,
  ];
}

/** A table and paragraphs; undefined if nothing on record concerns the roots. */
export function anchoragePart(context: SignContext): WeighSection | undefined {
  const { tree, site, settings } = context;
  const pulls = pullResults(tree, site, settings);
  const left = anchorageLeft(tree, site, settings);
  const concerned = signsOf(context).some(
    ({ part, defect }) => part === 'roots and ground' && defect !== undefined,
  );
  if (pulls.length === 0 && !concerned) return undefined;
  const rows = pulls.flatMap(({ name, judged, criticalWind, verdict, strains }) => [
    ...(judged && criticalWind
      ? [
          [
            `root plate, ${name.replace('the pull test of ', '')}`,
            tellingText(judged.value, 2),
            gust(criticalWind, context),
            verdict.standing,
          ],
        ]
      : []),
    ...strains.map(strain => [
      `stem at ${strain.shown}`,
      ratioText(strain.judged.value),
      gust(strain.criticalWind, context),
      strain.judged.standing,
    ]),
  ]);
  const isPulled = pulls.some(({ verdict }) => verdict.standing !== 'not judged');
  return {
    heading: `Anchorage in the design wind, against ${showLimit({ setting: settings.limit('safety-factor') })}`,
    head: ['', 'factor', 'gust at failure', 'verdict'],
    rows: rows.length > 0 ? rows : [['root plate', NOTHING, NOTHING, 'not judged']],
    lines: [
      ...pulls.flatMap(pullLines),
      ...(left ? [`After ${left.from}, ${leftWords(left)}.`] : []),
      ...(isPulled
        ? []
        : [
            'The size of a tree alone does not show how well it is anchored, and the strength of its stem says nothing about its roots.',
          ]),
      ...radiusLines(context),
    ],
  };
}
