import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exact, type Interval, interval } from '../../server/base/interval.ts';
import { cableTension, forkStrength } from '../../server/mechanics/forks.ts';
import { iceMoment, type LimbShape, momentShortened, ownMoment } from '../../server/mechanics/limbs.ts';
import { aspectFactor } from '../../server/practice/limbs.ts';
import { between, inside, ranges, share } from './arbitrary.ts';

const RUNS = Number(process.env.PROPERTY_RUNS ?? 300);

const shapes = fc.record({
  diameter: ranges(0.05, 0.6),
  length: ranges(2, 15),
  angle: ranges(0, 90),
  density: ranges(600, 1200),
  foliage: ranges(0.3, 1),
  foliageCenter: ranges(0.5, 0.9),
});

const holds = (value: number, { low, high }: Interval) => {
  expect(value).toBeGreaterThanOrEqual(low * (1 - 1e-9) - 1e-9);
  expect(value).toBeLessThanOrEqual(high * (1 + 1e-9) + 1e-9);
};

const exactShape = (shape: LimbShape, at: readonly number[]): LimbShape => ({
  diameter: exact(inside(shape.diameter, at[0]!)),
  length: exact(inside(shape.length, at[1]!)),
  angle: exact(inside(shape.angle, at[2]!)),
  density: exact(inside(shape.density, at[3]!)),
  foliage: exact(inside(shape.foliage, at[4]!)),
  foliageCenter: exact(inside(shape.foliageCenter, at[5]!)),
});

describe('the moment of a limb', () => {
  it('holds that of every limb that the readings allow', () => {
    fc.assert(
      fc.property(shapes, fc.array(share, { minLength: 9, maxLength: 9 }), (shape, at) => {
        const one = exactShape(shape, at);
        const [form, center] = [
          inside(interval(1 / 3, 1 / 2), at[6]!),
          inside(interval(1 / 4, 1 / 3), at[7]!),
        ];
        const wood = one.density.low * form * (Math.PI / 4) * one.diameter.low ** 2 * one.length.low;
        const arm = one.length.low * Math.cos((one.angle.low * Math.PI) / 180) * 9.80665;
        holds(wood * arm * (center + one.foliage.low * one.foliageCenter.low), ownMoment(shape));
      }),
      { numRuns: RUNS },
    );
  });

  it('is greater the longer and the more level the limb is', () => {
    fc.assert(
      fc.property(shapes, between(1, 2), share, (shape, longer, lower) => {
        const base = ownMoment(shape);
        const length = interval(shape.length.low * longer, shape.length.high * longer);
        const angle = interval(shape.angle.low * lower, shape.angle.high * lower);
        for (const other of [ownMoment({ ...shape, length }), ownMoment({ ...shape, angle })]) {
          expect(other.low).toBeGreaterThanOrEqual(base.low * (1 - 1e-9) - 1e-9);
          expect(other.high).toBeGreaterThanOrEqual(base.high * (1 - 1e-9) - 1e-9);
        }
      }),
      { numRuns: RUNS },
    );
  });

  it('of ice grows with its thickness, and holds that of every shape', () => {
    fc.assert(
      fc.property(
        shapes,
        ranges(0.001, 0.03),
        fc.array(share, { minLength: 7, maxLength: 7 }),
        (shape, ice, at) => {
          const whole = iceMoment(shape, ice);
          const one = iceMoment(exactShape(shape, at), exact(inside(ice, at[6]!)));
          holds(one.low, whole);
          holds(one.high, whole);
          const more = iceMoment(shape, interval(ice.low * 2, ice.high * 2));
          expect(more.low).toBeGreaterThanOrEqual(whole.low);
          expect(more.high).toBeGreaterThanOrEqual(whole.high);
        },
      ),
      { numRuns: RUNS },
    );
  });
});

describe('what shortening takes off', () => {
  it('is more the more is taken, and all of it at the whole length', () => {
    fc.assert(
      fc.property(ranges(0, 1), share, (part, at) => {
        const gain = momentShortened(part);
        const u = inside(part, at);
        holds(2 * u - u ** 2, gain);
        holds(1 - (1 - u) ** 3, gain);
      }),
      { numRuns: RUNS },
    );
    expect(momentShortened(exact(1))).toEqual({ low: 1, high: 1 });
    expect(() => momentShortened(interval(0, 1.1))).toThrow(RangeError);
  });
});

describe('the strength of an attachment', () => {
  it('never rises with the ratio, and holds that of every ratio', () => {
    fc.assert(
      fc.property(ranges(0, 1.2), share, between(0, 0.3), (ratio, at, more) => {
        const factor = aspectFactor(ratio);
        const one = aspectFactor(exact(inside(ratio, at)));
        holds(one.low, factor);
        holds(one.high, factor);
        const thicker = aspectFactor(interval(ratio.low + more, ratio.high + more));
        expect(thicker.low).toBeLessThanOrEqual(factor.low);
        expect(thicker.high).toBeLessThanOrEqual(factor.high);
      }),
      { numRuns: RUNS },
    );
  });
});

describe('the tension of a cable', () => {
  it('holds that of every fork and cable that the readings allow', () => {
    fc.assert(
      fc.property(
        ranges(1e3, 1e6),
        ranges(0, 5e5),
        ranges(1, 20),
        ranges(0, 60),
        fc.tuple(share, share, share, share),
        (moment, fork, above, slope, [i, j, k, l]) => {
          const force =
            Math.max(0, 1.5 * inside(moment, i) - inside(fork, j)) /
            (inside(above, k) * Math.cos((inside(slope, l) * Math.PI) / 180));
          holds(force, cableTension(moment, 1.5, fork, { above, slope }));
        },
      ),
      { numRuns: RUNS },
    );
    const at = (above: number, slope: number) => () =>
      cableTension(exact(1), 1, exact(0), { above: exact(above), slope: exact(slope) });
    expect(at(0, 0)).toThrow(RangeError);
    expect(at(1, 90)).toThrow(RangeError);
  });

  it('falls where the cable is higher or the fork stronger', () => {
    fc.assert(
      fc.property(ranges(1e3, 1e6), ranges(1, 20), between(1, 2), (moment, above, more) => {
        const fork = forkStrength(interval(2e7, 6e7), interval(0.1, 0.3), interval(0.35, 0.6));
        const slope = exact(10);
        const base = cableTension(moment, 1.5, fork, { above, slope });
        const higher = { above: interval(above.low * more, above.high * more), slope };
        expect(cableTension(moment, 1.5, fork, higher).high).toBeLessThanOrEqual(base.high);
        const stronger = interval(fork.low * more, fork.high * more);
        expect(cableTension(moment, 1.5, stronger, { above, slope }).high).toBeLessThanOrEqual(base.high);
      }),
      { numRuns: RUNS },
    );
  });
});
