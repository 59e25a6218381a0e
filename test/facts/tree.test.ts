import { describe, expect, it } from 'vitest';
import { parseBlock } from '../../grammar/blocks.ts';
import { formatDate } from '../../server/base/dates.ts';
import { factOf } from '../../server/facts/build.ts';
import { latestState } from '../../server/facts/state.ts';
import type { Placed, WrittenTree } from '../../server/facts/types.ts';

function tree(text: string): WrittenTree {
  const fact = factOf(parseBlock(text));
  if (fact?.kind !== 'tree') throw new Error('no tree');
  return fact;
}
const low = (placed: Placed<{ readonly low: number }> | undefined) => placed!.value.low;
const values = <T>(placed: readonly Placed<T>[]) => placed.map(({ value }) => value);

const LAWN_MAPLE = `tree 14 "Lawn maple"   # at the gate
  species     Acer macrophyllum
  position    44.31281, -122.87131
  dbh         41 in, 12 in at 4 ft
  height      52 ft
  crown       from 14 ft, 58 ft wide
  lean        12 deg toward SW, steady
  stressed    by drought, since 2025-07-01
  protected   by "City of Fernhollow" permit TR-2291, until 2026-12-31, for pruning
  formerly    T-009
  inspection 2025-03-01 from ground
    by RV
  inspection 2026-03-14 from drone
    flown 120 ft, permission owner, over people, at night, 60 ft stand-off
    unseen "inside of A"
    photo photos/14-north.jpg, from 55 ft, 24 mm lens, 4000 px wide
  stem North
    from 9 ft, facing N
    union included bark, with South
  defect A cavity
    on North at 18 ft, facing SW
    diameter 28 x 24 in
    opening 9 in wide, 14 in tall
    depth > 11 in
    wall 2..4 in at SW, ~5 in at NE
  defect B decay
    seen 2025-03-01
    opening closed
    share 30 % of circumference
  joined A, B suspected
  target "Play lawn"
    distance 12 ft toward S
  risk "Play lawn" from A
    failure possible
    within 1 year
  conductor "Alley line"
    voltage 12.5 kV
    dead 2026-10-01..2026-10-03
  nest check 2026-03-14 from drone
    stand-off 55 ft
    found active Colaptes auratus at 30 ft
    found none
  bat check 2026-05-20 from rope
    found roost in A
  view "Reading room"
    eye 14 ft, 40 ft away
    hide 0..24 ft, 140 ft beyond
  prescription R1 reduce
    height 52 ft to 46 ft
    cuts up to 3 in, laterals 0.4
    method reduction cuts, collar cuts
    paint none
    for A, B
    between 2026-09-15..2026-11-30
    piece 8 ft, 20 in thick
    stump grind to 8 in
    replace 2 Quercus garryana
    with ROPE
  work R1 2026-10-02
    dose 16 %
    with ROPE
  follow-up F1 climbing inspection
    of A, B
    due 2026-06-30
  accept season-dose for R1
    until 2027-03-01
    by RV
    because "scaffold in February"
`;

