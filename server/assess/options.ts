/** What is open to a tree, side by side. Nothing is recommended that the intervals do not support. */

import { formatDate } from '../../grammar/dates.ts';
import { plainNumber, unitOf } from '../../grammar/quantity.ts';
import { interval as reading } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Site, Tree } from '../facts/types.ts';
import { exact, hull, type Interval, interval } from '../mechanics/interval.ts';
import { stressRatio } from '../mechanics/reduction.ts';
import { asksOfCutting, asksOfPruning } from './asks.ts';
import { counted } from './counted.ts';
import { isDead } from './doses.ts';
import { hollowDefects } from './hollows.ts';
import { judge, REPRESENTATION, type Standing } from './judge.ts';
import { missingForOffset, type Offset } from './load.ts';
import { weeksClosed } from './pest-windows.ts';
import { type Salvage, salvageOf } from './salvage.ts';
import { reductionWords } from './section-words.ts';
import type { Settles } from './settles.ts';
import { hiddenBy, type ViewShare } from './sightlines.ts';
import { lossAt, type Strength } from './strength.ts';

export const OPTIONS = [
  'leave and watch',
  'reduce in one season',
  'reduce in stages',
  'fell',
  'investigate first',
] as const;

/**
 * Whether the figures carry an option over everything that the readings allow (`supported`), over part of it,
 * over none of it; whether they do not call for it; or whether there are none.
 */
export const SUPPORTS = [
  'supported',
  'depends on a reading',
  'not supported',
  'not called for',
  'no figure',
] as const;
export type Support = (typeof SUPPORTS)[number];

export interface Option {
  readonly option: (typeof OPTIONS)[number];
  readonly support: Support;
  /** Why, in sentences. */
  readonly because: readonly string[];
  /** Of the most stressed section, once all is done. */
  readonly stressRatio?: Interval;
  /** Share of the foliage, over all seasons. */
  readonly dose?: Interval;
  /** That stages take. */
  readonly seasons?: Interval;
  /** Share hidden of each view under this option. */
  readonly views: readonly {
    readonly name: string;
    readonly wish: 'hide' | 'open';
    readonly hidden: Interval;
  }[];
  /** What law, season and surroundings still ask for: in lower case, without full stops. */
  readonly asks: readonly string[];
  readonly salvage?: Salvage;
}

export interface OptionEvidence {
  readonly tree: Tree;
  readonly site: Site | undefined;
  readonly strength: Strength;
  readonly offset: Offset | undefined;
  readonly views: readonly ViewShare[];
  readonly settles: readonly Settles[];
  readonly settings: Settings;
  readonly today: number;
}

/** The losses of a tree at its weakest, and how they stand to the limit; undefined without a section. */
interface Weakest {
  readonly loss: Interval;
  readonly standing: Standing;
}

function weakestOf({ strength, settings }: OptionEvidence): Weakest | undefined {
  const losses = strength.defects.map(defect => lossAt(defect, strength));
  if (losses.length === 0) return undefined;
  const loss = interval(Math.max(...losses.map(l => l.low)), Math.max(...losses.map(l => l.high)));
  return { loss, standing: judge(loss, 'strength-loss', settings).standing };
}

/** All five, in their order; none for a tree that is gone. */
export function optionsFor(evidence: OptionEvidence): readonly Option[] {
  if (evidence.tree.felled) return [];
  const weakest = weakestOf(evidence);
  return [
    leave(evidence, weakest),
    reduce(evidence, weakest, 'one season'),
    reduce(evidence, weakest, 'stages'),
    fell(evidence, weakest),
    investigate(evidence),
  ];
}

const percent = (share: number) => `${plainNumber(Math.ceil(share * 1000 - 1e-6) / 10, 1)} %`;

