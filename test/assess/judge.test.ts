import { describe, expect, test } from 'vitest';
import { judge, showInterval, showLimit, showValue, strictest } from '../../server/assess/judge.ts';
import { exact, interval } from '../../server/base/interval.ts';
import { treeIn } from './inventory.ts';

const { settings } = treeIn('tree 1\n');

describe('an interval against a limit', () => {
  test.each([
    [0.34, 0.4, 'exceeds'],
    [0.2, 0.4, 'may exceed'],
    [0.2, 0.33, 'within'],
    [0.33, 0.33, 'within'],
    [0.33, 0.34, 'may exceed'],
    [0, Number.POSITIVE_INFINITY, 'may exceed'],
  ] as const)('at most 33 %%: %f to %f %s', (low, high, standing) => {
    expect(judge(interval(low, high), 'strength-loss', settings).standing).toBe(standing);
  });

  test.each([
    [0.1, 0.29, 'exceeds'],
    [0.1, 0.3, 'may exceed'],
    [0.3, 0.5, 'within'],
    [0.29, 0.5, 'may exceed'],
  ] as const)('at least 0.30: %f to %f %s', (low, high, standing) => {
    expect(judge(interval(low, high), 'wall-ratio', settings).standing).toBe(standing);
  });

  test('the rounding of decimals is no excess', () => {
    expect(0.1 + 0.15).not.toBe(0.35 - 0.1);
    expect(judge(exact(0.1 + 0.2 - 0.05), 'dose', settings).standing).toBe('within');
    expect(judge(exact(0.2500001), 'dose', settings).standing).toBe('exceeds');
  });

  test('the smallest limit decides', () => {
    expect(strictest(['dose-mature', 'dose-stressed'], settings)).toBe('dose-stressed');
    expect(strictest(['dose-stressed', 'dose-mature'], settings)).toBe('dose-stressed');
  });
});

describe('figures for people', () => {
  test('as many decimals as tell the figure from its limit', () => {
    expect(showValue(judge(exact(0.3301), 'strength-loss', settings))).toBe('33.1 %');
    expect(showValue(judge(exact(0.343), 'strength-loss', settings))).toBe('34.3 %');
    expect(showValue(judge(exact(0.2996), 'wall-ratio', settings))).toBe('0.29');
    expect(showValue(judge(interval(0.27, 0.4), 'wall-ratio', settings))).toBe('0.27..0.4');
  });

  test('open ends', () => {
    expect(showInterval(interval(0.4, Number.POSITIVE_INFINITY), { unit: '%' }, 1)).toBe('at least 40 %');
  });

  test('the limit names its source, or the practice that sets it', () => {
    expect(showLimit(judge(exact(0), 'strength-loss', settings))).toBe('the limit of 33 % (Wagener 1963)');
    const office = treeIn(
      'practice "Office limits"\n  limit strength-loss 30 %\n    because "busy play area"\n\ntree 1\n',
    );
    const judged = judge(exact(0.32), 'strength-loss', office.settings);
    expect(judged.standing).toBe('exceeds');
    expect(showLimit(judged)).toBe('the limit of 30 % (Office limits)');
  });
});
