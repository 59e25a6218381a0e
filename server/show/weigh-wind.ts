/** What `weigh` says of a stem in the design wind and under its own weight. */

import { showLimit } from '../assess/judge.ts';
import type { PartSafety } from '../assess/part-safety.ts';
import type { HollowSafety } from '../assess/safety.ts';
import { weakWords } from '../assess/weak-words.ts';
import { numberText, ratioText, shareText } from '../base/figures.ts';
import type { Interval } from '../base/interval.ts';
import { showQuantity } from '../base/quantity.ts';
import { weakGroundWords } from '../practice/weak-ground.ts';
import { tellingText } from './figures.ts';
import { sanitizeLine } from './sanitize.ts';
import { NOTHING, placeOf, type Weighed, type WeighSection } from './weighed.ts';

/** `3-second gust of 92 mph, exposure B`; also which hill and which factor count. */
function windText({ site, tree }: Weighed): string {
  const { speed, exposure, averaging = 'gust' } = site!.wind!;
  const hill = tree.hill ?? site!.hill;
  const factor = tree.windFactor ?? site!.windFactor;
  return [
    `${averaging === 'gust' ? '3-second gust' : averaging} of ${showQuantity(speed.value)}`,
    exposure ? `exposure ${exposure}` : 'exposure not recorded',
    ...(hill?.shape ? [`over the ${hill.shape}`] : []),
    ...(factor ? [`times ${showQuantity(factor.factor.value)} (${sanitizeLine(factor.because)})`] : []),
  ].join(', ');
}

/** The speed at which a section comes to its limit, in the words of the site. Only the lower end is informative. */
const yieldsFrom = ({ site }: Weighed, { low }: Interval, overStated: number): string => {
  const unit = site!.wind!.speed.value.unit!;
  return `${Math.floor(low / overStated / unit.factor)} ${unit.symbol}`;
};

/** Empty for a species of unknown wood: no other species is substituted. */
export function safetyOf(weighed: Weighed): readonly WeighSection[] {
  const { safety, settings } = weighed;
  if (!safety) return [];
  const { strength, drag, hollows, wind } = safety;
  const leans = hollows.some(({ against }) => against);
  const rows = hollows.map(({ defect, judged, against, sound, criticalWind, standing }) => [
    placeOf(defect),
    tellingText(judged.value, 2),
    ...(leans ? [against ? tellingText(against, 2) : NOTHING] : []),
    tellingText(sound, 2),
    yieldsFrom(weighed, criticalWind, wind.overStated),
    standing,
  ]);
  const pascals = ({ low, high }: Interval) => numberText({ low: low / 1e6, high: high / 1e6 }, 1);
  const woods = strength.woods.map(({ common, status }) => `${common}, ${status}`).join('; ');
  const lines = [
    `Based on the moment at which the outermost wood first yields: green wood in compression, ${pascals(strength.compression)} MPa by the ${strength.citation.short} (${woods || 'from the density of its wood, from memory'}), allowing for variation between trees. Drag ${ratioText(drag)}, usually ${drag.usual} (${drag.citation.short} and design values, judged). Real trees are not clear wood: the stress ratios below come first, and this figure certifies nothing.`,
    ...hollows.flatMap(hollow => remarksOn(hollow)),
    ...weakLines(safety.parts),
    ...(safety.sizes === 'fit' ? [] : [SIZES[safety.sizes]]),
  ];
  const limit = showLimit({ setting: settings.limit('safety-factor') });
  const direction = leans ? ['with hollow, wind toward the lean', 'wind against the lean'] : ['with hollow'];
  return [
    {
      heading: `Stem capacity in a ${windText(weighed)}, full crown in leaf, against ${limit}`,
      head: ['', ...direction, 'intact', 'gust at yield', 'verdict'],
      rows,
      lines,
    },
  ];
}

/** A sound stem under its own weight. */
export function leanOf(weighed: Weighed): readonly WeighSection[] {
  const { lean } = weighed.assessment;
  if (lean === undefined) return [];
  const heading = 'Leaning stem at its base under its own weight, taken as intact';
  if (typeof lean === 'string') return [{ heading, lines: [`No figure: ${lean}.`] }];
  const { weight, wind, part, sizes } = lean;
  const rows = [
    ['strength used by its weight alone', shareText(weight.value), showLimit(weight), weight.standing],
    ...(wind
      ? [
          [
            'times the design wind, wind toward the lean',
            tellingText(wind.judged.value, 2),
            showLimit(wind.judged),
            wind.standing === 'within' && wind.judged.standing !== 'within'
              ? 'uncertain even if upright'
              : wind.standing,
          ],
          ['times the design wind, wind against the lean', tellingText(wind.against, 2), NOTHING, NOTHING],
        ]
      : []),
  ];
  const overStated = weighed.assessment.wind?.overStated ?? 1;
  const lines = [
    ...(wind
      ? [
          `In a ${windText(weighed)}; with the wind toward the lean it yields in gusts from ${yieldsFrom(weighed, wind.criticalWind, overStated)}.`,
        ]
      : ['No design wind of the site is on record.']),
    'These figures do not cover the roots, and none makes a new or increasing lean safe.',
    ...weakLines([part]),
    ...(sizes === 'fit' ? [] : [SIZES[sizes]]),
  ];
  return [{ heading, head: ['', '', 'limit', 'verdict'], rows, lines }];
}

/** What the verdicts rest on that no study supports well. */
const weakLines = (parts: readonly PartSafety[]): readonly string[] =>
  weakWords([...new Set(parts.flatMap(({ weak }) => weak))]).map(words => `Weak evidence: ${words}.`);

const SIZES = {
  'too slender':
    'Even intact, this stem would yield in a gust that trees withstand: check height, diameter and crown.',
  'too stout':
    'Intact, this stem would withstand gusts in which the soundest trees break: check height, diameter and crown.',
} as const;

function remarksOn({ defect, breakingAtMost, leafless, maySplit, doubt }: HollowSafety): readonly string[] {
  const id = defect.hollow.defect.id.value;
  return [
    ...(doubt ? [`${id} is not judged: ${doubt}.`] : []),
    ...(maySplit
      ? [`${id}: a shell this thin may split before it bends, so its factor is an upper bound.`]
      : []),
    ...(leafless
      ? [
          `${id} carries ${tellingText(leafless, 2)} times the same wind without leaves (${weakGroundWords('leafless drag')}); the verdict is for the tree in leaf.`,
        ]
      : []),
    ...(Number.isFinite(breakingAtMost)
      ? [
          `${id} breaks at ${numberText({ low: breakingAtMost, high: breakingAtMost }, 1)} times at most, by the bending strength of clear wood. Do not rely on this figure.`,
        ]
      : []),
  ];
}
