import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { damageEveryLine, readAll } from './damage.ts';
import { SAMPLE } from './sample.ts';

const SAMPLES = 'samples/fernhollow';
const inventories = readdirSync(SAMPLES, { recursive: true, encoding: 'utf8' })
  .filter(name => name.endsWith('.wood'))
  .map(name => [name, readFileSync(join(SAMPLES, name), 'utf8')] as const);

describe('one bad line gives at most one mistake and spoils nothing else', () => {
  test.each([['the small sample', SAMPLE] as const, ...inventories])('%s', (_, text) => {
    expect(readAll(text).mistakes).toEqual([]);
    const { cases, silent, failures } = damageEveryLine(text);
    expect(failures.slice(0, 5)).toEqual([]);
    // Some spoilt lines are right by chance (a dropped optional word); most must be noticed.
    expect(cases).toBeGreaterThan(10);
    expect(silent / cases).toBeLessThan(0.12);
  });
});
