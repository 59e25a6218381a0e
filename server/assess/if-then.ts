/**
 * What to do, by the reading that is still to be taken: the reduction that each value of a wall or a void asks for, and
 * the foliage that a screen cannot do without.
 */

import { clip, type Interval, interval } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, Site, Tree } from '../facts/types.ts';
import type { OffsettingReduction } from '../mechanics/offsetting.ts';
import { sightHeight } from '../mechanics/sight.ts';
import { type Hollow, isUnread } from './hollows.ts';
import { showNumber } from './judge.ts';
import { isOnLimb, offsetOf } from './load.ts';
import { lengthDown, lengthUp } from './prescriptions.ts';
import { DEPTH, lengthIn, type ReadingKind, WALL } from './settling-reading.ts';
import { sightedViews } from './sightlines.ts';
import { signsOf } from './signs.ts';
import type { SignContext } from './standing.ts';
import { strengthOf } from './strength.ts';

interface IfThenRow {
  /** The reading, m; all beyond it, too, if it is the last or the first of its kind. */
  readonly value: number;
  /** `10 in`, `12 in or more`. */
  readonly reading: string;
  /** Share taken off crown length and spread; 1 if nothing less is enough. */
  readonly reduction: number;
  readonly reach: OffsettingReduction['reach'];
  /** `take 19 % off crown length and spread`. */
  readonly action: string;
}

export interface IfThen {
  readonly defect: Defect;
  /** `depth from the opening`, `sound wall all round`. */
  readonly what: string;
  /** From the least to the most that is asked for. */
  readonly rows: readonly IfThenRow[];
}

/** Values tried between the ends of the reading. */
const STEPS = 4;
/** A reading closer than this many tenths of its unit is no longer open. */
const OPEN_TENTHS = 3;
/** From this many units between two values on they are whole. */
const WHOLE = 1;

/** For every hollow of the stem that is not within its limits and whose reading is open; of this hollow alone. */
export const ifThens = memo((tree: Tree, site: Site | undefined, settings: Settings): readonly IfThen[] => {
  const context = { tree, site, settings };
  const settled = signsOf(context).filter(({ standing }) => standing === 'within');
  return strengthOf(tree, settings).defects.flatMap(({ hollow, height }) => {
    const { defect } = hollow;
    const isJoined = tree.joined.some(({ defects }) =>
      defects.some(({ value }) => value === defect.id.value),
    );
    if (!height || isJoined || isOnLimb(tree, defect) || settled.some(sign => sign.defect === defect))
      return [];
    return tableOf(hollow, context) ?? [];
  });
});

function tableOf(hollow: Hollow, context: SignContext): IfThen | undefined {
  const { defect, read, unit, wood } = hollow;
  const { settings } = context;
  const kind = read === 'depth' ? DEPTH : WALL;
  if (read === 'walls' || defect.walls.length > 1) return undefined;
  const stated = kind === DEPTH ? defect.depth : defect.walls[0]?.thickness;
  const most = kind === DEPTH ? wood.low : wood.low / 2;
  const values = stated && !isUnread(hollow) ? valuesOf(stated.value, settings) : interval(0, most);
  const range = clip(values, interval(0, most));
  if (range.high - range.low < (OPEN_TENTHS / 10) * unit.factor) return undefined;
  const rows = ladder(range, unit.factor)
    .sort((a, b) => (kind.better === 'more' ? b - a : a - b))
    .flatMap(value => {
      const after = offsetWith(hollow, kind, value, context);
      return after ? [{ value, after }] : [];
    });
  const shown = joinedRows(rows, hollow, kind);
  if (shown.length < 2) return undefined;
  return {
    defect,
    what: kind === DEPTH ? 'depth from the opening' : 'sound wall all round',
    rows: shown,
  };
}

/** In steps that read well: whole units where there is room, else tenths. */
function ladder({ low, high }: Interval, unit: number): number[] {
  const step = (high - low) / STEPS;
  const grid = step / unit >= WHOLE ? unit : unit / 10;
  const values = Array.from({ length: STEPS + 1 }, (_, i) => Math.round((low + i * step) / grid) * grid);
  return [...new Set(values.filter(value => value >= low - grid / 2 && value > 0 && value <= high + 1e-9))];
}

