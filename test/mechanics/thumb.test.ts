import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exact, interval } from '../../server/base/interval.ts';
import type { Cavity, OuterEdge } from '../../server/mechanics/section-types.ts';
import { openHollowLoss, rulesOfThumb } from '../../server/mechanics/thumb.ts';

type Uncertain = Cavity<ReturnType<typeof exact>>;
const stem = (diameter: number): OuterEdge<ReturnType<typeof exact>> => ({ diameter: exact(diameter) });
const walled = (...walls: readonly (readonly [bearing: number, wall: number])[]): Uncertain => ({
  walls: walls.map(([bearing, wall]) => ({ bearing, wall: exact(wall) })),
});
const ring = (wall: number): Uncertain => ({ allRound: exact(wall) });

describe('a hollow known by its wall', () => {
  // Wagener 1963, Coder 1989, Mattheck and Breloer 1994, by arithmetic.
  it.each([
    [0.3, 2.7, 0.81, 0.7],
    [0.5, 12.5, 6.25, 0.5],
    [0.6, 21.6, 12.96, 0.4],
    [0.7, 34.3, 24.01, 0.3],
    [0.8, 51.2, 40.96, 0.2],
    [0.9, 72.9, 65.61, 0.1],
  ])('d/D %f loses %f %% by the cube, %f %% by the fourth power, t/R %f', (ratio, cubic, quartic, wall) => {
    const thumbs = rulesOfThumb(stem(0.8), ring((1 - ratio) * 0.4));
    expect(thumbs.diameterRatio.low).toBeCloseTo(ratio, 12);
    expect(thumbs.cubic.value.low * 100).toBeCloseTo(cubic, 9);
    expect(thumbs.quartic.value.high * 100).toBeCloseTo(quartic, 9);
    expect(thumbs.withOpening.value).toEqual(thumbs.cubic.value);
    expect(thumbs.wallRatio.applies && thumbs.wallRatio.value.low).toBeCloseTo(wall, 12);
  });

  it('takes the mean wall around the circle, and the thinnest for t/R', () => {
    // 0.1 at N, 0.2 at E, 0.1 at S and W: means 0.15, 0.15 over the eastern quarters and 0.1 over the western half.
    const thumbs = rulesOfThumb(stem(1), walled([0, 0.1], [90, 0.2], [180, 0.1], [270, 0.1]));
    expect(thumbs.diameterRatio.low).toBeCloseTo(1 - 2 * 0.125, 12);
    expect(thumbs.wallRatio.applies && thumbs.wallRatio.value).toEqual(exact(0.2));
  });

  it('does not know the walls of a gap wider than a quarter of a turn', () => {
    // The void opposite the only reading may be at the bark, or stop at the pith.
    const thumbs = rulesOfThumb(stem(1), walled([180, 0.225]));
    const ratio = thumbs.wallRatio.applies ? thumbs.wallRatio.value : undefined;
    expect(ratio?.low).toBeCloseTo(0, 5);
    expect(ratio?.high).toBeCloseTo(0.45, 12);
    expect(thumbs.diameterRatio.high).toBeGreaterThan(0.8);
    expect(thumbs.diameterRatio.low).toBeLessThan(0.1);
  });

  it('takes t/R of an oval stem at the wall, and where it is widest for a wall told of all round', () => {
    const oval = { diameter: exact(1), crossDiameter: exact(0.6) };
    const at = (outer: OuterEdge<ReturnType<typeof exact>>, cavity: Uncertain) => {
      const { wallRatio } = rulesOfThumb(outer, cavity);
      return wallRatio.applies && wallRatio.value;
    };
    const four = walled([0, 0.15], [90, 0.15], [180, 0.2], [270, 0.2]);
    expect(at({ ...oval, bearing: 0 }, four)).toEqual(exact(0.3));
    expect(at({ ...oval, bearing: 0 }, walled([0, 0.25], [90, 0.12], [180, 0.25], [270, 0.2]))).toEqual(
      exact(0.4),
    );
    expect(at({ ...oval, bearing: 0 }, ring(0.15))).toEqual(exact(0.3));
    // Which way the stem is oval is not on record: either radius may be the one at the thinnest wall.
    expect(at(oval, four)).toEqual(interval(0.3, 0.5));
  });

  it('is under the bark, and on the mean of two diameters', () => {
    const outer = { diameter: exact(1.1), crossDiameter: exact(0.94), bark: exact(0.01) };
    expect(rulesOfThumb(outer, ring(0.25)).diameterRatio.low).toBeCloseTo(0.5, 12);
  });

  it('spreads over every wall that was allowed', () => {
    const cavity = { allRound: interval(0.1, 0.2) };
    const { diameterRatio, wallRatio } = rulesOfThumb(stem(1), cavity);
    expect(diameterRatio).toEqual(interval(0.6, 0.8));
    expect(wallRatio.applies && wallRatio.value).toEqual(interval(0.2, 0.4));
  });

  it('stays between nothing and all when only a least wall is known', () => {
    const cavity = { allRound: interval(0.1, Infinity) };
    const { diameterRatio, wallRatio } = rulesOfThumb(stem(1), cavity);
    expect(diameterRatio).toEqual(interval(0, 0.8));
    expect(wallRatio.applies && wallRatio.value).toEqual(interval(0.2, 1));
  });
});

