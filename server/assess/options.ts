/** What is open to a tree, side by side. Nothing is recommended that the intervals do not support. */

import { formatDate, formatMonthDay } from '../../grammar/dates.ts';
import { interval as reading } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Tree } from '../facts/types.ts';
import { exact, type Interval, interval } from '../mechanics/interval.ts';
import { stressRatio } from '../mechanics/reduction.ts';
import { equivalentDiameter } from '../mechanics/stem.ts';
import { greenMass, stemVolume } from '../mechanics/timber.ts';
import { greenDensity } from '../practice/index.ts';
import { isDead } from './doses.ts';
import { judge } from './judge.ts';
import type { Offset, PrescriptionLoad } from './load.ts';
import { lastCheckBy, nestingSeasons } from './nesting.ts';
import type { Settles } from './settles.ts';
import type { ViewShare } from './sightlines.ts';
import { lossAt, type Strength } from './strength.ts';

/** Whether the figures carry the option over everything the readings allow. */
export type Support = 'supported' | 'depends on a reading' | 'not supported' | 'no figure';

export interface Option {
  readonly option:
    | 'leave and watch'
    | 'reduce in one season'
    | 'reduce in stages'
    | 'fell'
    | 'investigate first';
  readonly support: Support;
  /** Why, in one sentence. */
  readonly because: string;
  /** Over the sections of the tree, the worst. */
  readonly stressRatio?: Interval;
  readonly dose?: Interval;
  readonly seasons?: Interval;
  /** Share hidden of each view under this option. */
  readonly views: readonly {
    readonly name: string;
    readonly wish: 'hide' | 'open';
    readonly hidden: Interval;
  }[];
  /** What the law and the season still ask for. */
  readonly asks: readonly string[];
  readonly salvage?: { readonly volume: Interval; readonly mass: Interval | undefined };
}

interface Evidence {
  readonly tree: Tree;
  readonly strength: Strength;
  readonly loads: readonly PrescriptionLoad[];
  readonly offset: Offset | undefined;
  readonly views: readonly ViewShare[];
  readonly settles: readonly Settles[];
  readonly settings: Settings;
  readonly today: number;
}

const worst = (intervals: readonly Interval[]): Interval | undefined =>
  intervals.length === 0
    ? undefined
    : interval(Math.max(...intervals.map(i => i.low)), Math.max(...intervals.map(i => i.high)));

export function optionsFor(evidence: Evidence): readonly Option[] {
  if (evidence.tree.felled) return [];
  return [
    leave(evidence),
    reduce(evidence, 'one season'),
    reduce(evidence, 'stages'),
    fell(evidence),
    investigate(evidence),
  ];
}

function leave({ strength, views, settings }: Evidence): Option {
  const losses = strength.defects.map(defect => lossAt(defect, strength));
  const loss = worst(losses);
  const base = {
    option: 'leave and watch' as const,
    views: views.map(({ view, wish, before }) => ({ name: view.name.value, wish, hidden: before })),
    asks: [
      `look again within ${Math.round(settings.limit('inspection-interval').value / 30.436875)} months, and after a storm`,
    ],
  };
  if (!loss)
    return {
      ...base,
      support: 'no figure',
      because: 'No section was measured: the figures say nothing for or against.',
    };
  const { standing } = judge(loss, 'strength-loss', settings);
  const ratio = stressRatio(exact(1), loss);
  if (standing === 'within')
    return {
      ...base,
      support: 'supported',
      because: 'Every loss stays within the limit over all that the readings allow.',
      stressRatio: ratio,
    };
  return standing === 'exceeds'
    ? {
        ...base,
        support: 'not supported',
        because: 'At least one section has surely lost more than the limit allows.',
        stressRatio: ratio,
      }
    : {
        ...base,
        support: 'depends on a reading',
        because: 'A section may have lost more than the limit allows.',
        stressRatio: ratio,
      };
}

function reduce({ tree, strength, offset, settings, today }: Evidence, how: 'one season' | 'stages'): Option {
  const option = how === 'one season' ? ('reduce in one season' as const) : ('reduce in stages' as const);
  const asks = workAsks(tree, settings, today, 'pruning');
  const views: Option['views'] = [];
  if (isDead(tree))
    return {
      option,
      support: 'not supported',
      because: 'A dead tree is not helped by pruning.',
      views,
      asks,
    };
  if (!offset) {
    const because =
      strength.defects.length === 0
        ? 'No section was measured, so there is nothing to offset.'
        : 'Crown base, height and spread are needed to say what a reduction would do.';
    return { option, support: 'no figure', because, views, asks };
  }
  const figures = { stressRatio: exact(1), dose: offset.dose, seasons: offset.seasons };
  const percent = `${Math.ceil(offset.reduction * 1000) / 10} %`;
  const says = (support: Support, because: string): Option => ({
    option,
    support,
    because,
    ...figures,
    views,
    asks,
  });
  if (offset.reach === 'out of reach')
    return says(
      'not supported',
      `It would take ${percent} off crown length and spread: more than pruning can give.`,
    );
  if (offset.reach === 'perhaps out of reach')
    return says(
      'depends on a reading',
      `It would take ${percent} off crown length and spread, at or beyond what pruning can give.`,
    );
  const fitsOne = offset.dose.high <= offset.seasonLimit;
  const mayFitOne = offset.dose.low <= offset.seasonLimit;
  const limit = `${Math.round(offset.seasonLimit * 1000) / 10} %`;
  if (how === 'one season') {
    if (fitsOne)
      return says(
        'supported',
        `${percent} off crown length and spread offsets the worst loss within one season's ${limit}.`,
      );
    return mayFitOne
      ? says('depends on a reading', `The foliage it takes may exceed one season's ${limit}.`)
      : says('not supported', `The foliage it takes exceeds one season's ${limit}.`);
  }
  if (fitsOne) return says('not supported', 'One season is enough.');
  return says(
    'supported',
    `${percent} off crown length and spread, a year between seasons; until the last the load is not offset.`,
  );
}

