/** Likelihood of failure from figures and marks, each from a text to the assessment. */

import { judge } from '../../server/assess/judge.ts';
import { byWind, rangeWords, ratedLikelihoods, treeLikelihood } from '../../server/assess/likelihood.ts';
import { offsetOf } from '../../server/assess/load.ts';
import { optionsFor } from '../../server/assess/options.ts';
import { signsOf } from '../../server/assess/signs.ts';
import { strengthOf } from '../../server/assess/strength.ts';
import { interval } from '../../server/base/interval.ts';
import { dayContext } from '../assess/inventory.ts';
import type { PublishedCheck } from './published-check.ts';

const WORDS =
  'Forests 2023 14:1043, which quotes the US standard; how the figures map to its words is a judgment';
const JUDGED = 'Judged before the program was written';

const TARGET = '  target "Play lawn"\n    distance 10 ft\n    occupied frequent\n    kind people\n';
const tree = (fields: string) =>
  dayContext(
    `site "Yard"\n  wind 92 mph, exposure B\n\ntree 1\n${fields}  inspection 2026-05-04 from ground\n`,
  );
const withSigns = (fields: string, signs: string) =>
  dayContext(
    `site "Yard"\n  wind 92 mph, exposure B\n\ntree 1\n${fields}${TARGET}  inspection 2026-05-04 from ground\n${signs}`,
  );

const OAK = '  species Quercus alba\n  height 60 ft\n  dbh 30 in\n  crown from 15 ft, 40 ft wide\n';
const LEANING = withSigns(
  '  species Quercus alba\n  height 60 ft\n  dbh 30 in\n  crown from 15 ft, 40 ft wide\n  lean 55 deg toward S, steady\n',
  '  defect A root decay\n    share 60 % of roots\n  defect B root loss\n    share 50 % of roots\n',
);
const CANKER = withSigns('', '  defect A canker\n    share 60 % of circumference\n');
const SHELL = withSigns(
  '  species Acer rubrum\n  height 60 ft\n  dbh 16 in\n  crown from 15 ft, 44 ft wide\n',
  '  defect A cavity\n    on trunk at 3 ft\n    diameter 16 in\n    bark 0.4 in\n    wall 0.3 in\n',
);
const ROTTEN_BASE = withSigns(
  OAK,
  '  defect A fungus\n    species Kretzschmaria deusta\n    on trunk at 0 ft\n  defect B decay\n    on trunk at 4 ft\n    diameter 30 in\n    bark 1 in\n    wall 12 in\n',
);

type Context = ReturnType<typeof tree>;

const likelihoodOf = (context: Context, subject: string): string => {
  const found = treeLikelihood(context)?.parts.find(part => part.subject === subject);
  return found?.range ? rangeWords(found.range) : 'not judged';
};

const supportOf = (context: Context, name: string): string | undefined => {
  const { tree, site, settings } = context;
  const strength = strengthOf(tree, settings);
  return optionsFor({
    ...context,
    signs: signsOf(context),
    strength,
    offset: offsetOf(tree, strength, site, settings),
    measured: [],
    views: [],
  }).find(({ option }) => option === name)?.support;
};

const winds: readonly PublishedCheck[] = [
  ['a limit below normal weather', 15, 22, 'probable'],
  ['a limit perhaps below normal weather', 20, 60, 'possible to probable'],
  ['a limit above normal weather and perhaps below the design wind', 30, 60, 'possible'],
  ['a limit beyond the design wind', 45, 80, 'improbable'],
].map(([name, low, high, expected]) => ({
  name: `${name}: a gust of ${low} to ${high} m/s, normal 24.6, design 41.1`,
  source: WORDS,
  expected: expected as string,
  compute: () => rangeWords(byWind(interval(low as number, high as number), 24.6, 41.1)),
}));

export const likelihoodChecks: readonly PublishedCheck[] = [
  ...winds,
  {
    name: 'a lean of 55°, root decay of 60 % and root loss of 50 %: the root decay',
    source: JUDGED,
    expected: 'imminent',
    compute: () => likelihoodOf(LEANING, 'A'),
  },
  {
    name: 'the same tree: the least likelihood of the whole',
    source: JUDGED,
    expected: 'imminent',
    compute: () => treeLikelihood(LEANING)?.range?.least,
  },
  {
    name: 'the same tree: its root plate, without a pull test',
    source: JUDGED,
    expected: 'not judged',
    compute: () => likelihoodOf(LEANING, 'anchorage'),
  },
  {
    name: 'a canker on 60 % of the circumference, which the codes rate high',
    source: JUDGED,
    expected: 'probable',
    compute: () => likelihoodOf(CANKER, 'A'),
  },
  {
    name: 'a shell of 0.3 in, which may come to its limit in normal weather: leaving it',
    source: JUDGED,
    expected: 'not supported',
    compute: () => supportOf(SHELL, 'leave and watch'),
  },
  {
    name: 'a factor of 0.53 to 0.80 against a limit of 2',
    source: JUDGED,
    expected: 'exceeds',
    compute: () => {
      const { settings } = dayContext('practice "Office"\n  limit safety-factor 2\n\ntree 1\n  dbh 10 in\n');
      return judge(interval(0.53, 0.8), 'safety-factor', settings).standing;
    },
  },
  {
    name: 'a sound stem above Kretzschmaria at its base: the base',
    source: JUDGED,
    expected: 'not judged',
    compute: () => likelihoodOf(ROTTEN_BASE, 'A'),
  },
  {
    name: 'that canker rated improbable: below what figures and codes allow',
    source: JUDGED,
    expected: 'yes',
    compute: () => {
      const rated = dayContext(
        `site "Yard"\n  wind 92 mph, exposure B\n\ntree 1\n${TARGET}  inspection 2026-05-04 from ground\n  defect A canker\n    share 60 % of circumference\n  risk "Play lawn" from A\n    failure improbable\n`,
      );
      return ratedLikelihoods(rated)[0]?.isLower ? 'yes' : 'no';
    },
  },
  {
    name: 'that canker with high likelihood of impact and severe consequences, as a person rated them: the rating by the figures',
    source: 'Smiley, Matheny and Lilly 2017: probable and high make likely, likely and severe high',
    expected: 'high to high',
    compute: () => {
      const rated = dayContext(
        `site "Yard"\n  wind 92 mph, exposure B\n\ntree 1\n${TARGET}  inspection 2026-05-04 from ground\n  defect A canker\n    share 60 % of circumference\n  risk "Play lawn" from A\n    failure possible\n    impact high\n    consequences severe\n`,
      );
      const rating = ratedLikelihoods(rated)[0]?.rating;
      return `${rating?.least} to ${rating?.most}`;
    },
  },
];
