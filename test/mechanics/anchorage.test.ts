import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exact, type Interval, interval } from '../../server/base/interval.ts';
import {
  anchorageMoment,
  leftBesideTrench,
  leftOfRoots,
  momentAtReading,
  momentByStrain,
  pullMoment,
} from '../../server/mechanics/anchorage.ts';
import { pullTest, rootEffect, trenchEffect } from '../../server/practice/anchorage.ts';

/** Some hundred in the suite; 10 000 where somebody waits for them. */
const RUNS = Number(process.env.ANCHORAGE_RUNS ?? 400);

const range = (min: number, max: number): fc.Arbitrary<Interval> =>
  fc
    .tuple(fc.double({ min, max, noNaN: true }), fc.double({ min, max, noNaN: true }))
    .map(([a, b]) => interval(Math.min(a, b), Math.max(a, b)));
const part = fc.double({ min: 0, max: 1, noNaN: true });
const at = ({ low, high }: Interval, where: number): number => Math.min(high, low + where * (high - low));

/** With room for rounding. */
const holds = ({ low, high }: Interval, value: number) => {
  const slack = 1e-9 * Math.max(1, Math.abs(value));
  expect(value).toBeGreaterThanOrEqual(low - slack);
  expect(value).toBeLessThanOrEqual(high + slack);
};

const effect = interval(rootEffect.low, rootEffect.high);
const trench = { atBark: trenchEffect.atBark, from: interval(trenchEffect.from.low, trenchEffect.from.high) };
const scatter = interval(pullTest.scatter.low, pullTest.scatter.high);

const pulls = fc.record({
  force: range(100, 50_000),
  height: range(2, 25),
  slope: range(0, 60),
  offset: range(0, 2),
});

describe('bounds hold every value that the readings allow', () => {
  it('of a pull, its reading, the anchorage and the stem', () => {
    fc.assert(
      fc.property(
        pulls,
        range(0.1, 0.25),
        range(0.0001, 0.002),
        fc.array(part, { minLength: 7, maxLength: 7 }),
        (pull, inclination, strain, where) => {
          const one = {
            force: exact(at(pull.force, where[0]!)),
            height: exact(at(pull.height, where[1]!)),
            slope: exact(at(pull.slope, where[2]!)),
            offset: exact(at(pull.offset, where[3]!)),
          };
          const moment = pullMoment(one);
          const whole = pullMoment(pull);
          holds(whole, moment.low);
          const reading = momentAtReading(moment, exact(at(inclination, where[4]!)), pullTest);
          const readings = momentAtReading(whole, inclination, pullTest);
          holds(readings, reading.low);
          holds(
            anchorageMoment(readings, pullTest, scatter),
            anchorageMoment(reading, pullTest, exact(at(scatter, where[5]!))).low,
          );
          holds(
            momentByStrain(whole, strain, interval(0.002, 0.005)),
            momentByStrain(moment, exact(at(strain, where[6]!)), exact(0.003)).low,
          );
        },
      ),
      { numRuns: RUNS },
    );
  });

  it('of roots lost and of trenches', () => {
    fc.assert(
      fc.property(range(0, 1), range(0, 8), part, part, part, (lost, away, a, b, c) => {
        holds(leftOfRoots(lost, effect), leftOfRoots(exact(at(lost, a)), exact(at(effect, b))).low);
        const from = exact(at(trench.from, c));
        holds(
          leftBesideTrench(away, trench),
          leftBesideTrench(exact(at(away, a)), { atBark: trench.atBark, from }).low,
        );
      }),
      { numRuns: RUNS },
    );
  });
});

describe('what is worse never looks better', () => {
  it('more roots lost, a nearer trench', () => {
    fc.assert(
      fc.property(range(0, 1), range(0, 8), (lost, away) => {
        const [less, more] = [leftOfRoots(exact(lost.low), effect), leftOfRoots(exact(lost.high), effect)];
        expect(more.low).toBeLessThanOrEqual(less.low);
        expect(more.high).toBeLessThanOrEqual(less.high);
        const [near, far] = [
          leftBesideTrench(exact(away.low), trench),
          leftBesideTrench(exact(away.high), trench),
        ];
        expect(near.low).toBeLessThanOrEqual(far.low);
        expect(near.high).toBeLessThanOrEqual(far.high);
      }),
      { numRuns: RUNS },
    );
  });

  it('more inclination under the same pull', () => {
    fc.assert(
      fc.property(range(1000, 1e6), range(0.1, 0.25), (moment, inclination) => {
        const little = momentAtReading(moment, exact(inclination.low), pullTest);
        const much = momentAtReading(moment, exact(inclination.high), pullTest);
        expect(much.high).toBeLessThanOrEqual(little.high);
        expect(much.low).toBeLessThanOrEqual(little.low);
      }),
      { numRuns: RUNS },
    );
  });
});

it('refuses what no test can have read', () => {
  const pull = { force: exact(1), height: exact(9), slope: exact(25), offset: exact(0) };
  expect(() => pullMoment({ ...pull, slope: exact(90) })).toThrow(RangeError);
  expect(() => pullMoment(pull, 9)).toThrow(RangeError);
  expect(() => momentAtReading(exact(1), exact(0), pullTest)).toThrow(RangeError);
  expect(() => momentByStrain(exact(1), exact(0), exact(0.004))).toThrow(RangeError);
  expect(() => leftOfRoots(exact(1.1), effect)).toThrow(RangeError);
});
