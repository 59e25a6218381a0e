/** What the weight of a leaning tree does to its stem, sound, at the base: in the design wind and by itself. */

import { exact, interval, type LimitVerdict } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Site, Tree } from '../facts/types.ts';
import { barkThickness } from '../mechanics/stem.ts';
import { barkShare } from '../practice/bark.ts';
import { lookupGenus } from '../practice/species.ts';
import { isDead } from './doses.ts';
import { NO_WEIGHT, weightDoubt } from './own-weight.ts';
import type { PartSafety } from './part-safety.ts';
import { openBecause, type Sizes, sizesOf, standingOf } from './safety.ts';
import { gravest, type SignStanding } from './standing.ts';
import {
  sectionSafety,
  stemEvidence,
  type WeightStress,
  type WindFactors,
  withLeastWood,
  withWorstReadings,
} from './stem-section.ts';

export interface LeanSafety {
  /** Share of the strength that the weight alone takes up, against its limit. */
  readonly weight: WeightStress;
  /** Undefined without a design wind. */
  readonly wind:
    | (WindFactors & {
        /** Blamed on the lean only for what it changes; not judged where the stem would fail the limit upright, too. */
        readonly standing: LimitVerdict | 'not judged';
        /** Why it is not judged. */
        readonly doubt: string | undefined;
      })
    | undefined;
  /** By the upright stem, see `StemSafety`. */
  readonly sizes: Sizes;
  /** The graver of both. */
  readonly standing: SignStanding;
  readonly part: PartSafety;
}

/**
 * With the diameter at breast height at the ground, where the moment is greatest. The reason, for the middle of a
 * sentence, where there is no figure; undefined for a tree without a lean.
 */
export const leanSafety = memo(
  (tree: Tree, site: Site | undefined, settings: Settings): LeanSafety | string | undefined => {
    if (!tree.lean) return undefined;
    if (isDead(tree)) return 'the strength of a dead tree’s wood is not known';
    const steep = weightDoubt(tree, undefined, settings);
    if (steep) return steep;
    const evidence = stemEvidence(tree, site, settings);
    const [read, ...others] = tree.diameters;
    const diameter = read && valuesOf(read.value, settings);
    if (!evidence || !diameter || others.length > 0 || !(diameter.low > 0 && Number.isFinite(diameter.high)))
      return 'the effect of its weight on the stem requires species, dbh, height and crown';
    const { most } = barkShare(tree.species!.value, lookupGenus(tree.species!.value.genus)?.leaf);
    const edge = { diameter, bark: interval(0, barkThickness(exact(diameter.low), most).high) };
    const none = exact(0);
    const section = sectionSafety(tree, evidence, edge, none, settings);
    const factors = section.factors(none);
    const weight = section.weight(none);
    const alone = section.factors(none, NO_WEIGHT);
    const atWorst = () =>
      sectionSafety(tree, withWorstReadings(evidence), withLeastWood(edge), none, settings).factors(none)!;
    const sizes = sizesOf(alone ? [alone.criticalWind] : []);
    const fallsShort = alone?.judged.standing === 'exceeds' || sizes === 'too slender';
    const doubt = fallsShort
      ? 'an upright stem would fail that too: height, diameter or crown may be wrong'
      : factors && openBecause(factors.judged, alone!.judged, atWorst);
    const standing: LimitVerdict | 'not judged' | undefined =
      factors && (doubt ? 'not judged' : standingOf(factors.judged, alone!.judged.standing));
    return {
      weight,
      wind: factors && { ...factors, standing: standing!, doubt },
      sizes,
      standing: gravest([weight, ...(standing ? [{ standing }] : [])]),
      part: {
        part: 'stem',
        subject: 'lean',
        factor: factors?.judged.value,
        criticalWind: factors?.criticalWind,
        judgedBy: factors ? 'the intact stem in the design wind, toward its lean' : 'its own weight',
        weak: [...new Set([...weight.weak, ...(factors?.weak ?? [])])],
      },
    };
  },
);
