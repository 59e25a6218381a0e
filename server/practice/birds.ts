/**
 * Birds whose nests turn up in trees, and the distance that work keeps from them. A bird that is not in the
 * table is treated as a raptor, which is stricter than a songbird; names are looked up by genus.
 */

import { type BirdGenus, type BirdGroup, birdGenera } from './birds-table.ts';
import type { LimitName } from './limits.ts';

const byGenus = new Map(birdGenera.map(bird => [bird.genus, bird]));

/** The genus of a bird named `Colaptes auratus`, or `Colaptes` alone. */
export const lookupBird = (name: string): BirdGenus | undefined =>
  byGenus.get(name.trim().split(/\s+/)[0] ?? '');

export const birdGenusNames: readonly string[] = birdGenera.map(({ genus }) => genus);

const bufferOf: Readonly<Record<BirdGroup, LimitName>> = {
  passerine: 'nest-buffer-passerine',
  raptor: 'nest-buffer-raptor',
  eagle: 'nest-buffer-eagle',
  owl: 'nest-buffer-raptor',
  woodpecker: 'nest-buffer-passerine',
  hummingbird: 'nest-buffer-passerine',
  dove: 'nest-buffer-passerine',
  heron: 'nest-buffer-colony',
  waterfowl: 'nest-buffer-passerine',
  swift: 'nest-buffer-passerine',
  cuckoo: 'nest-buffer-passerine',
  parrot: 'nest-buffer-passerine',
  kingfisher: 'nest-buffer-passerine',
  gamebird: 'nest-buffer-passerine',
};

/** The limit that says how far work stays from a nest of this bird in use; of an unknown bird a raptor's. */
export function nestBuffer(name: string | undefined): LimitName {
  const bird = name === undefined ? undefined : lookupBird(name);
  if (bird === undefined) return 'nest-buffer-raptor';
  return /^Buteo\s+swainsoni\b/.test(name!.trim()) ? 'nest-buffer-swainsons-hawk' : bufferOf[bird.group];
}

/** Whether the season of birds of prey holds for this bird; for an unknown one it does. */
export function keepsRaptorSeason(name: string | undefined): boolean {
  const group = name === undefined ? undefined : lookupBird(name)?.group;
  return group === undefined || group === 'raptor' || group === 'eagle' || group === 'owl';
}
