/**
 * Birds that nest in trees, and the distance to keep from their nests. Names are looked up by genus. An unknown bird is
 * treated as a raptor, which is stricter than a songbird.
 */

import { type BirdGenus, type BirdGroup, birdGenera } from './birds-table.ts';
import type { LimitName } from './limits.ts';

const byGenus = new Map(birdGenera.map(bird => [bird.genus, bird]));

/** The genus of a bird named `Colaptes auratus`, or `Colaptes` alone. */
export const lookupBird = (name: string): BirdGenus | undefined =>
  byGenus.get(name.trim().split(/\s+/)[0] ?? '');

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

/** The limit on the distance between work and an active nest of this bird. */
export function nestBuffer(name: string | undefined): LimitName {
  const bird = name === undefined ? undefined : lookupBird(name);
  if (bird === undefined) return 'nest-buffer-raptor';
  return /^Buteo\s+swainsoni\b/.test(name!.trim()) ? 'nest-buffer-swainsons-hawk' : bufferOf[bird.group];
}

/** Whether a nesting season of eagles applies; also for an unknown bird. */
export function keepsEagleSeason(name: string | undefined): boolean {
  const group = name === undefined ? undefined : lookupBird(name)?.group;
  return group === undefined || group === 'eagle';
}

/** Whether the bird is a bird of prey or an owl; undefined for an unknown bird. */
export function isBirdOfPrey(name: string | undefined): boolean | undefined {
  const group = name === undefined ? undefined : lookupBird(name)?.group;
  return group && (group === 'raptor' || group === 'eagle' || group === 'owl');
}

/** Whether the nesting season of birds of prey applies; also for an unknown bird. */
export const keepsRaptorSeason = (name: string | undefined): boolean => isBirdOfPrey(name) ?? true;

/** Whether the bird breeds in colonies; undefined for an unknown bird. */
export function breedsInColonies(name: string | undefined): boolean | undefined {
  const bird = name === undefined ? undefined : lookupBird(name);
  return bird && (bird.group === 'heron' || /^Corvus( frugilegus\b|$)/.test(name!.trim()));
}