describe('a hollow known by its depth, or not at all', () => {
  it('takes the depth as the void’s own diameter, as far as the far bark', () => {
    const { diameterRatio } = rulesOfThumb(stem(0.5), { bearing: 0, depth: interval(0.2, Infinity) });
    expect(diameterRatio).toEqual(interval(0.4, 1));
  });

  it('may be as wide as its mouth where that is wider than it is deep', () => {
    const cavity = { bearing: 0, depth: exact(0.1), opening: exact(0.25) };
    expect(rulesOfThumb(stem(0.5), cavity).diameterRatio).toEqual(interval(0.2, 0.5));
  });

  it('allows everything where nothing was seen', () => {
    const thumbs = rulesOfThumb(stem(0.5), { bearing: 0, opening: exact(0) });
    expect(thumbs.cubic.value).toEqual(interval(0, 1));
    expect(thumbs.wallRatio).toMatchObject({ applies: false, because: 'no wall was read' });
  });
});

describe('an opening', () => {
  const openHollow = (width: number): Uncertain => ({
    ...ring(0.2),
    bearing: 0,
    opening: exact(width),
  });

  // Smiley and Fraedrich 1992: d, D, Ro, loss in percent.
  it.each([
    [6, 10, 0, 21.6],
    [6, 10, 0.1, 29.44],
    [6, 10, 0.25, 41.2],
    [0, 10, 0.3, 30],
    [12, 24, 1 / 6, 27.0833],
    [20, 30, 0.1, 36.6667],
  ])('d %f, D %f, opening share %f: %f %%', (d, D, share, percent) => {
    expect(openHollowLoss(d / D, share) * 100).toBeCloseTo(percent, 4);
  });

  it('is a share of the circumference', () => {
    expect(rulesOfThumb(stem(1), openHollow(0.1 * Math.PI)).withOpening.value.high).toBeCloseTo(0.2944, 12);
  });

  it('says that t/R does not apply', () => {
    expect(rulesOfThumb(stem(1), openHollow(0.1)).wallRatio).toMatchObject({
      applies: false,
      because: expect.stringContaining('closed hollows'),
    });
    expect(rulesOfThumb(stem(1), openHollow(1.06)).wallRatio).toMatchObject({
      applies: false,
      because: expect.stringContaining('120°'),
    });
  });
});

describe('bounds', () => {
  const range = (least: number, most: number) =>
    fc
      .tuple(fc.double({ min: least, max: most, noNaN: true }), fc.double({ min: 1, max: 1.5, noNaN: true }))
      .map(([low, factor]) => interval(low, low * factor));
  const inside = (a: { low: number; high: number }, share: number) => a.low + share * (a.high - a.low);
  const shares = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 3, maxLength: 3 });

  it('hold every stem, wall and opening that the readings allow', () => {
    fc.assert(
      fc.property(
        range(0.3, 1.2),
        range(0, 0.6),
        range(0, 0.5),
        shares,
        (diameter, wall, opening, [a, b, c]) => {
          const at = (D: number, t: number, w: number) =>
            rulesOfThumb({ diameter: exact(D) }, { bearing: 0, allRound: exact(t), opening: exact(w) });
          const cavity = { bearing: 0, allRound: wall, opening };
          const all = rulesOfThumb({ diameter }, cavity);
          const one = at(inside(diameter, a!), inside(wall, b!), inside(opening, c!));
          for (const figure of ['cubic', 'quartic', 'withOpening'] as const) {
            expect(one[figure].value.low).toBeGreaterThanOrEqual(all[figure].value.low - 1e-9);
            expect(one[figure].value.high).toBeLessThanOrEqual(all[figure].value.high + 1e-9);
          }
        },
      ),
    );
  });
});