/** The reduction that offsets this hollow with this reading. */
function offsetWith(
  { defect }: Hollow,
  kind: ReadingKind,
  value: number,
  { tree, site, settings }: SignContext,
): OffsettingReduction | undefined {
  const hollow = strengthOf(tree, settings).defects.find(one => one.hollow.defect === defect)!.hollow;
  const after = { ...tree, defects: [kind.with(hollow, value)], joined: [] };
  const strength = strengthOf(after, settings);
  const [found] = strength.defects;
  if (!found || found.figures.contradictions.length > 0) return undefined;
  return offsetOf(after, strength, site, settings);
}

/** Rows that ask for nothing, or for more than pruning can give, become one. */
function joinedRows(
  rows: readonly { readonly value: number; readonly after: OffsettingReduction }[],
  hollow: Hollow,
  { better }: ReadingKind,
): readonly IfThenRow[] {
  const beyond = better === 'more' ? 'less' : 'more';
  const isOut = ({ after }: (typeof rows)[number]) => after.reach === 'out of reach';
  const isNone = ({ after }: (typeof rows)[number]) => after.reduction === 0;
  const firstOut = rows.findIndex(isOut);
  const lastNone = rows.findLastIndex(isNone);
  return rows.flatMap((row, i): readonly IfThenRow[] => {
    if ((firstOut >= 0 && i > firstOut) || i < lastNone) return [];
    const { value, after } = row;
    const length = lengthIn(value, hollow.unit, hollow);
    const tail = i === firstOut ? ` or ${beyond}` : i === lastNone ? ` or ${better}` : '';
    return [{ value, reading: `${length}${tail}`, ...actionFor(after) }];
  });
}

const THEN: Readonly<Record<OffsettingReduction['reach'], string>> = {
  'one season': '',
  staged: ', in stages',
  'perhaps out of reach': ', perhaps more than pruning can achieve',
  'out of reach': '',
};

function actionFor({
  reduction,
  reach,
}: OffsettingReduction): Pick<IfThenRow, 'reduction' | 'reach' | 'action'> {
  const share = showNumber(Math.ceil(reduction * 100 - 1e-6) / 100, { unit: '%' }, 0);
  return {
    reduction,
    reach,
    action:
      reach === 'out of reach'
        ? 'no amount of pruning is enough'
        : reduction === 0
          ? 'nothing to take'
          : `take ${share} off crown length and spread${THEN[reach]}`,
  };
}

/** `depth from the opening of 8 in: take 12 %; …`, one sentence. */
export const ifThenWords = ({ defect, what, rows }: IfThen): string =>
  `${defect.id.value} alone, by its ${what}: ${rows.map(({ reading, action }) => `${reading}, ${action}`).join('; ')}.`;

/** The foliage that hides what a view is to hide. */
export interface ScreenBand {
  readonly name: string;
  /** m above ground at the stem. */
  readonly band: Interval;
  readonly words: string;
}

/** At the stem, over all sight lines that the readings allow. */
export const screenBands = (tree: Tree, settings: Settings): readonly ScreenBand[] =>
  tree.views.length === 0
    ? []
    : sightedViews(tree, settings).flatMap(({ view, wish, lines }): readonly ScreenBand[] => {
        if (wish !== 'hide') return [];
        const { eye, distance, beyond, bottom, top } = lines;
        const at = (object: number): readonly number[] =>
          [eye.low, eye.high].flatMap(e =>
            [distance.low, distance.high].flatMap(d =>
              [beyond.low, beyond.high].map(b =>
                sightHeight({ eye: e, distance: d, beyond: b, bottom: bottom.low, top: top.high }, object),
              ),
            ),
          );
        const band = interval(Math.max(0, Math.min(...at(bottom.low))), Math.max(0, ...at(top.high)));
        const like = tree.height?.value ?? view.eye!.value;
        return [
          {
            name: view.name.value,
            band,
            words: `foliage between ${lengthDown(band.low, like)} and ${lengthUp(band.high, like)} must stay; the rest is free`,
          },
        ];
      });
