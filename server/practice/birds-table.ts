import type { BirdGenus } from './birds.ts';
export const birdGenera: readonly BirdGenus[] = [
  { genus: 'Colaptes', common: 'flickers', group: 'woodpecker', cavity: true },
];
