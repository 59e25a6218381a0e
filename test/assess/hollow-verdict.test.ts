import { describe, expect, test } from 'vitest';
import { formulasOf, formulaWords, hollowVerdict } from '../../server/assess/hollow-verdict.ts';
import { strengthOf } from '../../server/assess/strength.ts';
import { dayContext } from './inventory.ts';

const hollow = (...fields: readonly string[]) => {
  const context = dayContext(
    `tree 1\n  inspection 2026-05-04 from rope\n  defect A decay\n${fields.map(field => `    ${field}\n`).join('')}`,
  );
  return { context, verdict: hollowVerdict(context.tree.defects[0]!, context) };
};
const formulas = (...fields: readonly string[]) => {
  const { context } = hollow(...fields);
  const [defect] = strengthOf(context.tree, context.settings).defects;
  return Object.fromEntries(formulasOf(defect!, context).map(one => [one.name, one]));
};

describe('a ring of 30 in with 6 in of sound wall: d/D 0.6', () => {
  const found = formulas('diameter 30 in', 'bark 0 in', 'wall 6 in');

  test('is judged by its section, by Wagener’s d³/D³ and by t/R', () => {
    expect(Object.keys(found).sort()).toEqual(['by its section', 'd³/D³', 't/R']);
    expect(found['by its section']!.judged.value.high).toBeCloseTo(0.6 ** 4, 6);
    expect(found['d³/D³']!.judged.value.high).toBeCloseTo(0.6 ** 3, 9);
    expect(found['t/R']!.judged.value.low).toBeCloseTo(6 / 15, 9);
  });

  test('is within all of their limits', () => {
    for (const { standing } of Object.values(found)) expect(standing).toBe('within');
    expect(hollow('diameter 30 in', 'bark 0 in', 'wall 6 in').verdict.standing).toBe('within');
  });
});

// d/D 0.8: 41 % of the section, 51 % of d³/D³, t/R 0.2. d/D 0.7: 24 %, 34 %, 0.3: the section and d³/D³ decide.
test.each([
  ['wall 3 in', 'exceeds'],
  ['wall 4.5 in', 'exceeds'],
  ['wall 4.7 in', 'within'],
  ['wall 3..6 in', 'may exceed'],
  ['wall > 3 in', 'may exceed'],
  ['wall unseen', 'not judged'],
] as const)('the strictest decides: %s is %s', (wall, standing) => {
  expect(hollow('diameter 30 in', 'bark 0 in', wall).verdict.standing).toBe(standing);
});

test('of an open hollow the loss with its opening counts, and t/R does not', () => {
  const open = formulas('diameter 30 in', 'bark 0 in', 'opening 9.42478 in wide', 'depth 20 in');
  // A tenth of the girth: (20³ + 0.1 (30³ − 20³)) / 30³, Smiley and Fraedrich 1992.
  expect(open['(d³ + Ro(D³ − d³))/D³']!.judged.value.low).toBeCloseTo(9900 / 27_000, 6);
  expect(Object.keys(open)).not.toContain('t/R');
  expect(formulaWords(open['(d³ + Ro(D³ − d³))/D³']!)).toContain('over the limit of 33 % (Wagener 1963)');
});

test('without a diameter, or without any reading, nothing passes for sound', () => {
  const missing = hollow('wall 6 in').verdict;
  expect(missing).toMatchObject({
    standing: 'not judged',
    why: 'the diameter of the stem or limb there was not measured',
  });
  expect(missing.settle).toContain('Measure or estimate the diameter');
  expect(hollow('diameter 30 in').verdict).toMatchObject({
    standing: 'not judged',
    why: 'neither a wall nor a depth was measured',
  });
});
