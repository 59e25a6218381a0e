import { describe, expect, it, test } from 'vitest';
import { settlesDefect } from '../../server/assess/settles.ts';
import { lossAt, strengthOf } from '../../server/assess/strength.ts';
import { uncertainFigures } from '../../server/mechanics/uncertain-section.ts';
import { treeIn } from './inventory.ts';

const defect = (lines: string, name = 'A', kind = 'decay') =>
  `  defect ${name} ${kind}\n${lines
    .trim()
    .split('\n')
    .map(line => `    ${line.trim()}\n`)
    .join('')}`;
const tree = (...defects: string[]) =>
  treeIn(`tree 1\n  inspection 2026-05-04 from ground\n${defects.join('')}`);

describe('strength at hollows', () => {
  test.each([
    ['3 in', 0.8],
    ['6 in', 0.6],
    ['10 in', 1 / 3],
  ])('a ring with a wall of %s in a stem of 30 in keeps 1 − (d/D)⁴', (wall, ratio) => {
    const { tree: one, settings } = tree(defect(`diameter 30 in\nbark 0 in\nwall ${wall}`));
    const { figures } = strengthOf(one, settings).defects[0]!;
    expect(figures.strengthLoss.low).toBeCloseTo(ratio ** 4, 3);
    expect(figures.strengthLoss.high).toBeCloseTo(ratio ** 4, 3);
  });

  it('is computed once for one tree under the same settings', () => {
    const { tree: one, settings } = tree(defect('diameter 30 in\nwall 3 in'));
    expect(strengthOf(one, settings)).toBe(strengthOf(one, settings));
  });

  it('gives both cases of a group, and counts what holds at each of its defects', () => {
    const cavities = [
      defect('on trunk at 10 ft, facing N\ndiameter 30 in\nopening 2 in wide\ndepth 9 in', 'A', 'cavity'),
      defect('on trunk at 12 ft, facing S\ndiameter 30 in\nopening 2 in wide\ndepth 9 in', 'B', 'cavity'),
    ];
    const suspected = tree(...cavities, '  joined A, B suspected\n');
    const strength = strengthOf(suspected.tree, suspected.settings);
    const [group] = strength.groups;
    // From two pockets as small as their mouths allow to two circles that meet.
    expect(group!.figures.joined.low).toBeGreaterThan(group!.figures.apart.low);
    expect(group!.figures.joined.high).toBeGreaterThan(group!.figures.apart.high);
    expect(group!.strengthLoss).toEqual({ low: group!.figures.apart.low, high: group!.figures.joined.high });
    const [a] = strength.defects;
    expect(lossAt(a!, strength)).toEqual({
      low: a!.figures.strengthLoss.low,
      high: group!.figures.joined.high,
    });

    const proved = tree(...cavities, '  joined A, B proved\n');
    const known = strengthOf(proved.tree, proved.settings);
    expect(lossAt(known.defects[0]!, known)).toEqual(known.groups[0]!.figures.joined);

    const excluded = tree(...cavities, '  joined A, B excluded\n');
    expect(strengthOf(excluded.tree, excluded.settings).groups).toEqual([]);
  });
});

describe('the reading that would settle it', () => {
  it('is the wall, from the value on at which a ring keeps the limit', () => {
    const { tree: one, settings } = tree(defect('diameter 30 in\nwall 2..6 in'));
    const settles = settlesDefect(strengthOf(one, settings).defects[0]!, settings)!;
    expect(settles.decides).toBe('within');
    expect(settles.reading).toBe('sound wall');
    // (1 − 2t/D)⁴ = 0.23 at t = D/2 · (1 − 0.23^¼) = 4.612 in.
    const expected = 15 * (1 - 0.23 ** 0.25) * 0.0254;
    expect(settles.threshold!).toBeGreaterThan(expected - 0.0005);
    expect(settles.threshold!).toBeLessThan(expected + 0.002);
    expect(settles.text).toBe(
      'A sound wall of 4.7 in or more at A would settle it: the loss of the section is then within 23 %.',
    );
  });

  it('holds: with the depth that it names the section keeps the limit, with half as much again it does not', () => {
    const { tree: one, settings } = tree(
      defect('on trunk at 18 ft, facing SW\ndiameter 26 in\nopening 4 in wide\ndepth unseen', 'A', 'cavity'),
    );
    const [cavity] = strengthOf(one, settings).defects;
    const settles = settlesDefect(cavity!, settings)!;
    expect(settles.reading).toBe('depth from the opening');
    const lossAtDepth = (depth: number) =>
      uncertainFigures({
        outer: cavity!.hollow.outer,
        cavities: [{ ...cavity!.hollow.cavity, depth: { low: depth, high: depth } }],
      }).strengthLoss;
    expect(lossAtDepth(settles.threshold!).high).toBeLessThanOrEqual(0.23);
    expect(lossAtDepth(settles.threshold! * 1.5).high).toBeGreaterThan(0.23);
  });

  it('is none where the readings decide, and says so where none decides alone', () => {
    const decided = tree(defect('diameter 30 in\nwall 3 in'));
    expect(
      settlesDefect(strengthOf(decided.tree, decided.settings).defects[0]!, decided.settings),
    ).toBeUndefined();
    const open = tree(
      defect('diameter 30 in\nwall 3.5..4 in at N, 3.5..4 in at E, 3.5..4 in at S, 3.5..4 in at W'),
    );
    const settles = settlesDefect(strengthOf(open.tree, open.settings).defects[0]!, open.settings)!;
    expect(settles.threshold).toBeUndefined();
    expect(settles.text).toBe(
      'The sound wall at A may be thinner between the measured bearings. Measure it at NE, SE, SW and NW as well.',
    );
  });

  it('is a wall where none was read, if one bearing or two opposite ones are all there is', () => {
    const text = (wall: string, more = '') => {
      const one = tree(defect(`on trunk at 4 ft${more}\ndiameter 40 in\nwall ${wall}`));
      return settlesDefect(strengthOf(one.tree, one.settings).defects[0]!, one.settings)!.text;
    };
    expect(text('9 in at S')).toBe(
      'At A the sound wall was measured only at S. Measure it opposite, at N, and at E and W as well.',
    );
    expect(text('9 in at S, 2 in at N', ', facing N')).toBe(
      'At A the sound wall was measured only at S and N. Measure it at E and W as well.',
    );
    expect(text('9 in at S, 2 in at N\nopening 3 in wide')).toMatch(
      /at E and W as well\. Its bearing is not on record: record that too\.$/,
    );
  });

  it('is the wall as well where a depth leaves open how wide the void is', () => {
    const one = tree(
      defect('on trunk at 6 ft, facing S\ndiameter 30 in\nopening 3 in wide\ndepth 14 in', 'A', 'cavity'),
    );
    expect(settlesDefect(strengthOf(one.tree, one.settings).defects[0]!, one.settings)!.text).toBe(
      'A depth does not show how wide the void at A is behind its opening. Measure the sound wall on at least four bearings, with a resistance drill or a tomograph.',
    );
  });
});
