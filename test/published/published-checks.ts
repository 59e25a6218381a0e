/** Every published value that Soundwood is checked against; a test runs them all and `npm run generate` prints them. */

import { evidenceChecks } from './evidence.ts';
import { fellingChecks } from './felling.ts';
import { groundChecks } from './ground.ts';
import { growthChecks } from './growth.ts';
import { leanChecks } from './lean.ts';
import { likelihoodChecks } from './likelihood.ts';
import { limbChecks } from './limbs.ts';
import { loadChecks } from './load.ts';
import { practiceChecks } from './practice.ts';
import type { PublishedCheck } from './published-check.ts';
import { sectionChecks } from './section.ts';
import { viewChecks } from './sight.ts';
import { windChecks } from './wind.ts';

export const publishedChecks: readonly PublishedCheck[] = [
  ...sectionChecks,
  ...loadChecks,
  ...windChecks,
  ...leanChecks,
  ...groundChecks,
  ...viewChecks,
  ...practiceChecks,
  ...evidenceChecks,
  ...growthChecks,
  ...fellingChecks,
  ...likelihoodChecks,
  ...limbChecks,
];

/** Whether a computed value agrees with the published one. */
export function agrees(
  { expected, tolerance }: PublishedCheck,
  computed: ReturnType<PublishedCheck['compute']>,
): boolean {
  return typeof expected === 'number' && typeof computed === 'number' && tolerance !== undefined
    ? Math.abs(computed - expected) <= tolerance
    : computed === expected;
}