function fell({ tree, strength, offset, views, settings, today }: Evidence): Option {
  const losses = strength.defects.map(defect => lossAt(defect, strength));
  const surely = losses.some(loss => judge(loss, 'strength-loss', settings).standing === 'exceeds');
  const support: Support =
    losses.length === 0
      ? 'no figure'
      : surely && offset?.reach === 'out of reach'
        ? 'supported'
        : surely || offset?.reach === 'out of reach'
          ? 'depends on a reading'
          : 'not supported';
  const because =
    support === 'supported'
      ? 'The loss exceeds the limit and pruning cannot offset it; a brace, a prop or keeping people away may still be open.'
      : support === 'no figure'
        ? 'No figure calls for it.'
        : support === 'not supported'
          ? 'The figures leave other measures open.'
          : 'Only if neither a reading nor another measure settles it.';
  const salvage = salvageOf(tree, settings);
  return {
    option: 'fell',
    support,
    because,
    views: views.map(({ view, wish }) => ({ name: view.name.value, wish, hidden: exact(0) })),
    asks: workAsks(tree, settings, today, 'removal'),
    ...(salvage ? { salvage } : {}),
  };
}

function investigate({ strength, settles }: Evidence): Option {
  const suspected = strength.groups.filter(({ joined }) => joined.state === 'suspected');
  const reasons = [
    ...settles.map(({ text }) => text),
    ...suspected.map(
      ({ joined }) =>
        `Whether ${joined.defects.map(({ value }) => value).join(' and ')} are one inside is decided by a climbing inspection, a probe or a tomogram.`,
    ),
  ];
  return {
    option: 'investigate first',
    support: reasons.length > 0 ? 'supported' : 'not supported',
    because: reasons[0] ?? 'No reading would change the verdict.',
    views: [],
    asks: reasons.slice(1),
  };
}

/** Volume of the whole stem and its green mass; hollows are not deducted, so it is the most there can be. */
function salvageOf(tree: Tree, settings: Settings): Option['salvage'] {
  if (tree.diameters.length === 0 || !tree.height) return undefined;
  const diameters = tree.diameters.map(({ value }) => reading(value, settings));
  const height = reading(tree.height.value, settings);
  if (diameters.some(({ low }) => !(low > 0)) || !(height.low > 0) || !Number.isFinite(height.high))
    return undefined;
  const volume = stemVolume(equivalentDiameter(diameters), height);
  const density =
    tree.species?.value.binomial === undefined ? undefined : greenDensity(tree.species.value.binomial);
  return { volume, mass: density ? greenMass(volume, exact(density.density)) : undefined };
}

function workAsks(
  tree: Tree,
  settings: Settings,
  today: number,
  what: 'pruning' | 'removal',
): readonly string[] {
  const asks: string[] = [];
  for (const { name, season } of nestingSeasons(tree, settings)) {
    const { from, to } = season.window;
    asks.push(`keep out of the ${name} ${formatMonthDay(from)}..${formatMonthDay(to)}, or have a nest check`);
  }
  const check = lastCheckBy(tree, today);
  if (check?.found.some(({ use }) => use === 'active'))
    asks.push(
      `an active nest was found on ${formatDate(check.date.value)}: no work near it while it is in use`,
    );
  if (tree.protection) {
    const { permit, until } = tree.protection;
    asks.push(
      permit
        ? `permit ${permit.value}${until === undefined ? '' : `, until ${formatDate(until)}`}: see that it covers ${what}`
        : `protected: a permit for ${what} before any work`,
    );
  }
  if (tree.conductors.length > 0)
    asks.push('an electric line is near: line clearance qualified people, and the utility');
  if (
    tree.defects.some(
      ({ kind, closed }) => !closed && ['cavity', 'loose bark', 'woodpecker holes'].includes(kind.value),
    )
  )
    asks.push('cavities may be roosts: a bat check before the work');
  return asks;
}
