import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contains, exact, type Interval, interval } from '../../server/base/interval.ts';
import { type Camera, groundSampleDistance, USUAL_ASPECTS } from '../../server/mechanics/photo.ts';
import { inside, ranges, share } from './arbitrary.ts';

const camera = (focalLength35: number, imageWidth: number, aspect = 3 / 2): Camera<Interval> => ({
  focalLength35: exact(focalLength35),
  imageWidth: exact(imageWidth),
  aspect: exact(aspect),
});

describe('ground sample distance', () => {
  it('is the frame’s width on the subject over the pixels', () => {
    // A 36 mm lens sees as wide as it is far: 4 m in 4000 pixels.
    expect(groundSampleDistance(exact(4), camera(0.036, 4000)).low).toBeCloseTo(0.001, 12);
    // 24 mm, 5280 pixels, 10 m: 15 m in 5280 pixels.
    expect(groundSampleDistance(exact(10), camera(0.024, 5280)).high).toBeCloseTo(15 / 5280, 12);
  });

  it('goes by the diagonal of the frame: the wider the picture, the wider the frame', () => {
    const width = (aspect: number) => groundSampleDistance(exact(1), camera(0.0432666, 1, aspect)).low;
    expect(width(4 / 3)).toBeCloseTo(0.8, 6);
    expect(width(1)).toBeCloseTo(Math.SQRT1_2, 6);
    expect(width(16 / 9)).toBeCloseTo(0.8716, 4);
    const unknown = groundSampleDistance(exact(1), { ...camera(0.0432666, 1), aspect: USUAL_ASPECTS });
    expect(unknown.low).toBeCloseTo(0.8, 6);
    expect(unknown.high).toBeCloseTo(0.8716, 4);
  });

  it('refuses a camera or a distance of nothing', () => {
    expect(() => groundSampleDistance(exact(0), camera(0.036, 4000))).toThrow(RangeError);
    expect(() => groundSampleDistance(exact(1), camera(0, 4000))).toThrow(RangeError);
    expect(() => groundSampleDistance(exact(1), camera(0.036, 0))).toThrow(RangeError);
    expect(() => groundSampleDistance(exact(1), camera(0.036, 4000, 0.7))).toThrow(RangeError);
    expect(() => groundSampleDistance(exact(0.01), camera(Number.NaN, 4000))).toThrow(RangeError);
  });

  it('covers every camera that the readings allow', () => {
    fc.assert(
      fc.property(ranges(1, 60), ranges(0.02, 0.2), share, share, (distance, focalLength35, i, j) => {
        const lens = { focalLength35, imageWidth: exact(4000), aspect: exact(1.5) };
        const size = groundSampleDistance(exact(inside(distance, i)), camera(inside(focalLength35, j), 4000));
        const all = groundSampleDistance(distance, lens);
        expect(contains(interval(all.low * (1 - 1e-12), all.high * (1 + 1e-12)), size.low)).toBe(true);
      }),
    );
  });
});
