import { describe, expect, test } from 'vitest';
import { sharpestPhoto } from '../../server/assess/nest-photos.ts';
import type { PhotoIndex } from '../../server/facts/photos.ts';
import { treeIn } from './inventory.ts';

describe('photographs of a nest check', () => {
  const sight = (fields: string, files: PhotoIndex = new Map()) => {
    const { tree, settings } = treeIn(`tree 1\n  nest check 2026-05-30 from drone\n${fields}`);
    return sharpestPhoto(tree.nestChecks[0]!, settings, path => files.get(path));
  };

  // Of the diagonal of 36 by 24 mm a picture of 4 by 3 takes 4/5 for its width, one of 16 by 9 a little more.
  const DIAGONAL = Math.hypot(0.036, 0.024);
  const frame = { fourByThree: 0.8 * DIAGONAL, sixteenByNine: (16 / Math.hypot(16, 9)) * DIAGONAL };

  test('three pixels of distance × frame width / (focal length × width), for every shape that cameras take', () => {
    const { low, high } = sight('    photo a.jpg, from 20 m, 24 mm lens, 4000 px wide\n')!.smallest;
    expect(low).toBeCloseTo((3 * 20 * frame.fourByThree) / (0.024 * 4000), 12);
    expect(high).toBeCloseTo((3 * 20 * frame.sixteenByNine) / (0.024 * 4000), 12);
  });

  test('the sharpest counts, the stand-off stands in for the distance, others are passed over', () => {
    const best = sight(`    stand-off 20 m
    photo a.jpg, 24 mm lens, 4000 px wide
    photo b.jpg, 70 mm lens, 4000 px wide
    photo c.jpg, from 10 m
`);
    expect(best!.photo.path).toBe('b.jpg');
    expect(sight('    photo c.jpg, from 10 m\n')).toBeUndefined();
  });

  const taken = (focalLength35: number, imageWidth = 4000, imageHeight = 3000): PhotoIndex =>
    new Map([['a.jpg', { state: 'read', record: { focalLength35, imageWidth, imageHeight } }]]);
  const metresAt20 = (lens: number, pixels: number) => (3 * 20 * frame.fourByThree) / (lens * pixels);

  test('the file gives what the line does not, along the long side', () => {
    const upright = sight('    photo a.jpg, from 20 m\n', taken(0.07, 3000, 4000))!;
    expect(upright.smallest.high).toBeCloseTo(metresAt20(0.07, 4000), 12);
    expect(upright.contradicted).toEqual([]);
  });

  test('a record that the line allows decides', () => {
    const close = sight('    photo a.jpg, from 20 m, ~24 mm lens, 4000 px wide\n', taken(0.025))!;
    expect(close.smallest.high).toBeCloseTo(metresAt20(0.025, 4000), 12);
    expect(close.contradicted).toEqual([]);
  });

  test.each([
    ['shorter', 0.024, 70, 0.024],
    ['longer', 0.07, 24, 0.024],
  ])('where the file says a %s lens than the line, the worse counts', (_, recorded, stated, counts) => {
    const doubtful = sight(`    photo a.jpg, from 20 m, ${stated} mm lens, 4000 px wide\n`, taken(recorded))!;
    expect(doubtful.smallest.low).toBeCloseTo(metresAt20(counts, 4000), 12);
    expect(doubtful.contradicted).toHaveLength(1);
  });
});
