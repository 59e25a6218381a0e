import { describe, expect, test } from 'vitest';
import {
  against,
  byStanding,
  gravest,
  isBeyond,
  STANDINGS,
  type Verdict,
} from '../../server/assess/standing.ts';
import { interval } from '../../server/base/interval.ts';
import { treeIn } from './inventory.ts';

const verdicts = STANDINGS.map((standing): Verdict => ({ standing, why: standing }));
const { settings } = treeIn('tree 1\n');

describe('standings', () => {
  test('rank from within to moving; what nobody judged is never below what may exceed', () => {
    expect(STANDINGS).toEqual(['within', 'may exceed', 'not judged', 'exceeds', 'moving']);
    for (const [i, verdict] of verdicts.entries())
      expect(gravest(verdicts.slice(0, i + 1).toReversed())).toBe(verdict.standing);
    expect(verdicts.toSorted(byStanding).map(({ standing }) => standing)).toEqual(STANDINGS.toReversed());
    expect(gravest([])).toBe('within');
  });

  test('are beyond a limit neither within it nor where nobody judged', () => {
    expect(verdicts.filter(isBeyond).map(({ standing }) => standing)).toEqual([
      'may exceed',
      'exceeds',
      'moving',
    ]);
  });
});

describe('a figure against its limit', () => {
  const roots = (low: number, high: number) =>
    against(interval(low, high), 'root-loss', settings, 'of the roots');

  test('says which side of the limit it is on, and what settles it where that is open', () => {
    expect(roots(0.3, 0.4)).toMatchObject({ standing: 'exceeds' });
    expect(roots(0.3, 0.4).why).toMatch(/^30\.\.40 % of the roots, over the limit of 25 % \(/);
    expect(roots(0.2, 0.3).why).toMatch(/^20\.\.30 % of the roots, perhaps over the limit of 25 % \(/);
    expect(roots(0.2, 0.3).settle).toBe('Measure it more closely: 25 % decides.');
    expect(roots(0.1, 0.25)).toMatchObject({ standing: 'within' });
    expect(roots(0.1, 0.25).settle).toBeUndefined();
  });

  test('is under a limit that is a least value', () => {
    const wall = against(interval(0.1, 0.2), 'wall-ratio', settings, 'thinnest wall over radius');
    expect(wall.why).toMatch(/^0\.1\.\.0\.2 thinnest wall over radius, under the limit of 0\.3/);
  });
});
