import { expect, it } from 'vitest';
import { loadChecks } from '../published/load.ts';

it.each(loadChecks.map(check => [check.name, check] as const))('%s', (_, check) => {
  expect(Math.abs(check.compute() - check.expected)).toBeLessThanOrEqual(check.tolerance);
});

it('names every check once', () => {
  expect(new Set(loadChecks.map(check => check.name)).size).toBe(loadChecks.length);
});