function leave({ views, site, settings }: OptionEvidence, weakest: Weakest | undefined): Option {
  const interval = site?.interval
    ? reading(site.interval.value, settings).low
    : settings.limit('inspection-interval').value;
  const months = Math.floor(interval / unitOf('months')!.factor + REPRESENTATION);
  const base = {
    option: 'leave and watch' as const,
    views: views.map(({ view, wish, before }) => ({ name: view.name.value, wish, hidden: before })),
    asks: [`an inspection within ${counted(months, 'month')}, and one after every storm`],
  };
  if (!weakest)
    return {
      ...base,
      support: 'no figure',
      because: ['No section of a hollow was measured: the figures say nothing for or against it.'],
    };
  const { standing, loss } = weakest;
  const verdicts = {
    within: ['supported', 'Every section keeps within the limit, whatever the readings allow.'],
    'may exceed': ['depends on a reading', 'A section may have lost more than the limit allows.'],
    exceeds: [
      'not supported',
      'A section has lost more than the limit allows, at any value of the readings.',
    ],
  } as const;
  const [support, because] = verdicts[standing];
  return { ...base, support, because: [because], stressRatio: stressRatio(exact(1), loss) };
}

function reduce(
  evidence: OptionEvidence,
  weakest: Weakest | undefined,
  how: 'one season' | 'stages',
): Option {
  const { tree, strength, offset, views, settings, today } = evidence;
  const base = {
    option: how === 'one season' ? ('reduce in one season' as const) : ('reduce in stages' as const),
    asks: [...asksOfCutting(tree, settings, today), ...asksOfPruning(weeksClosed(tree, settings))],
  };
  const plain = (support: Support, because: string): Option => ({
    ...base,
    support,
    because: [because],
    views: [],
  });
  if (isDead(tree)) return plain('not supported', 'Pruning does not help a dead tree.');
  if (!weakest) return plain('no figure', 'No section of a hollow was measured: nothing to offset.');
  if (!offset)
    return plain(
      'no figure',
      `What a reduction does at the defects is not known: ${missingForOffset(tree, strength, settings)}.`,
    );
  // Stages beside one season that suffices would only be slower.
  if (how === 'stages' && offset.reach === 'one season')
    return plain('not called for', 'One season is enough.');
  const [support, because] = supportOf(tree, offset, weakest, how);
  // What no pruning reaches has no crown that is left, and no last season.
  if (beyondReach(offset))
    return { ...base, support, because: [because], dose: hull(offset.atBest.dose, offset.dose), views: [] };
  return {
    ...base,
    support,
    because: [
      because,
      ...(how === 'stages' && support === 'supported' ? [stagesWord(offset)] : []),
      ...(support === 'not called for' || !Number.isFinite(offset.stressAtLeastEffect.high)
        ? []
        : [leastEffectWord(offset)]),
    ],
    stressRatio: offset.stressRatio,
    dose: offset.dose,
    ...(how === 'stages' ? { seasons: offset.seasons } : {}),
    views: views.map(sighted => ({
      name: sighted.view.name.value,
      wish: sighted.wish,
      hidden: hiddenBy(sighted, offset.crown),
    })),
  };
}

const beyondReach = ({ reach }: Offset) => reach === 'out of reach' || reach === 'perhaps out of reach';

const stagesWord = ({ seasons }: Offset) =>
  `A year at least between seasons; until the last of ${seasons.high} the load is not offset, so something else has to bridge the time.`;

/** What stays open where the figure counts a cut in full. */
const leastEffectWord = ({ stressAtLeastEffect: { high } }: Offset) =>
  `By the outline of the crown; if the cut does half of that, the stress is up to ${plainNumber(Math.ceil(high * 100 - 1e-6) / 100, 2)} times that of the sound stem.`;

/** A reduction from which on hardly a crown is left to speak of. */
const WHOLE_CROWN = 0.8;

