/** Wood of a tree as volume and mass, from its stem diameters and its height. */

import { interval as reading } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Tree } from '../facts/types.ts';
import { type Interval, interval } from '../mechanics/interval.ts';
import { equivalentDiameter } from '../mechanics/stem.ts';
import { greenMass, stemVolume } from '../mechanics/timber.ts';
import { greenDensity } from '../practice/index.ts';

export interface Salvage {
  /** m³ of the whole stem by the form of measured trees; a hollow is not taken off. */
  readonly volume: Interval;
  /** kg, green; undefined where no density is known. */
  readonly mass: Interval | undefined;
}

/** kg/m³ of green wood with what it varies within a species; undefined where none is known. */
export function densityOf({ species }: Tree, settings: Settings): Interval | undefined {
  const known = species?.value.binomial === undefined ? undefined : greenDensity(species.value.binomial);
  if (!known) return undefined;
  const margin = settings.limit('density-margin').value;
  // A margin of all and more says nothing that a piece could be cut by.
  return margin < 1 ? interval(known.density * (1 - margin), known.density * (1 + margin)) : undefined;
}

/** Undefined where diameter or height is not written down. */
export function salvageOf(tree: Tree, settings: Settings): Salvage | undefined {
  if (tree.diameters.length === 0 || !tree.height) return undefined;
  const diameters = tree.diameters.map(({ value }) => reading(value, settings));
  const height = reading(tree.height.value, settings);
  const finite = [...diameters, height].every(({ low, high }) => low > 0 && Number.isFinite(high));
  if (!finite) return undefined;
  const volume = stemVolume(equivalentDiameter(diameters), height);
  const density = densityOf(tree, settings);
  return { volume, mass: density && greenMass(volume, density) };
}
