/** The wind that a tree stands in: the design wind of its site, exposure, hill and stated factor. */

import { exact, hull, type Interval, interval } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Site, Tree } from '../facts/types.ts';
import { gustOverMean, speedUps } from '../mechanics/gusts.ts';
import type { Exposure, WindSite } from '../mechanics/wind.ts';
import { hillConstants } from '../practice/hills.ts';
import type { WeakGround } from '../practice/weak-ground.ts';

/** Moment ratios differ little between editions. */
const EDITION = 'ASCE 7-16';

const EXPOSURES: readonly Exposure[] = ['B', 'C', 'D'];

type StatedHill = NonNullable<Site['hill']>;

/** That of the tree, else that of the site. */
const hillOf = (tree: Pick<Tree, 'hill'>, site: Site | undefined): StatedHill | undefined => {
  const stated = tree.hill ?? site?.hill;
  return stated?.shape ? stated : undefined;
};

/** The exposures and speed-ups that the records allow; every exposure if none is stated. */
export const windsOf = (
  tree: Pick<Tree, 'hill'>,
  site: Site | undefined,
  settings: Settings,
): readonly WindSite[] => windsWith(settings, site?.wind?.exposure, hillOf(tree, site));

const flat = new Map<Exposure | undefined, readonly WindSite[]>(
  [undefined, ...EXPOSURES].map(stated => [
    stated,
    (stated ? [stated] : EXPOSURES).map(exposure => ({ exposure, edition: EDITION, hill: undefined })),
  ]),
);

function windsWith(
  settings: Settings,
  exposure: Exposure | undefined,
  hill: StatedHill | undefined,
): readonly WindSite[] {
  const onFlat = flat.get(exposure)!;
  return hill ? overHill(hill, exposure, settings) : onFlat;
}

const overHill = memo(
  (hill: StatedHill, exposure: Exposure | undefined, settings: Settings): readonly WindSite[] => {
    const height = valuesOf(hill.high!.value, settings);
    const halfLength = valuesOf(hill.halfLength!.value, settings);
    const distance = hill.distance ? valuesOf(hill.distance.value, settings) : exact(0);
    const isRead = height.low > 0 && halfLength.low > 0 && Number.isFinite(height.high);
    return flat.get(exposure)!.flatMap(site => {
      const of = hillConstants(hill.shape!, hill.side ?? 'upwind', site.exposure);
      // Of a hill that nobody measured the steepest is assumed, from none to the crest.
      const ups = isRead
        ? speedUps({ height, halfLength, distance }, of)
        : [
            { rise: 0, fading: 0 },
            { rise: of.steepness * of.steepest, fading: 0 },
          ];
      return ups.length === 0 ? [site] : ups.map(up => ({ ...site, hill: up }));
    });
  },
);

export interface DesignWind {
  /** 3-second gust in open terrain, m/s. */
  readonly gust: Interval;
  /** What the arborist adds for the place of this tree, at least 1. */
  readonly factor: Interval;
  /** Gust over the speed as it is stated. */
  readonly overStated: number;
  readonly winds: readonly WindSite[];
  readonly weak: readonly WeakGround[];
}

/** Undefined without a wind speed on record. */
export function designWind(tree: Tree, site: Site | undefined, settings: Settings): DesignWind | undefined {
  if (!site?.wind) return undefined;
  const { speed, averaging } = site.wind;
  const stated = valuesOf(speed.value, settings);
  if (!(stated.low > 0) || !Number.isFinite(stated.high)) return undefined;
  const isMean = averaging === 'ten-minute mean' || averaging === 'hourly mean';
  const overStated = isMean ? gustOverMean() : 1;
  const winds = windsOf(tree, site, settings);
  return {
    gust: interval(stated.low * overStated, stated.high * overStated),
    factor: windFactor(tree, site, settings),
    overStated,
    winds,
    weak: [
      ...(isMean ? (['mean wind'] as const) : []),
      ...(winds.some(({ hill }) => hill) ? (['hill'] as const) : []),
    ],
  };
}

/** Shelter is not credited. */
function windFactor(tree: Tree, site: Site, settings: Settings): Interval {
  const stated = (tree.windFactor ?? site.windFactor)?.factor;
  if (!stated) return exact(1);
  const read = valuesOf(stated.value, settings);
  return hull(exact(Math.max(1, read.low)), exact(Math.max(1, read.high)));
}
