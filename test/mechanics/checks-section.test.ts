import { expect, it } from 'vitest';
import { sectionChecks } from '../published/section.ts';

it.each(sectionChecks.map(check => [check.name, check] as const))('%s', (_, check) => {
  expect(Math.abs(check.compute() - check.expected)).toBeLessThanOrEqual(check.tolerance);
});

it('names every check once', () => {
  expect(new Set(sectionChecks.map(check => check.name)).size).toBe(sectionChecks.length);
});
