/** A tree on a day: the newest readings, what they do not restate, and what work done has made of it. */

import { describe, expect, it } from 'vitest';
import { parseBlock } from '../../grammar/blocks.ts';
import { formatDate, parseDate } from '../../server/base/dates.ts';
import { factOf } from '../../server/facts/build.ts';
import { dayRead } from '../../server/facts/readings.ts';
import { treeOn } from '../../server/facts/state.ts';
import type { Tree, WrittenTree } from '../../server/facts/types.ts';

function written(text: string): WrittenTree {
  const block = parseBlock(text);
  for (const { mistake, syntax } of block.lines)
    if (mistake) throw new Error(`${syntax.text}: ${mistake.message}`);
  const fact = factOf(block);
  if (fact?.kind !== 'tree') throw new Error('no tree');
  return fact;
}

const on = (day: string, text: string): Tree => treeOn(written(text), parseDate(day)!);
const metres = (placed: { readonly value: { readonly low: number } } | undefined) => placed?.value.low;
const day = (number: number | undefined) => (number === undefined ? undefined : formatDate(number));

const TWO_VISITS = `tree 14
  inspection 2021-05-04 from ground
  stem North
    diameter 0.5 m
    union included bark, with South
  stem South
    union included bark, with North
  defect A cavity
    on trunk at 2 m, facing SW
    state suspected
    diameter 0.6 x 0.5 m
    depth 0.2 m
    wall 8 cm at N, 9 cm at S
    note "first seen"
  target "Lane"
    distance 6 m
    occupied rare
  inspection 2024-05-02 from rope
  stem North
    union cracked
  defect A cavity
    diameter 0.62 m
    wall 7 cm at N
  target "Lane"
    occupied frequent
`;

describe('what is read again', () => {
  const { defects, parts, targets } = on('2026-06-01', TWO_VISITS);
  const [defect] = defects;

  it('is one thing, its newest reading', () => {
    expect([defects.length, parts.length, targets.length]).toEqual([1, 2, 1]);
    expect(day(defect!.seen)).toBe('2024-05-02');
    expect(defect!.walls.map(({ thickness }) => metres(thickness))).toEqual([0.07]);
    expect(targets[0]!.occupied?.value).toBe('frequent');
  });

  it('keeps what it does not restate, with its day', () => {
    expect(metres(defect!.depth)).toBe(0.2);
    expect(day(dayRead(defect!, 'depth'))).toBe('2021-05-04');
    expect(day(dayRead(defect!, 'walls'))).toBe('2024-05-02');
    expect(defect!.part?.value).toBe('trunk');
    expect(defect!.state?.value).toBe('suspected');
    expect(metres(targets[0]!.distance)).toBe(6);
    const north = parts.find(({ name }) => name.value === 'North')!;
    expect([north.union?.value, north.unionWith?.value, metres(north.diameter)]).toEqual([
      'cracked',
      'South',
      0.5,
    ]);
  });

  it('takes no second diameter from another reading than the first one', () => {
    expect(metres(defect!.diameter)).toBe(0.62);
    expect(defect!.across).toBeUndefined();
  });

  it('has its readings before, the newest first', () => {
    expect(defect!.earlier.map(({ seen }) => day(seen))).toEqual(['2021-05-04']);
    expect(defect!.earlier[0]!.walls).toHaveLength(2);
  });

  it('is as it was on an earlier day', () => {
    const before = on('2023-01-01', TWO_VISITS);
    expect(day(before.defects[0]!.seen)).toBe('2021-05-04');
    expect(before.defects[0]!.older).toBeUndefined();
    expect(before.targets[0]!.occupied?.value).toBe('rare');
    expect(before.inspections).toHaveLength(1);
    expect(on('2020-01-01', TWO_VISITS).defects).toEqual([]);
  });

  it('is no other thing of the name: of another kind, elsewhere, or of the same day', () => {
    const text = (again: string) =>
      `tree 14\n  inspection 2021-05-04 from ground\n  defect A wound\n    on trunk at 1 m\n  inspection ${again}`;
    const count = (again: string) => on('2026-06-01', text(again)).defects.length;
    expect(count('2024-05-02 from ground\n  defect A wound\n    on trunk at 1 m')).toBe(1);
    expect(count('2024-05-02 from ground\n  defect A crack')).toBe(2);
    expect(count('2024-05-02 from ground\n  defect A wound\n    on North at 1 m')).toBe(2);
    expect(count('2021-05-04 from rope\n  defect A wound')).toBe(2);
  });

  it('is there again where a reading follows its end', () => {
    const text = (state: string, again: string) =>
      `tree 14\n  inspection 2021-05-04 from ground\n  defect A wound\n    ${state}\n  inspection 2024-05-02 from ground\n  defect A wound\n    ${again}\n`;
    const of = (state: string, again: string) => on('2026-06-01', text(state, again)).defects[0]!;
    expect(of('closed 2022-01-01', 'width 3 cm').closed).toBeUndefined();
    expect(of('closed 2025-01-01 "cut"', 'width 3 cm').closedBecause?.value).toBe('cut');
    expect(of('width 3 cm', 'closed 2024-05-02').closed).toBeDefined();
    expect(of('state healed', 'width 3 cm').state).toBeUndefined();
    expect(of('width 3 cm', 'state healed').state?.value).toBe('healed');
    expect(of('state increasing', 'width 3 cm').state?.value).toBe('increasing');
  });

  it('costs a tree nothing that has nothing of it', () => {
    const plain = written('tree 14\n  dbh 30 cm\n  inspection 2021-05-04 from ground\n  defect A cavity\n');
    expect(treeOn(plain, parseDate('2026-06-01')!)).toBe(plain);
    const again = written(TWO_VISITS);
    expect(treeOn(again, 30000)).toBe(treeOn(again, 30001));
  });
});

