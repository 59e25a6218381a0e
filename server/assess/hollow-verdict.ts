/**
 * Compares a hollow with every applicable limit. The strictest verdict counts; the other formulas are listed beside it.
 * Each formula has its own limit: Wagener's third applies to d³/D³, t/R to closed hollows, and section-loss to the
 * section.
 */

import type { Interval } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import type { Defect } from '../facts/types.ts';
import { followUpWords } from './evidence.ts';
import { type Hollow, hollowOf, isUnread, openingShare } from './hollows.ts';
import { type Judged, judge, shareOf, showLimit, showShare, showValue, UNKNOWN_TIMES } from './judge.ts';
import { type HollowSafety, stemSafety, weightAt } from './safety.ts';
import type { SignContext, Verdict } from './standing.ts';
import { type DefectStrength, strengthOf } from './strength.ts';

/** One figure of a hollow with its verdict. */
export interface Formula {
  /** `d³/D³`. */
  readonly name: string;
  /** Follows the figure: `loss of bending strength`. */
  readonly what: string;
  readonly judged: Judged;
  /** Verdict on the figure; for the design wind only the effect of the hollow counts. */
  readonly standing: Judged['standing'];
}

const BEYOND = ['within', 'may exceed', 'exceeds'] as const;

/** Every formula that speaks of this hollow, the strictest first; those alike in their order. */
export const formulasOf = memo(
  (defect: DefectStrength, context: SignContext): readonly Formula[] => {
    const { settings } = context;
    const { hollow, figures } = defect;
    const { cubic, withOpening, wallRatio } = hollow.thumbs;
    const loss = 'loss of bending strength';
    const formula = (name: string, what: string, value: Interval, limit: Judged['name']): Formula => {
      const judged = judge(value, limit, settings);
      return { name, what, judged, standing: judged.standing };
    };
    return [
      formula('by its section', loss, figures.strengthLoss, 'section-loss'),
      formula('d³/D³', loss, cubic.value, 'strength-loss'),
      // Without an opening both losses are the same figure.
      ...(hollow.cavity.opening && hollow.cavity.opening.high > 0
        ? [
            formula(
              '(d³ + Ro(D³ − d³))/D³',
              `${loss} with its opening${tooWide(hollow, settings)}`,
              withOpening.value,
              'strength-loss',
            ),
          ]
        : []),
      ...(wallRatio.applies
        ? [formula('t/R', 'thinnest wall over radius', wallRatio.value, 'wall-ratio')]
        : []),
      ...inDesignWind(defect, context),
    ].sort((a, b) => BEYOND.indexOf(b.standing) - BEYOND.indexOf(a.standing));
  },
  (_defect, { settings, site }) => [settings, site],
);

/** A note if the opening is too wide for the formula. */
function tooWide(hollow: Hollow, settings: SignContext['settings']): string {
  const judged = judge(openingShare(hollow), 'opening-share', settings);
  return judged.standing === 'within'
    ? ''
    : ` (the opening is ${showValue(judged)} of the circumference; the formula is not valid beyond ${showLimit(judged)})`;
}

const safetyAt = (
  { hollow }: DefectStrength,
  { tree, site, settings }: Pick<SignContext, 'tree' | 'site' | 'settings'>,
): HollowSafety | undefined =>
  stemSafety(tree, strengthOf(tree, settings), site, settings)?.hollows.find(
    ({ defect }) => defect.hollow === hollow,
  );

/** Safety factor in the design wind and share of the weight, if site, species and crown are known. */
function inDesignWind(defect: DefectStrength, { tree, site, settings }: SignContext): readonly Formula[] {
  const strength = strengthOf(tree, settings);
  const found = safetyAt(defect, { tree, site, settings });
  const weight = weightAt(defect, tree, strength, site, settings);
  const what = 'times the moment of the design wind';
  return [
    ...(found && found.standing !== 'not judged'
      ? [
          {
            name: found.against ? 'in the design wind, toward its lean,' : 'in the design wind',
            what,
            judged: found.judged,
            standing: found.standing,
          },
        ]
      : []),
    ...(weight
      ? [
          {
            name: 'by the weight of the leaning tree alone',
            what: 'of the strength used',
            judged: weight,
            standing: weight.standing,
          },
        ]
      : []),
  ];
}

/** `d³/D³: 25.6..42.2 % loss of bending strength, perhaps over the limit of 33 % (Wagener 1963)`. */
export function formulaWords({ name, what, judged, standing }: Formula): string {
  const over = judged.direction === 'at most' ? 'over' : 'under';
  // A figure that an intact stem would not be sure to keep is no fault of the hollow, and not within its limit either.
  const isEased = standing === 'within' && judged.standing !== 'within';
  const verb = { exceeds: over, 'may exceed': `perhaps ${over}`, within: 'within' }[
    isEased ? judged.standing : standing
  ];
  const value = judged.setting.unit === '%' ? showShare(judged) : showValue(judged);
  const figure = value === UNKNOWN_TIMES ? 'its capacity is not known' : shareOf(value, what);
  return `${name} ${figure}, ${verb} ${showLimit(judged)}${isEased ? ', as an intact stem may be' : ''}`;
}

/** The reading that is missing to compute a section. */
function missingReading(defect: Defect, hollow: Hollow | undefined): Verdict | undefined {
  const { id, diameter, bark } = defect;
  if (!diameter || !hollow) {
    return {
      standing: 'not judged',
      why: diameter
        ? `the readings of diameter${bark ? ' and bark' : ''} allow no wood at all, or have no upper end`
        : 'the diameter of the stem or limb there was not measured',
      settle: `Measure or estimate the diameter over the bark at ${id.value}, and record it as its diameter, an estimate behind ~.`,
    };
  }
  return undefined;
}

export function hollowVerdict(defect: Defect, context: SignContext): Verdict {
  const { settings, tree } = context;
  const hollow = hollowOf(defect, tree, settings);
  const missing = missingReading(defect, hollow);
  if (missing) return missing;
  const found = strengthOf(tree, settings).defects.find(one => one.hollow.defect === defect);
  if (!found)
    return {
      standing: 'not judged',
      why: 'no section can be drawn from its readings',
      settle: `Measure the diameter and the sound wall at ${defect.id.value} again.`,
    };
  const [strictest] = formulasOf(found, context);
  const { standing } = strictest!;
  if (standing === 'may exceed' && isUnread(found.hollow))
    return {
      standing: 'not judged',
      why: 'neither a wall nor a depth was measured',
      settle: `Probe or drill it: ${followUpWords(tree, 'resistance drilling', defect)}.`,
    };
  if (standing === 'within') {
    const safety = safetyAt(found, context);
    if (safety?.isOpen) return { standing: 'not judged', why: safety.doubt!, settle: MEASURE_TREE };
  }
  return { standing, why: formulaWords(strictest!) };
}

const MEASURE_TREE =
  'Measure the height, the crown and the diameter of the stem more closely, or have a pull test made.';