describe('the facts of a tree', () => {
  const maple = tree(LAWN_MAPLE);

  it('are those of its own fields', () => {
    expect(maple.tag.value).toBe('14');
    expect(maple.name?.value).toBe('Lawn maple');
    expect(maple.species?.value.binomial).toBe('Acer macrophyllum');
    expect(maple.position).toMatchObject({ latitude: 44.31281, longitude: -122.87131 });
    expect(maple.diameters.map(low)).toEqual([41 * 0.0254, 12 * 0.0254]);
    expect(low(maple.measuredAt)).toBeCloseTo(4 * 0.3048, 12);
    expect(low(maple.crownBase)).toBeCloseTo(14 * 0.3048, 12);
    expect(low(maple.crownSpread)).toBeCloseTo(58 * 0.3048, 12);
    expect(maple.lean).toMatchObject({ toward: 225, course: 'steady' });
    expect(maple.stressed).toMatchObject({ cause: 'drought' });
    expect(formatDate(maple.stressed!.since!)).toBe('2025-07-01');
    expect(maple.protection).toMatchObject({
      by: 'City of Fernhollow',
      permit: { value: 'TR-2291' },
      scope: 'pruning',
    });
    expect(values(maple.formerly)).toEqual(['T-009']);
    expect(maple.repeated).toBeUndefined();
  });

  it('know their places in the block', () => {
    const textAt = ({ start, end }: { start: number; end: number }) => LAWN_MAPLE.slice(start, end);
    expect(textAt(maple.at)).toBe('tree 14 "Lawn maple"');
    expect(textAt(maple.tag)).toBe('14');
    expect(textAt(maple.defects[0]!.part!)).toBe('North');
    expect(textAt(maple.defects[0]!.walls[1]!.thickness)).toBe('~5 in');
    expect(textAt(maple.nestChecks[0]!.found[0]!)).toBe('found active Colaptes auratus at 30 ft');
    expect(textAt(maple.prescriptions[0]!.between!)).toBe('2026-09-15..2026-11-30');
    expect(textAt(maple.accepts[0]!.at)).toBe('accept season-dose for R1');
  });

  it('hold what was seen', () => {
    const [, flight] = maple.inspections;
    expect(flight).toMatchObject({
      from: { value: 'drone' },
      flown: { permission: 'owner', overPeople: true, time: 'night' },
    });
    expect(low(flight!.flown!.standOff)).toBeCloseTo(60 * 0.3048, 12);
    expect(flight!.photos[0]).toMatchObject({
      path: 'photos/14-north.jpg',
      pixels: { value: { low: 4000 } },
    });
    expect(maple.parts[0]).toMatchObject({
      kind: 'stem',
      facing: 0,
      union: { value: 'included bark' },
      unionWith: { value: 'South' },
    });
    const [a, b] = maple.defects;
    expect(a).toMatchObject({ facing: 225, opening: { closed: false }, depth: { value: { form: 'above' } } });
    expect([low(a!.diameter), low(a!.across)]).toEqual([28 * 0.0254, 24 * 0.0254]);
    expect(a!.walls.map(({ bearing }) => bearing)).toEqual([225, 45]);
    expect(b).toMatchObject({ opening: { closed: true }, share: { of: 'circumference' } });
    expect(maple.nestChecks[0]!.found.map(({ use }) => use)).toEqual(['active', 'none']);
    expect(maple.batChecks[0]!.found[0]).toMatchObject({ use: 'roost', defect: { value: 'A' } });
  });

  it('give a defect the inspection above it, or the one whose day it names', () => {
    const [a, b] = maple.defects;
    expect(a!.inspection).toBe(maple.inspections[1]);
    expect(b!.inspection).toBe(maple.inspections[0]);
    expect(formatDate(b!.seen!)).toBe('2025-03-01');
    const [unseen] = tree('tree 1\n  defect A cavity\n    seen 2024-01-01\n').defects;
    expect(unseen!.inspection).toBeUndefined();
    expect(formatDate(unseen!.seen!)).toBe('2024-01-01');
  });

  it('hold what is to be done', () => {
    const [r1] = maple.prescriptions;
    expect(formatDate(r1!.dated!)).toBe('2026-03-14');
    expect(r1).toMatchObject({ paint: { value: 'none' }, crew: { value: 'ROPE' }, stump: { what: 'grind' } });
    expect(low(r1!.height?.to)).toBeCloseTo(46 * 0.3048, 12);
    expect(r1!.laterals?.value.low).toBe(0.4);
    expect(values(r1!.methods)).toEqual(['reduction cuts', 'collar cuts']);
    expect(values(r1!.for)).toEqual(['A', 'B']);
    expect(low(r1!.piece?.diameter)).toBeCloseTo(20 * 0.0254, 12);
    expect(r1!.replacement).toMatchObject({ count: 2, species: { binomial: 'Quercus garryana' } });
    expect(maple.works[0]).toMatchObject({ prescription: { value: 'R1' }, crew: { value: 'ROPE' } });
    expect(maple.followUps[0]).toMatchObject({ kind: { value: 'climbing inspection' } });
    expect(maple.accepts[0]).toMatchObject({ subject: { value: 'R1' }, by: { value: 'RV' } });
  });
});