describe('what inspections say of the tree itself', () => {
  const TEXT = `tree 14
  dbh 40 cm at 1.3 m
  crown from 4 m, 12 m wide
  vigor good
  soil firm
  inspection 2024-05-02 from ground
    dbh 44 cm
    crown 13 m wide
    lean 8 deg
    stressed none
  inspection 2021-05-04 from ground
    dbh 42 cm
    vigor poor
    stressed by drought
    lean 7 deg toward SW, increasing
`;

  it('counts by its day, before what has none', () => {
    const tree = on('2026-06-01', TEXT);
    expect(tree.diameters.map(metres)).toEqual([0.44]);
    expect(tree.measuredAt).toBeUndefined();
    expect([metres(tree.crownBase), metres(tree.crownSpread)]).toEqual([4, 13]);
    expect([tree.vigor?.value, tree.soil?.value, tree.stressed]).toEqual(['poor', 'firm', undefined]);
    expect(tree.dated?.get('vigor')).toBe(parseDate('2021-05-04'));
    expect(tree.dated?.has('soil')).toBe(false);
  });

  it('keeps where a lean goes, and that it moves, until something else is said', () => {
    expect(on('2026-06-01', TEXT).lean).toMatchObject({ toward: 225, course: 'increasing' });
  });

  it('is no longer steady or corrected where it was measured steeper later', () => {
    const course = (before: string, later: string) =>
      on(
        '2026-06-01',
        `tree 14\n  inspection 2024-05-02 from ground\n    lean ${later}\n  inspection 2021-05-04 from ground\n    lean ${before}\n`,
      ).lean?.course;
    expect(course('3 deg, steady', '3 deg')).toBe('steady');
    expect(course('3 deg, steady', '4 deg')).toBeUndefined();
    expect(course('3 deg, steady', '2..4 deg')).toBeUndefined();
    expect(course('5 deg, corrected', '6 deg')).toBeUndefined();
    expect(course('5 deg, increasing', '3 deg')).toBe('increasing');
    expect(course('3 deg', '4 deg, steady')).toBe('steady');
  });

  it('is as it was on an earlier day', () => {
    expect(on('2022-01-01', TEXT).stressed?.cause).toBe('drought');
    expect(on('2020-01-01', TEXT)).toMatchObject({ vigor: { value: 'good' }, lean: undefined });
  });

  it('is the graver of two on one day', () => {
    const tree = on(
      '2026-06-01',
      'tree 14\n  inspection 2024-05-02 from ground\n    vigor poor\n    height 20 m\n  inspection 2024-05-02 from drone\n    vigor good\n    height 21 m\n',
    );
    expect([tree.vigor?.value, metres(tree.height)]).toEqual(['poor', 21]);
  });
});

