import { expect, it } from 'vitest';
import { checksPage } from '../../server/docs/checks-reference.ts';
import { agrees, publishedChecks } from './published-checks.ts';

const named = publishedChecks.map(check => [`${check.source}: ${check.name}`, check] as const);

it.each(named)('%s', (_, check) => {
  const computed = check.compute();
  expect(agrees(check, computed), `expected ${check.expected}, computed ${computed}`).toBe(true);
});

it('are many, and each is listed once', () => {
  expect(named.length).toBeGreaterThan(150);
  expect(new Set(named.map(([name]) => name)).size).toBe(named.length);
});

it('are printed, each on a row of its own', () => {
  const printed = checksPage()
    .split('\n')
    .filter(line => line.startsWith('| '));
  // A heading and the line under it.
  expect(printed.length).toBe(named.length + 2);
});

it('disagree outside their tolerance, and where nothing was computed', () => {
  const check = { name: 'π', source: 'Archimedes', expected: 3.14, tolerance: 0.01, compute: () => 3.14 };
  expect(agrees(check, 3.149)).toBe(true);
  for (const computed of [3.16, 3.12, Number.NaN, undefined, '3.14'])
    expect(agrees(check, computed)).toBe(false);
});
