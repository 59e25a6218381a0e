import { describe, expect, test } from 'vitest';
import { downTo, hollowDefects, hollowsOf, openingShare, upTo } from '../../server/assess/hollows.ts';
import { settleOf, signsOf } from '../../server/assess/signs.ts';
import { parseDate } from '../../server/base/dates.ts';
import { unitOf } from '../../server/base/quantity.ts';
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
    const [hollow] = hollows(
      '    diameter 30 in\n    bark 0 in\n    opening 9.42478 in wide\n    depth 20 in\n',
    );
    expect(openingShare(hollow!).low).toBeCloseTo(0.1, 6);
    expect(hollow!.thumbs.withOpening.value.low).toBeCloseTo((8000 + 0.1 * 19000) / 27000, 6);
    expect(hollow!.thumbs.cubic.value.high).toBeCloseTo(8 / 27, 12);
    expect(hollow!.thumbs.wallRatio.applies).toBe(false);
  });

  test('bark comes off, an oval counts by its mean, a wall by the widest radius, an estimate by its margin', () => {
    const [hollow] = hollows('    diameter 30 x 26 in\n    bark 1 in\n    wall ~5 in\n');
    expect(hollow!.wood.low).toBeCloseTo(26 * INCH, 12);
    const ratio = hollow!.thumbs.wallRatio;
    expect(ratio.applies && ratio.value.low).toBeCloseTo(4.5 / 14, 12);
    expect(ratio.applies && ratio.value.high).toBeCloseTo(5.5 / 14, 12);
  });

  test('bark that nobody measured is anything from none to what the species may have', () => {
    // Volume of bark over wood 0.16 for Quercus alba, and a third as much again: R (1 − 1/√1.208) thick.
    const bark = (species: string) => {
      const { tree, settings } = treeIn(
        `tree 1\n${species}  inspection 2026-05-04 from ground\n  defect A decay\n    diameter 30 in\n    wall 3 in\n`,
      );
      return hollowsOf(tree, settings)[0]!.outer.bark!;
    };
    const share = (most: number) => 15 * INCH * (1 - 1 / Math.sqrt(1 + most));
    expect(bark('  species Quercus alba\n').low).toBe(0);
    expect(bark('  species Quercus alba\n').high).toBeCloseTo(share(1.3 * 0.16), 12);
    // The beech of Europe has no row: half as much again as its genus.
    expect(bark('  species Fagus sylvatica\n').high).toBeCloseTo(share(1.5 * 0.1532), 12);
    // Neither has any of its genus: the most of any broad-leaved tree; and of any tree, where no species is written.
    expect(bark('  species Paulownia tomentosa\n').high).toBeCloseTo(share(0.23), 12);
    expect(bark('').high).toBeCloseTo(share(0.256), 12);
    const [stated] = hollows('    diameter 30 in\n    bark 0 in\n    wall 3 in\n');
    expect(stated!.outer.bark).toEqual({ low: 0, high: 0 });
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
  test.each([
    'diameter 28..32 in\nwall 2..7 in',
    'diameter 30 in\nbark 0 in\nwall 2..6 in',
    'diameter 30 in\nopening closed\nwall 4..5.2 in',
    'on trunk at 6 ft, facing S\ndiameter 30 in\nbark 0.5 in\nopening 2 in wide\nwall 3..9 in',
    'diameter 40 x 34 cm\nwall 3..9 cm',
  ])('brings the hollow within every limit: %s', fields => {
    const signs = (lines: string) => {
      const { tree, settings } = treeIn(
        `tree 1\n  inspection 2026-05-04 from ground\n  defect A decay\n${lines.replace(/^/gm, '    ')}\n`,
      );
      const context = { tree, site: undefined, settings };
      return { context, sign: signsOf(context)[0]! };
    };
    const { context, sign } = signs(fields);
    expect(sign.standing).toBe('may exceed');
    const wall = /a sound wall of ([\d.]+ \w+) or more all round/.exec(settleOf(sign, context)!)![1]!;
    expect(signs(fields.replace(/wall .*/, `wall ${wall}`)).sign.standing).toBe('within');
  });

  test('none where the opening alone is too much', () => {
    const { tree, settings } = treeIn(
      'tree 1\n  inspection 2026-05-04 from ground\n  defect A cavity\n    on trunk at 6 ft, facing S\n    diameter 30 in\n    opening 2..40 in wide\n    wall 9 in\n',
    );
    const context = { tree, site: undefined, settings };
    expect(settleOf(signsOf(context)[0]!, context)).not.toContain('all round');
  });

  test('a wall is rounded up, a void down, and tenths stay as they are', () => {
    const inch = unitOf('in')!;
    expect([upTo(4.61 * INCH, inch), downTo(20.79 * INCH, inch)]).toEqual(['4.7 in', '20.7 in']);
    expect([upTo(4.5 * INCH, inch), downTo(20.7 * INCH, inch)]).toEqual(['4.5 in', '20.7 in']);
  });
});
