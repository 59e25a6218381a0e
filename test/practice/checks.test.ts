import { describe, expect, it } from 'vitest';
import { publishedChecks } from '../published/practice.ts';

describe('published values', () => {
  it.each(publishedChecks.map(check => [`${check.source.short}: ${check.name}`, check] as const))(
    '%s',
    (_, { expected, tolerance, compute }) => {
      const value = compute();
      if (tolerance === undefined) expect(value).toBe(expected);
      else expect(Math.abs((value as number) - (expected as number))).toBeLessThanOrEqual(tolerance);
    },
  );

  it('are many, and each name stands once', () => {
    expect(publishedChecks.length).toBeGreaterThanOrEqual(30);
    expect(new Set(publishedChecks.map(({ name }) => name)).size).toBe(publishedChecks.length);
  });
});
