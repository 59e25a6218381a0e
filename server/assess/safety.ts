/** How many times the moment of the site's design wind a section bears: a second figure, after the stress ratio. */

import { interval as reading } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Site, Tree } from '../facts/types.ts';
import { exact, hull, type Interval, interval } from '../mechanics/interval.ts';
import { sectionModulusBounds } from '../mechanics/uncertain-section.ts';
import { safetyFactor, windMomentBounds } from '../mechanics/wind.ts';
import { type Wood, wood } from '../practice/index.ts';
import { crownOf, exposuresOf, loadedDefects } from './load.ts';
import { type DefectStrength, lossAt, type Strength } from './strength.ts';

export interface SafetyFactors {
  readonly wood: Wood;
  /** m/s, of the site. */
  readonly windSpeed: Interval;
  readonly byDefect: readonly { readonly defect: DefectStrength; readonly factor: Interval }[];
}

/**
 * MOR of green wood · Z / M at every hollow that the crown bends, under the crown as it stands. Undefined where
 * the species is not in the wood table, or wind speed, crown or section are not written down.
 */
export function safetyFactorsOf(
  tree: Tree,
  strength: Strength,
  site: Site | undefined,
  settings: Settings,
): SafetyFactors | undefined {
  const { binomial } = tree.species?.value ?? {};
  const row = binomial === undefined ? undefined : wood(binomial);
  const crown = crownOf(tree, settings);
  if (!row || !site?.wind || !crown) return undefined;
  const windSpeed = reading(site.wind.speed.value, settings);
  if (!Number.isFinite(windSpeed.high) || !(windSpeed.low > 0)) return undefined;
  const byDefect = loadedDefects(tree, strength, crown.top.low).map(defect => {
    const moment = hull(
      ...exposuresOf(site).map(wind => windMomentBounds([crown], defect.height, windSpeed, wind)),
    );
    const modulus = modulusAt(defect, strength);
    return { defect, factor: safetyFactor(exact(row.modulusOfRupture), modulus, moment) };
  });
  return byDefect.length > 0 ? { wood: row, windSpeed, byDefect } : undefined;
}

/** Z of the section, m³, less what a group of joined cavities may take from it beyond its own void. */
function modulusAt(defect: DefectStrength, strength: Strength): Interval {
  const { outer, cavity } = defect.hollow;
  const own = sectionModulusBounds({ outer, cavities: [cavity] });
  const { strengthLoss } = defect.figures;
  const loss = lossAt(defect, strength);
  const left = (group: number, alone: number) => (alone < 1 ? Math.min(1, (1 - group) / (1 - alone)) : 0);
  const low = own.low * left(loss.high, strengthLoss.high);
  return interval(low, Math.max(low, own.high * left(loss.low, strengthLoss.low)));
}