/** @param how which of the two reductions is asked about */
function supportOf(
  tree: Tree,
  offset: Offset,
  { standing }: Weakest,
  how: 'one season' | 'stages',
): readonly [Support, string] {
  const { reduction, atBest, dose, reach, seasonLimit } = offset;
  const off = reductionWords(tree, offset);
  const season = `one season's ${percent(seasonLimit)}`;
  const noSeason = `no number of seasons comes to it within ${season}`;
  if (beyondReach(offset)) {
    const needs =
      reduction > WHOLE_CROWN
        ? 'At the worst loss that the readings allow no reduction is enough'
        : `At the worst loss it takes ${off}: ${reach === 'out of reach' ? 'more than' : 'at or beyond what'} pruning can give`;
    const { reduction: least, dose: leastDose, seasons } = atBest;
    if (atBest.reach === 'out of reach')
      return ['not supported', `${needs}; even the least loss takes ${percent(least)} off.`];
    if (how === 'stages' && !Number.isFinite(seasons.low)) return ['not supported', `${needs}; ${noSeason}.`];
    if (how === 'one season' && leastDose.low > seasonLimit)
      return ['not supported', `${needs}; at the least loss it still takes more foliage than ${season}.`];
    const time = how === 'stages' ? `, in ${counted(seasons.low, 'season')} at least` : '';
    return ['depends on a reading', `${needs}; at the least loss ${percent(least)} off would do${time}.`];
  }
  if (standing === 'within')
    return ['not called for', `The limit does not ask for it; ${off} would offset the whole loss.`];
  if (how === 'stages' && !Number.isFinite(offset.seasons.high))
    return ['not supported', `${off} would offset the worst loss; ${noSeason}.`];
  if (how === 'stages')
    return ['supported', `${off} offsets the worst loss; one season cannot take that much.`];
  if (dose.high <= seasonLimit) return ['supported', `${off} offsets the worst loss within ${season}.`];
  if (dose.low > seasonLimit && atBest.dose.low > seasonLimit)
    return ['not supported', `${off} takes more foliage than ${season}.`];
  return ['depends on a reading', `${off} may take more foliage than ${season}.`];
}

function fell(
  { tree, offset, views, settings, today }: OptionEvidence,
  weakest: Weakest | undefined,
): Option {
  const beyondPruning = isDead(tree) || (offset !== undefined && beyondReach(offset));
  const surelyBeyond = isDead(tree) || offset?.atBest.reach === 'out of reach';
  const other = 'a cable or a prop, a lower standing stem, or keeping people away may still be open';
  const verdict = (): readonly [Support, string] => {
    if (!weakest) return ['no figure', 'No figure calls for it.'];
    if (weakest.standing === 'within') return ['not called for', 'No section exceeds the limit.'];
    if (weakest.standing === 'exceeds' && surelyBeyond)
      return ['supported', `The loss exceeds the limit and pruning cannot offset it; ${other}.`];
    if (!offset && !isDead(tree))
      return [
        'depends on a reading',
        'A section may have lost more than the limit allows, and nobody can say yet whether pruning offsets it.',
      ];
    if (beyondPruning)
      return [
        'depends on a reading',
        'Only if a reading bears out the worst; until then the figures do not carry it.',
      ];
    return ['not called for', 'A reduction can offset what is lost.'];
  };
  const [support, because] = verdict();
  const salvage = salvageOf(tree, settings);
  return {
    option: 'fell',
    support,
    because: [because],
    views: views.map(({ view, wish }) => ({ name: view.name.value, wish, hidden: exact(0) })),
    asks: asksOfCutting(tree, settings, today),
    ...(salvage ? { salvage } : {}),
  };
}

function investigate({ tree, strength, settles }: OptionEvidence): Option {
  const unmeasured = hollowDefects(tree)
    .filter(({ diameter }) => !diameter)
    .map(({ id }) => id.value);
  const reasons = [
    ...strength.defects
      .filter(({ figures }) => figures.contradictions.length > 0)
      .map(({ hollow }) => `The readings at ${hollow.defect.id.value} contradict each other: read again.`),
    ...settles.map(({ text }) => text),
    ...strength.groups
      .filter(({ joined }) => joined.state === 'suspected')
      .map(
        ({ joined }) =>
          `Whether ${joined.defects.map(({ value }) => value).join(' and ')} are one inside is for a climbing inspection, a probe or a tomogram to say.`,
      ),
    ...(unmeasured.length > 0
      ? [`Of ${unmeasured.join(', ')} no section can be drawn: the diameter there was not read.`]
      : []),
  ];
  const planned = tree.followUps
    .filter(({ done, kind }) => !done && kind.value !== 're-inspection')
    .map(({ kind, due }) => `the ${kind.value}${due ? ` due ${formatDate(due.value)}` : ''} is still open`);
  return {
    option: 'investigate first',
    support: reasons.length > 0 ? 'supported' : 'not called for',
    because: reasons.length > 0 ? reasons : ['No reading would change how the figures stand to the limit.'],
    views: [],
    asks: planned,
  };
}
