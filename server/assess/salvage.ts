/** Volume and mass of the stem from diameters and height. */

import { type Interval, interval } from '../base/interval.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Tree } from '../facts/types.ts';
import { equivalentDiameter } from '../mechanics/stem.ts';
import { greenMass, stemVolume } from '../mechanics/timber.ts';
import { anyWood, type GreenDensity, greenDensity } from '../practice/density.ts';
import { isDead } from './doses.ts';

export interface Salvage {
  /** m³ of the whole stem by the form factors of measured trees, hollows not deducted. */
  readonly volume: Interval;
  /** kg, green; undefined for an unknown density. */
  readonly mass: Interval | undefined;
}

export interface WoodDensity {
  /** kg/m³ of wood with bark; that of any wood for an unknown species. */
  readonly range: Interval;
  readonly known: GreenDensity | undefined;
}

/** Density of this tree's wood: green, in a dead tree down to dry. */
export function densityOf(tree: Tree, settings: Settings): WoodDensity {
  const known = tree.species && greenDensity(tree.species.value);
  const { low: lightest, high: heaviest } = anyWood();
  if (!known) return { range: interval(lightest, heaviest), known };
  const margin = settings.limit(
    known.knownBy === 'species' ? 'density-margin' : 'density-margin-genus',
  ).value;
  const least = isDead(tree) ? known.specificGravity * WATER : known.density;
  // With a margin of 1 or more, the lightest of all woods.
  return {
    range: interval(Math.max(lightest, least * (1 - margin)), known.density * (1 + margin)),
    known,
  };
}

/** kg/m³. */
const WATER = 1000;

/** Undefined without diameter or height. */
export function salvageOf(tree: Tree, settings: Settings): Salvage | undefined {
  if (tree.diameters.length === 0 || !tree.height) return undefined;
  const diameters = tree.diameters.map(({ value }) => valuesOf(value, settings));
  const height = valuesOf(tree.height.value, settings);
  const finite = [...diameters, height].every(({ low, high }) => low > 0 && Number.isFinite(high));
  if (!finite) return undefined;
  const volume = stemVolume(equivalentDiameter(diameters), height);
  const { range, known } = densityOf(tree, settings);
  return { volume, mass: known && greenMass(volume, range) };
}
