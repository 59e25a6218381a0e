/**
 * Safety factors of a stem at its hollows, and without them, in the design wind of the site: a secondary figure, after
 * the stress ratio.
 */

import { clip, exact, type Interval, interval, type LimitVerdict } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import type { Settings } from '../facts/settings.ts';
import type { Site, Tree } from '../facts/types.ts';
import { type Drag, LEAFLESS } from '../practice/drag.ts';
import { lookupGenus, lookupSpecies } from '../practice/species.ts';
import type { GreenStrength } from '../practice/wood.ts';
import { isDead } from './doses.ts';
import { type Judged, showValue } from './judge.ts';
import { loadedDefects } from './load.ts';
import { weightDoubt } from './own-weight.ts';
import type { PartSafety } from './part-safety.ts';
import type { DesignWind } from './site-wind.ts';
import { sectionSafety, stemEvidence, withLeastWood, withWorstReadings } from './stem-section.ts';
import { type DefectStrength, lossAt, type Strength } from './strength.ts';

export interface HollowSafety {
  readonly defect: DefectStrength;
  /** Safety factor with the hollow, toward the lean, against its limit; for first permanent damage, not breakage. */
  readonly judged: Judged;
  /** The same with the wind from ahead of the lean; undefined for an upright tree. */
  readonly against?: Interval;
  /** The same as `judged` without the hollow. */
  readonly sound: Interval;
  /** Gusts in open terrain at which the section first yields, with and without the hollow, m/s. */
  readonly criticalWind: Interval;
  readonly soundWind: Interval;
  /** Upper bound of the safety factor against breakage, with full strength of clear wood. For information only. */
  readonly breakingAtMost: number;
  /** `judged` without leaves, where the site asks for it. For information only. */
  readonly leafless?: Interval;
  /**
   * `exceeds` if even the favorable end violates the limit; `may exceed` if the hollow makes the limit uncertain that
   * the sound stem satisfies.
   */
  readonly standing: LimitVerdict | 'not judged';
  /** Why it is not judged. */
  readonly doubt?: string;
  /** Not judged because the readings of the tree allow a stem that surely fails, or one that would fail sound, too. */
  readonly isOpen: boolean;
  /** The wall is so thin that it may split before bending failure: the figure is an upper bound. */
  readonly maySplit: boolean;
}

export interface StemSafety {
  readonly strength: GreenStrength;
  readonly wind: DesignWind;
  readonly drag: Drag;
  readonly hollows: readonly HollowSafety[];
  /** The same as of any part. */
  readonly parts: readonly PartSafety[];
  /**
   * The sound stem would yield in wind that trees withstand, or withstand wind that no tree does: height, diameter or
   * crown may be wrong. Then there is no verdict.
   */
  readonly sizes: Sizes;
}

export type Sizes = 'fit' | 'too slender' | 'too stout';

/** Plausible gusts at which sound open-grown trees break, m/s; storms suggest about 42. */
const PLAUSIBLE: Interval = interval(30, 80);
/** Walls below this share of the radius split along the grain before bending failure (tests of one conifer). */
const SPLITS_BELOW = 0.27;

/**
 * At every hollow that carries the moment of the crown, in leaf and before any work. Undefined if the strength of the
 * wood, the wind speed, the crown or all sections are unknown.
 */
