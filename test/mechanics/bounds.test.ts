import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exact, interval } from '../../server/base/interval.ts';
import { bounds, extremes, widened } from '../../server/mechanics/bounds.ts';

describe('bounds', () => {
  it('of no input are the figure itself', () => {
    expect(bounds(() => 3, [])).toEqual({ low: 3, high: 3, lowAt: [], highAt: [] });
  });

  it('lie at the ends of inputs whose direction is known, and look nowhere else', () => {
    let asked = 0;
    const figure = ([a, b]: readonly number[]) => {
      asked++;
      return a! - b!;
    };
    const found = bounds(figure, [interval(1, 2), interval(10, 20)], ['rising', 'falling']);
    expect(found).toEqual({ low: -19, high: -8, lowAt: [1, 20], highAt: [2, 10] });
    expect(asked).toBe(2);
  });

  it('find a valley and a ridge inside', () => {
    const wave = ([x]: readonly number[]) => Math.sin(x!);
    const found = bounds(wave, [interval(0, 6)]);
    expect(found.high).toBeCloseTo(1, 4);
    expect(found.low).toBeCloseTo(-1, 4);
    expect(found.highAt[0]).toBeCloseTo(Math.PI / 2, 1);
  });

  it('close in on the edge of a cliff', () => {
    const saw = ([x]: readonly number[]) => (x! < 0.613 ? x! : 0.2 * x!);
    expect(bounds(saw, [interval(0, 1)]).high).toBeGreaterThan(0.605);
  });

  it('find what is there at any amount and gone at none', () => {
    const fibre = ([x, y]: readonly number[]) => (x! > 0 ? 1 : 0) - x! - y!;
    const found = bounds(fibre, [interval(0, 1), interval(0, 1)]);
    expect(found.high).toBeCloseTo(1, 4);
    expect(found.low).toBe(-1);
  });

  it('hold every value of a plane in one to six inputs', () => {
    const plane = fc.array(
      fc.record({
        slope: fc.double({ min: -5, max: 5, noNaN: true }),
        low: fc.double({ min: -3, max: 3, noNaN: true }),
        width: fc.double({ min: 0, max: 4, noNaN: true }),
      }),
      { minLength: 1, maxLength: 6 },
    );
    fc.assert(
      fc.property(plane, inputs => {
        const figure = (values: readonly number[]) =>
          values.reduce((sum, value, i) => sum + value * inputs[i]!.slope, 0);
        const ends = inputs.map(({ low, width }) => interval(low, low + width));
        const corner = (up: boolean) =>
          figure(ends.map(({ low, high }, i) => (inputs[i]!.slope > 0 === up ? high : low)));
        const found = bounds(figure, ends);
        expect(found.low).toBeCloseTo(corner(false), 3);
        expect(found.high).toBeCloseTo(corner(true), 3);
      }),
      { numRuns: 100 },
    );
  });

  it('need an end to every input', () => {
    expect(() => bounds(([x]) => x!, [interval(0, Infinity)])).toThrow(RangeError);
  });

  it('keep exact inputs exact', () => {
    expect(bounds(([x, y]) => x! * y!, [exact(2), interval(1, 3)])).toMatchObject({ low: 2, high: 6 });
  });
});

it('widened grows both ends by a share of the greater', () => {
  expect(widened(interval(1, 2), 0.1)).toEqual({ low: 0.8, high: 2.2 });
});

describe('extremes', () => {
  const looked = (figure: (at: readonly number[]) => number, count: number, jumps?: readonly boolean[]) => {
    let looks = 0;
    const counted = (at: readonly number[]) => {
      looks++;
      return figure(at);
    };
    const found = extremes(counted, count, jumps && { jumps });
    return { ...found, looks };
  };
  const none = [false, false, false, false];
  const plane = ([a, b, c, d]: readonly number[]) => a! - 2 * b! + c! * (1 + d!);

  it('take half the looks where the figure goes one way along each input and cannot jump', () => {
    const known = looked(plane, 4, none);
    const unknown = looked(plane, 4);
    expect(known).toMatchObject({ least: [0, 1, 0, 0], greatest: [1, 0, 1, 1] });
    expect(unknown).toMatchObject({ greatest: [1, 0, 1, 1] });
    expect(known.looks).toBeLessThan(unknown.looks / 2);
  });

  it('search the others, with those that go one way at their ends', () => {
    const hill = (at: readonly number[]) => plane(at) - 8 * (at[3]! - 0.3 - 0.2 * at[0]!) ** 2;
    const { greatest } = looked(hill, 4, none);
    expect(greatest.slice(0, 3)).toEqual([1, 0, 1]);
    // Where 1 + d - 8 (d - 0.5)² is greatest.
    expect(greatest[3]).toBeCloseTo(0.5 + 1 / 16, 2);
  });

  it('find a hill half way along an input that seemed to go one way', () => {
    const hill = (at: readonly number[]) =>
      plane(at) + (at[0]! > 0.4 && at[0]! < 0.6 && at[1]! < 0.2 ? 2 : 0);
    const { greatest } = looked(hill, 4, none);
    expect(hill(greatest)).toBeGreaterThan(4.5);
    expect(greatest[0]).toBeCloseTo(0.6, 1);
  });

  it('find what is there at any amount of an input and gone at none, though it seemed to go one way', () => {
    const fibre = (at: readonly number[]) => plane(at) + (at[1]! > 0 ? 1 : 0);
    expect(looked(fibre, 4, none).greatest[1]).toBeCloseTo(0, 5);
    expect(fibre(looked(fibre, 4, none).greatest)).toBeCloseTo(4, 4);
  });

  it('close in on the cliff of an input that may jump', () => {
    const cliff = (at: readonly number[]) => plane(at) + (at[2]! < 0.613 ? 4 * at[2]! : 0);
    const { greatest } = looked(cliff, 4, [false, false, true, false]);
    expect(greatest[2]).toBeGreaterThan(0.6);
    expect(greatest[2]).toBeLessThan(0.613);
  });

  it('of many inputs are found as well', () => {
    const sum = (at: readonly number[]) =>
      at.reduce((total, value, i) => total + (i % 2 === 0 ? value : -value), 0);
    const { least, greatest, looks } = looked(sum, 7, new Array(7).fill(false));
    expect(greatest).toEqual([1, 0, 1, 0, 1, 0, 1]);
    expect(least).toEqual([0, 1, 0, 1, 0, 1, 0]);
    expect(looks).toBeLessThan(looked(sum, 7).looks / 2);
  });

  it('of no input are the one place there is', () => {
    expect(extremes(() => 3, 0)).toEqual({ least: [], greatest: [] });
  });
});