describe('facts from text with mistakes', () => {
  it('come from sound lines only', () => {
    const damaged = tree('tree 14\n  height 52\n  crown 58 ft wide\n');
    expect(damaged.height).toBeUndefined();
    expect(low(damaged.crownSpread)).toBeCloseTo(58 * 0.3048, 12);
  });

  it('keep what a damaged head says, and ? for what it does not', () => {
    const damaged = tree(
      'tree\n  height 52 ft\n  defct A cavity\n    depth > 11 in\n  prescription\n    dose 18 %\n',
    );
    expect(damaged.tag.value).toBe('?');
    expect(low(damaged.height)).toBeCloseTo(52 * 0.3048, 12);
    expect(damaged.defects[0]).toMatchObject({ id: { value: 'A' }, kind: { value: 'cavity' } });
    expect(damaged.defects[0]!.depth).toBeDefined();
    expect(damaged.prescriptions[0]).toMatchObject({ id: { value: '?' }, dose: { value: { low: 0.18 } } });
  });

  it('leave out a dated fact whose day cannot be read', () => {
    const damaged = tree('tree 14\n  inspection 2026-02-30 from drone\n    by RV\n  inspection 2026-03-14\n');
    expect(damaged.inspections.map(({ from }) => from.value)).toEqual(['?']);
  });

  it('count the first of a repeated field', () => {
    const text = 'tree 14\n  height 52 ft\n  height 54 ft\n  note "a"\n  note "b"\n';
    const repeated = tree(text);
    expect(low(repeated.height)).toBeCloseTo(52 * 0.3048, 12);
    expect(repeated.repeated!.map(({ word, start, end }) => [word, text.slice(start, end)])).toEqual([
      ['height', 'height 54 ft'],
    ]);
  });
});

describe('girth', () => {
  it('becomes a diameter by π, in the unit written', () => {
    const [taped] = tree('tree 14\n  girth 300..327 cm\n').diameters;
    expect(taped!.value).toMatchObject({ form: 'range', low: 3 / Math.PI, unit: { symbol: 'cm' } });
    expect(taped!.value.high).toBeCloseTo(3.27 / Math.PI, 12);
  });

  it('stands behind a diameter', () => {
    for (const lines of ['girth 327 cm\n  dbh 41 in', 'dbh 41 in\n  girth 327 cm']) {
      expect(tree(`tree 14\n  ${lines}\n`).diameters.map(low)).toEqual([41 * 0.0254]);
    }
  });
});

describe('sizes of a day', () => {
  it('belong to their inspection, and leave those of the tree alone', () => {
    const read = tree(
      'tree 14\n  dbh 41 in\n  inspection 2021-03-14 from ground\n    girth 300 cm\n    height 15 m\n  inspection 2026-03-14 from drone\n    dbh 26 in, 20 in at 1 m\n',
    );
    expect(read.diameters.map(low)).toEqual([41 * 0.0254]);
    const [first, second] = read.inspections;
    expect(first!.diameters.map(low)).toEqual([3 / Math.PI]);
    expect(first!.height?.value.low).toBe(15);
    expect(second!.diameters).toHaveLength(2);
    expect(second!.measuredAt?.value.low).toBe(1);
    expect(second!.height).toBeUndefined();
  });

  it('count before what the tree states itself: the latest, whatever the order of the text', () => {
    const read = latestState(
      tree(
        'tree 14\n  dbh 22 in\n  inspection 2026-03-14 from drone\n    dbh 26 in, 20 in at 1 m\n  inspection 2021-03-14 from ground\n    dbh 24 in\n    height 15 m\n',
      ),
    );
    expect(read.diameters.map(low)).toEqual([26 * 0.0254, 20 * 0.0254]);
    expect(read.measuredAt?.value.low).toBe(1);
    expect(read.height?.value.low).toBe(15);
  });
});

it('text before the first head states nothing', () => {
  expect(factOf(parseBlock('# Fernhollow Court\n'))).toBeUndefined();
});
