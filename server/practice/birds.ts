/**
 * Birds whose nests turn up in trees, grouped by the distance they are given. A bird that is not here is
 * treated as a raptor, which is the stricter.
 */

import { birdGenera } from './birds-table.ts';
import type { LimitName } from './limits.ts';

export const BIRD_GROUPS = [
  'passerine',
  'raptor',
  'eagle',
  'owl',
  'woodpecker',
  'hummingbird',
  'dove',
  'heron',
  'waterfowl',
  'swift',
  'cuckoo',
  'parrot',
  'kingfisher',
  'gamebird',
] as const;
export type BirdGroup = (typeof BIRD_GROUPS)[number];

export interface BirdGenus {
  readonly genus: string;
  readonly common: string;
  readonly group: BirdGroup;
  /** Nests in holes of trees, so that cavity work finds them. */
  readonly cavity: boolean;
}

const byGenus = new Map(birdGenera.map(bird => [bird.genus, bird]));

/** The genus of a bird's botanical-style name: `Colaptes auratus`, or `Colaptes` alone. */
export const lookupBird = (name: string): BirdGenus | undefined =>
  byGenus.get(name.trim().split(/\s+/)[0] ?? '');

const bufferByGroup: Readonly<Partial<Record<BirdGroup, LimitName>>> = {
  raptor: 'nest-buffer-raptor',
  owl: 'nest-buffer-raptor',
  eagle: 'nest-buffer-eagle',
  heron: 'nest-buffer-colony',
};

/** The limit that says how far work stays from a nest of this bird in use; of an unknown one a raptor's. */
export function nestBuffer(name: string | undefined): LimitName {
  if (name !== undefined && /^Buteo swainsoni\b/.test(name)) return 'nest-buffer-swainsons-hawk';
  const bird = name === undefined ? undefined : lookupBird(name);
  return bird ? (bufferByGroup[bird.group] ?? 'nest-buffer-passerine') : 'nest-buffer-raptor';
}

/** Whether the raptors' season holds for this bird; for an unknown one it does. */
export const keepsRaptorSeason = (name: string | undefined): boolean =>
  nestBuffer(name) !== 'nest-buffer-passerine' && lookupBird(name ?? '')?.group !== 'heron';

export { birdGenera };