describe('work done', () => {
  it('takes down what a tree was cleaned of, until it is seen there again', () => {
    const text = (more: string) =>
      `tree 14\n  inspection 2024-01-04 from ground\n  defect A hanger\n  defect B cavity\n  prescription R1 clean\n    for A, B\n  work R1 2024-03-01\n${more}`;
    const closed = (state: Tree) => state.defects.map(one => day(one.closed?.value));
    expect(closed(on('2024-02-28', text('')))).toEqual([undefined, undefined]);
    expect(closed(on('2024-03-01', text('')))).toEqual(['2024-03-01', undefined]);
    expect(closed(on('2026-01-01', text('    unfinished "A hangs on"\n')))).toEqual([undefined, undefined]);
    const again = '  inspection 2025-05-04 from ground\n  defect A hanger\n    length 2 m\n';
    expect(closed(on('2026-01-01', text(again)))).toEqual([undefined, undefined]);
  });

  it('fells a tree, once it is finished', () => {
    const text = (more: string) =>
      `tree 14\n  prescription R1 fell\n    stages 1\n  work R1 2024-03-01\n${more}`;
    expect(on('2024-02-28', text('')).felled).toBeUndefined();
    expect(day(on('2024-03-01', text('')).felled?.value)).toBe('2024-03-01');
    expect(on('2026-01-01', text('    unfinished "the stem stands"\n')).felled).toBeUndefined();
    const later = text('    unfinished "the stem stands"\n  work R1 2024-04-01\n');
    expect(day(on('2026-01-01', later).felled?.value)).toBe('2024-04-01');
    expect(
      on('2026-01-01', 'tree 14\n  limb L1\n  prescription R1 fell\n    remove L1\n  work R1 2024-03-01\n'),
    ).toMatchObject({ felled: undefined, parts: [] });
  });

  it('leaves the sizes it states, else those prescribed, until they are measured again', () => {
    const text = (work: string, more = '') =>
      `tree 14\n  height 20 m\n  crown from 4 m, 12 m wide\n  prescription R1 reduce\n    height 20 m to 17 m\n    spread 12 m to 10 m\n  work R1 2024-03-01\n${work}${more}`;
    const sizes = (tree: Tree) => [tree.height, tree.crownSpread, tree.crownBase].map(metres);
    expect(sizes(on('2026-01-01', text('')))).toEqual([17, 10, 4]);
    expect(sizes(on('2026-01-01', text('    height 18 m\n')))).toEqual([18, 10, 4]);
    expect(sizes(on('2024-02-01', text('')))).toEqual([20, 12, 4]);
    expect(sizes(on('2026-01-01', text('    unfinished "the top"\n')))).toEqual([20, 12, 4]);
    const later = '  inspection 2025-06-01 from ground\n    height 17.5 m\n';
    expect(sizes(on('2026-01-01', text('', later)))).toEqual([17.5, 10, 4]);
    const before = '  inspection 2023-06-01 from ground\n    height 20.5 m\n';
    expect(sizes(on('2026-01-01', text('', before)))).toEqual([17, 10, 4]);
  });

  it('puts a prescribed cable there, unless a record of its own says so', () => {
    const text = (more: string) =>
      `tree 14\n  stem North\n  stem South\n  prescription R1 cable\n    for North, South\n    rated 2200 lbf\n  work R1 2024-03-01\n    by RV\n${more}`;
    const [cable, ...others] = on('2026-01-01', text('')).supports;
    expect(others).toEqual([]);
    expect(cable).toMatchObject({
      id: { value: 'R1' },
      kind: { value: 'cable' },
      installedBy: { value: 'RV' },
    });
    expect(cable!.holds.map(({ value }) => value)).toEqual(['North', 'South']);
    expect(on('2024-02-01', text('')).supports).toEqual([]);
    const own = on('2026-01-01', text('  support C1 cable\n    holds South, North\n')).supports;
    expect(own.map(({ id }) => id.value)).toEqual(['C1']);
  });

  it('takes limbs away with what was wrong with them, and shortens others', () => {
    const tree = on(
      '2026-01-01',
      'tree 14\n  limb L1\n    length 8 m\n  limb L2\n  defect A crack\n    on L2 at 5 m\n  prescription R1 reduce\n    shorten L1 8 m to 6 m\n    remove L2\n  work R1 2024-03-01\n',
    );
    expect(tree.parts.map(({ name, length }) => [name.value, metres(length)])).toEqual([['L1', 6]]);
    expect(tree.defects[0]!.closedBecause?.value).toBe('limb L2 removed');
  });

  it('ends targets, conductors and limbs from their day on', () => {
    const text =
      'tree 14\n  limb L1\n    removed 2024-01-09\n  target "Bench"\n    removed 2024-01-09 "moved"\n  conductor "Line"\n    removed 2024-01-09\n';
    const there = ({ parts, targets, conductors }: Tree) => parts.length + targets.length + conductors.length;
    expect([there(on('2024-01-08', text)), there(on('2024-01-09', text))]).toEqual([3, 0]);
  });
});
