import { describe, expect, test } from 'vitest';
import { parseDate } from '../../grammar/dates.ts';
import { unitOf } from '../../grammar/quantity.ts';
import { downTo, hollowDefects, hollowsOf, openingShare, upTo } from '../../server/assess/hollows.ts';
import { sharpestPhoto } from '../../server/assess/nest-photos.ts';
import { readingThatSettles } from '../../server/assess/settling-reading.ts';
import type { PhotoIndex } from '../../server/facts/photos.ts';
import { treeIn } from './inventory.ts';

const hollows = (fields: string) => {
  const { tree, settings } = treeIn(
    `tree 1\n  inspection 2026-05-04 from ground\n  defect A cavity\n${fields}`,
  );
  return hollowsOf(tree, settings);
};
const INCH = 0.0254;

describe('hollows', () => {
  test('30 in with 20 in gone, open over a tenth: 36.7 % (Smiley and Fraedrich 1992)', () => {
    const [hollow] = hollows('    diameter 30 in\n    opening 9.42478 in wide\n    depth 20 in\n');
    expect(openingShare(hollow!).low).toBeCloseTo(0.1, 6);
    expect(hollow!.thumbs.withOpening.value.low).toBeCloseTo((8000 + 0.1 * 19000) / 27000, 6);
    expect(hollow!.thumbs.cubic.value.high).toBeCloseTo(8 / 27, 12);
    expect(hollow!.thumbs.wallRatio.applies).toBe(false);
  });

  test('bark comes off, an oval counts by its mean, an estimate by its margin', () => {
    const [hollow] = hollows('    diameter 30 x 26 in\n    bark 1 in\n    wall ~5 in\n');
    expect(hollow!.wood.low).toBeCloseTo(26 * INCH, 12);
    const ratio = hollow!.thumbs.wallRatio;
    expect(ratio.applies && ratio.value.low).toBeCloseTo(4.5 / 13, 12);
    expect(ratio.applies && ratio.value.high).toBeCloseTo(5.5 / 13, 12);
  });

  test('nothing read: anything from sound to gone', () => {
    for (const fields of ['', '    depth unseen\n', '    wall unseen\n']) {
      const [hollow] = hollows(`    diameter 30 in\n${fields}`);
      expect(hollow!.thumbs.cubic.value).toEqual({ low: 0, high: 1 });
    }
  });

  test('no section without a diameter, or where bark may be all of it', () => {
    expect(hollows('    wall 3 in\n')).toEqual([]);
    expect(hollows('    diameter > 20 in\n    wall 3 in\n')).toEqual([]);
    expect(hollows('    diameter 2 in\n    bark 1 in\n    wall 3 in\n')).toEqual([]);
  });

  test('healed, closed and other defects are none', () => {
    const { tree } = treeIn(`tree 1
  inspection 2026-05-04 from ground
  defect A cavity
  defect B cavity
    state healed
  defect C decay
    closed 2026-05-20 "limb removed"
  defect D crack
`);
    expect(hollowDefects(tree).map(({ id }) => id.value)).toEqual(['A']);
    expect(tree.inspections[0]!.date.value).toBe(parseDate('2026-05-04'));
  });
});

describe('the reading that settles it', () => {
  const read = (fields: string) => {
    const { tree, settings } = treeIn(
      `tree 1\n  inspection 2026-05-04 from ground\n  defect A cavity\n${fields}`,
    );
    return readingThatSettles({ tree, site: undefined, settings }, hollowsOf(tree, settings)[0]!);
  };

  test('keeps every limit at the worst of the other readings: also t/R and d⁴/D⁴, not one formula alone', () => {
    expect(read('    diameter 28..32 in\n    wall 2..6 in\n')).toEqual({
      words: 'a sound wall of 5.4 in or more all round',
      line: 'wall 5.4 in',
    });
    const [settled] = hollows('    diameter 28..32 in\n    wall 5.4 in\n');
    expect(settled!.thumbs.cubic.value.high).toBeLessThanOrEqual(0.33);
    expect(settled!.thumbs.quartic.value.high).toBeLessThanOrEqual(0.2);
  });

  test('names what can be read: a void through an opening, or walls where they were read', () => {
    const told = (fields: string) => read(`    diameter 30 in\n${fields}`)?.words;
    expect(told('    depth > 11 in\n')).toMatch(/^a void of \S+ in or less through the opening$/);
    expect(told('    wall 2..6 in at N, 3 in at S\n')).toBe(
      'a sound wall of 5 in or more at each of its 2 bearings',
    );
    expect(told('    wall 2..6 in at N\n')).toMatch(/^a sound wall of \S+ in or more at N$/);
    expect(told('')).toBe('a sound wall of 5 in or more all round');
  });

  test('none where no reading keeps all limits: an opening too wide for any wall', () => {
    expect(read('    diameter 12 in\n    opening 14 in wide\n    wall 1..3 in\n')).toBeUndefined();
  });

  test('a wall is rounded up, a void down, and tenths stay as they are', () => {
    const inch = unitOf('in')!;
    expect([upTo(4.61 * INCH, inch), downTo(20.79 * INCH, inch)]).toEqual(['4.7 in', '20.7 in']);
    expect([upTo(4.5 * INCH, inch), downTo(20.7 * INCH, inch)]).toEqual(['4.5 in', '20.7 in']);
  });
});

describe('photographs of a nest check', () => {
  const sight = (fields: string, files: PhotoIndex = new Map()) => {
    const { tree, settings } = treeIn(`tree 1\n  nest check 2026-05-30 from drone\n${fields}`);
    return sharpestPhoto(tree.nestChecks[0]!, settings, path => files.get(path));
  };

  test('three pixels of distance × 36 mm / (focal length × width)', () => {
    const smallest = sight('    photo a.jpg, from 20 m, 24 mm lens, 4000 px wide\n')!.smallest;
    expect(smallest.high).toBeCloseTo((3 * 20 * 0.036) / (0.024 * 4000), 12);
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
  const metresAt20 = (lens: number, pixels: number) => (3 * 20 * 0.036) / (lens * pixels);

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
