import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { lengthDigits, lossText, numberText, ratioText, shareText } from '../../server/base/figures.ts';
import { massText, volumeText } from '../../server/show/figures.ts';

describe('intervals for people', () => {
  test.each([
    [{ low: 0.4237, high: 0.5682 }, '42..57 %'],
    [{ low: 0.41833, high: 0.43316 }, '41.8..43.4 %'],
    [{ low: 0, high: 1 }, '0..100 %'],
    [{ low: 0.25, high: 0.25 }, '25 %'],
    // Between two digits the upper one.
    [{ low: 0.66645, high: 0.66645 }, '66.7 %'],
  ])('shares %o', (value, text) => {
    expect(shareText(value)).toBe(text);
  });

  test.each([
    [{ low: 0.966, high: 0.99998 }, '0.96..1.00'],
    [{ low: 1.7349, high: Number.POSITIVE_INFINITY }, 'at least 1.73'],
    [{ low: 1, high: 1 }, '1.00'],
    [{ low: 0, high: 13.547 }, 'at most 13.6'],
    [{ low: 185.714, high: 185.714 }, '186'],
  ])('ratios %o', (value, text) => {
    expect(ratioText(value)).toBe(text);
  });

  test.each([
    [{ low: 0.34, high: 0.48 }, '34..48 %'],
    [{ low: 0.3427, high: 1 }, 'at least 34 %'],
    [{ low: 0, high: 0.1234 }, 'at most 13 %'],
    [{ low: 0, high: 1 }, 'not known'],
    [{ low: 1, high: 1 }, '100 %'],
    [{ low: 0, high: 0 }, '0 %'],
  ])('losses %o', (value, text) => {
    expect(lossText(value)).toBe(text);
  });

  test.each([
    ['in', 18.4621, 1],
    ['ft', 26.25, 1],
    ['ft', 729.6, 0],
    ['mm', 50.8, 0],
    ['m', 2.128, 2],
    ['m', 8.128, 1],
    ['m', 23.4, 1],
  ])('lengths as a tape shows them: %s %d', (symbol, size, digits) => {
    expect(lengthDigits({ symbol }, size)).toBe(digits);
  });

  test('volumes and masses to two digits, in the units of the writer', () => {
    expect(volumeText({ low: 4.1, high: 5.95 }, 'imperial')).toBe('140..220 ft³');
    expect(volumeText({ low: 4.13, high: 5.95 }, 'metric')).toBe('4.1..6 m³');
    expect(massText({ low: 260, high: 541 }, 'imperial')).toBe('500..1200 lb');
    expect(massText({ low: 264, high: 541 }, 'metric')).toBe('260..550 kg');
  });

  it('what is shown holds what was computed', () => {
    const ends = fc.tuple(
      fc.double({ min: 0, max: 10, noNaN: true }),
      fc.double({ min: 0, max: 10, noNaN: true }),
    );
    fc.assert(
      fc.property(ends, fc.integer({ min: 0, max: 3 }), ([a, b], digits) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)];
        const shown = numberText({ low, high }, digits).split('..').map(Number);
        expect(shown.at(-1)!).toBeGreaterThanOrEqual(high - 1e-5);
        if (shown.length === 2) expect(shown[0]!).toBeLessThanOrEqual(low + 1e-5);
      }),
    );
  });
});
