/** The rating of a sign by the hazard rating codes: a floor for a person's judgment, beside the figures. */

import type { Interval } from '../base/interval.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Defect } from '../facts/types.ts';
import {
  CODE_MARKS,
  type CodedSign,
  RATING_CODES,
  type RatingCode,
  ratingCodes,
} from '../practice/rating-codes.ts';
import { circumferenceShare, isBroadleaved, shareOf } from './defect-verdict.ts';
import { hollowOf, thinnestWall } from './hollows.ts';
import type { Sign } from './signs.ts';
import type { SignContext } from './standing.ts';

export interface Coded {
  /** What the guide rates. */
  readonly sign: CodedSign;
  /** The least and the greatest rating that the readings allow; undefined below the lowest. */
  readonly least: RatingCode | undefined;
  readonly most: RatingCode;
}

/** Number of a rating, 0 for none. */
type Rank = 0 | 1 | 2 | 3;

/** Undefined where the guide rates nothing of the kind, or the sign is below its lowest mark. */
export function codedAs(sign: Sign, signs: readonly Sign[], context: SignContext): Coded | undefined {
  const found = ranksOf(sign, signs, context);
  if (!found) return undefined;
  const [kind, least, most] = found;
  const code = (rank: Rank): RatingCode | undefined => (rank === 0 ? undefined : RATING_CODES[rank - 1]);
  const highest = code(most);
  return highest && { sign: kind, least: code(least), most: highest };
}

/** `high (more than 40 % of the circumference)`, `moderate to high (…)`. */
export function codedWords({ sign, least, most }: Coded): string {
  const row = ratingCodes[sign];
  const range = least === most ? most : `${least ?? 'below moderate'} to ${most}`;
  return `${range} (${row[most] ?? sign})`;
}

function ranksOf(
  sign: Sign,
  signs: readonly Sign[],
  context: SignContext,
): readonly [CodedSign, Rank, Rank] | undefined {
  const { defect, kind } = sign;
  const { settings, tree } = context;
  const beside = signs.filter(other => other !== sign && isAt(sign, other));
  const isDecayed = beside.some(isExtensiveDecay);
  const isCracked = beside.some(({ kind }) => kind === 'crack');
  const isSplit = beside.some(
    ({ defect }) => defect?.kind.value === 'crack' && defect.runs?.course === 'through',
  );
  switch (kind) {
    case 'vigor':
      return ['dead tree', 2, signs.some(other => isExtensiveDecay(other) || GRAVE.has(other.kind)) ? 3 : 2];
    case 'union':
      return sign.standing === 'within' || sign.standing === 'not judged'
        ? undefined
        : ['union', sign.standing === 'moving' ? 2 : 1, isDecayed ? 3 : sign.standing === 'moving' ? 2 : 1];
    case 'included bark':
      return [
        'union',
        isDecayed || isCracked ? 2 : 1,
        isDecayed && isCracked ? 3 : isDecayed || isCracked ? 2 : 1,
      ];
    default:
  }
  if (!defect) return undefined;
  const over = (value: Interval, mark: number): readonly [boolean, boolean] => [
    value.low > mark,
    value.high > mark,
  ];
  switch (kind) {
    case 'cavity':
    case 'decay': {
      const hollow = hollowOf(defect, tree, settings);
      const wall = hollow && thinnestWall(hollow);
      // Nothing was read of it.
      if (!wall || (wall.low === 0 && wall.high === Number.POSITIVE_INFINITY)) return undefined;
      const mark = settings.limit('wall-share').value;
      const isThin = wall.high < mark * hollow.outer.diameter.low;
      const maybeThin = wall.low < mark * hollow.outer.diameter.high;
      return ['stem decay', isThin ? (isSplit ? 3 : 2) : 1, maybeThin ? (isSplit ? 3 : 2) : 1];
    }
    case 'crack': {
      const { runs } = defect;
      if (runs?.course === 'through') return ['crack', 3, 3];
      const touches = runs?.soil || isDecayed;
      return [
        'crack',
        touches ? 2 : 1,
        runs?.course === undefined ? 3 : touches || beside.length > 0 ? 2 : 1,
      ];
    }
    case 'canker':
    case 'wound':
    case 'loose bark': {
      const share = circumferenceShare(defect, context);
      if (!share) return undefined;
      const { moderate, high } = CODE_MARKS.circumference;
      const [isHigh, maybeHigh] = over(share, high);
      const [isModerate, maybeModerate] = over(share, moderate);
      const top = isDecayed || isCracked ? 3 : 2;
      return ['circumference', isHigh ? top : isModerate ? 1 : 0, maybeHigh ? top : maybeModerate ? 1 : 0];
    }
    case 'girdling root': {
      const share = circumferenceShare(defect, context);
      if (!share) return undefined;
      const [isHigh, maybeHigh] = over(share, CODE_MARKS.circumference.high);
      return ['girdling root', isHigh ? 2 : 1, maybeHigh ? 2 : 1];
    }
    case 'root loss':
    case 'root decay': {
      const share = shareOf(defect, 'roots', settings);
      if (!share) return undefined;
      const [isHigh, maybeHigh] = over(share, CODE_MARKS.roots);
      const top = kind === 'root decay' ? 3 : 2;
      return ['roots', isHigh ? top : 1, maybeHigh ? top : 1];
    }
    case 'dead wood': {
      const share = shareOf(defect, 'crown', settings);
      if (!share) return undefined;
      const mark = isBroadleaved(tree) ? CODE_MARKS.crown.broadleaved : CODE_MARKS.crown.needleleaved;
      const [isHigh, maybeHigh] = over(share, mark);
      return ['crown', isHigh ? 2 : 1, maybeHigh ? 2 : 1];
    }
    default:
      return undefined;
  }
  /** On the same stem or limb, at heights that may meet. */
  function isAt(one: Sign, other: Sign): boolean {
    if (!one.defect || !other.defect) return one.part === other.part;
    const part = ({ part }: Defect) => part?.value ?? 'trunk';
    if (part(one.defect) !== part(other.defect)) return false;
    const [a, b] = [spanOf(one.defect), spanOf(other.defect)];
    return !a || !b || (a.low <= b.high && b.low <= a.high);
  }
  function spanOf({ height, length, opening }: Defect): Interval | undefined {
    if (!height) return undefined;
    const { low, high } = valuesOf(height.value, settings);
    const long = length ?? opening?.tall;
    const tall = long ? valuesOf(long.value, settings).high : 0;
    // Nobody says whether a height is that of the middle or of an end.
    return { low: low - tall, high: high + tall };
  }
}

const GRAVE: ReadonlySet<Sign['kind']> = new Set(['crack', 'hanger']);

const isExtensiveDecay = ({ kind, standing }: Sign): boolean =>
  (kind === 'cavity' || kind === 'decay') && standing === 'exceeds';