export const stemSafety = memo(
  (tree: Tree, strength: Strength, site: Site | undefined, settings: Settings): StemSafety | undefined => {
    if (strength.defects.length === 0 || !site?.wind) return undefined;
    const evidence = stemEvidence(tree, site, settings);
    if (!evidence?.wind) return undefined;
    const loaded = loadedDefects(tree, strength, evidence.crown.top.low);
    if (loaded.length === 0) return undefined;
    const isBare = site.wind.leafless && isDeciduous(tree);
    const found = loaded.map(defect => {
      const part = defect.hollow.defect.part?.value;
      const { outer } = defect.hollow;
      const isStem = tree.parts.some(({ kind, name }) => kind === 'stem' && name.value === part);
      const section = sectionSafety(tree, evidence, outer, defect.height, settings, isStem);
      const loss = clip(lossAt(defect, strength), interval(0, 1));
      const withHollow = section.factors(loss)!;
      const without = section.factors(exact(0))!;
      const atWorst = () =>
        sectionSafety(
          tree,
          withWorstReadings(evidence),
          withLeastWood(outer),
          exact(defect.height.low),
          settings,
          isStem,
        ).factors(exact(loss.high))!;
      const failing = doubtOf(tree, part, settings);
      const open = failing ? undefined : openBecause(withHollow.judged, without.judged, atWorst);
      const doubt = failing ?? open;
      const standing = standingOf(withHollow.judged, without.judged.standing);
      const { judged, against, criticalWind, breakingAtMost, weak } = withHollow;
      const { wallRatio } = defect.hollow.thumbs;
      const hollow: HollowSafety = {
        defect,
        judged,
        ...(against.high > judged.value.high ? { against } : {}),
        sound: without.judged.value,
        criticalWind,
        soundWind: without.criticalWind,
        breakingAtMost,
        ...(isBare ? { leafless: leaflessFactor(judged.value) } : {}),
        standing: open || (doubt && standing !== 'exceeds') ? 'not judged' : standing,
        ...(doubt ? { doubt } : {}),
        isOpen: open !== undefined,
        maySplit: wallRatio.applies && wallRatio.value.low < SPLITS_BELOW,
      };
      return { hollow, weak };
    });
    const hollows = found.map(({ hollow }) => hollow);
    return {
      strength: evidence.wood,
      wind: evidence.wind,
      drag: evidence.drag,
      hollows,
      parts: found.map(({ hollow: { defect, judged, criticalWind, doubt }, weak }) => ({
        part: 'stem',
        subject: defect.hollow.defect.id.value,
        factor: judged.value,
        criticalWind,
        judgedBy: 'the stem in the design wind',
        weak,
        ...(doubt ? { notJudged: doubt } : {}),
      })),
      sizes: sizesOf(hollows.map(({ soundWind }) => soundWind)),
    };
  },
);

/** Share of the strength at a hollow that the weight of a leaning tree takes up; undefined where it has no figure. */
export function weightAt(
  defect: DefectStrength,
  tree: Tree,
  strength: Strength,
  site: Site | undefined,
  settings: Settings,
): Judged | undefined {
  if (!tree.lean || doubtOf(tree, defect.hollow.defect.part?.value, settings)) return undefined;
  const evidence = stemEvidence(tree, site, settings);
  const [loaded] = evidence
    ? loadedDefects(tree, { ...strength, defects: [defect] }, evidence.crown.top.low)
    : [];
  if (!evidence || !loaded) return undefined;
  const section = sectionSafety(tree, evidence, defect.hollow.outer, loaded.height, settings);
  return section.weight(clip(lossAt(defect, strength), interval(0, 1)));
}

/** Blamed only for what the hollow, or the lean, changes. */
export function standingOf({ standing }: Judged, without: LimitVerdict): LimitVerdict {
  if (standing !== 'may exceed') return standing;
  return without === 'within' ? 'may exceed' : 'within';
}

/**
 * Why the sizes of the tree, rather than the part in question, decide the verdict; undefined if they do not. Without
 * it, reading a size less exactly would silence an error.
 * @param atWorst the same of the tree that bears least of all that the readings allow
 */
export function openBecause(
  judged: Judged,
  without: Judged,
  atWorst: () => { readonly judged: Judged },
): string | undefined {
  if (judged.standing === 'within' || without.standing === 'within') return undefined;
  if (without.standing === 'exceeds')
    return `an intact, upright stem would carry only ${showValue(without)} times the moment of the design wind: its height, diameter or crown may be wrong`;
  return judged.standing === 'may exceed' && atWorst().judged.standing === 'exceeds'
    ? 'its height, diameter and crown are not measured closely enough for a verdict on the design wind'
    : undefined;
}

function doubtOf(tree: Tree, stem: string | undefined, settings: Settings): string | undefined {
  if (isDead(tree)) return 'the strength of a dead tree’s wood is not known';
  return weightDoubt(tree, stem, settings);
}

/** Less drag, by the share that leafless crowns have of it. */
const leaflessFactor = ({ low, high }: Interval): Interval =>
  interval(low / LEAFLESS.high, high / LEAFLESS.low);

/** Broadleaved and without leaves in winter. */
function isDeciduous({ species }: Tree): boolean {
  if (!species) return false;
  const { binomial, genus } = species.value;
  const kind = (binomial === undefined ? undefined : lookupSpecies(binomial)) ?? lookupGenus(genus);
  return kind?.leaf === 'broadleaved' && kind.cycle === 'deciduous';
}

/** @param sound gusts at which the sound stem yields */
export function sizesOf(sound: readonly Interval[]): Sizes {
  if (sound.some(({ high }) => high < PLAUSIBLE.low)) return 'too slender';
  return sound.some(({ low }) => low > PLAUSIBLE.high) ? 'too stout' : 'fit';
}
