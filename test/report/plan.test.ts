/** The plan of a site: to scale, with nothing on anything else and nothing lost. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { URGENCIES } from '../../server/assess/urgency.ts';
import type { ReportTree } from '../../server/report/data.ts';
import { planPicture } from '../../server/report/plan.ts';
import { treeIn } from '../assess/inventory.ts';
import { illegible, textsOf } from '../show/drawn.ts';

/** What the plan asks of a tree in a report. */
const entryOf = (text: string, i: number): ReportTree => {
  const { tree, settings } = treeIn(text);
  const signs = i % 3 === 0 ? [] : [{ standing: 'exceeds' }];
  return {
    tree,
    settings,
    urgency: URGENCIES[i % URGENCIES.length]!,
    findings: [],
    assessment: { signs },
  } as unknown as ReportTree;
};
const planned = (...texts: readonly string[]) => {
  const plan = planPicture('Site', texts.map(entryOf));
  if (!plan) throw new Error('no plan');
  return plan;
};
const words = (svg: string) => textsOf(svg).map(({ text }) => text);

const AT = '  position 44.31200, -122.87100\n  crown from 10 ft, 30 ft wide\n';

test('targets are named where distance and side are on record, and below the plan where they are not', () => {
  const { svg, notes, description } = planned(
    `tree 1\n${AT}  target "Bench"\n    distance 40 ft toward E\n  target "Road"\n    distance 20 ft\n`,
    'tree 2\n  position 44.31210, -122.87120\n  conductor "Lane line"\n    distance 5 ft\n',
    'tree 3 "Old oak"\n',
  );
  expect(words(svg)).toEqual(expect.arrayContaining(['1', '2', 'Bench']));
  expect(words(svg)).toContain('power line near the tree, its side not recorded');
  expect(notes.join(' ')).toContain('without a position: Tree 3, Old oak.');
  expect(notes.join(' ')).toContain('Targets without a distance or direction on record: Road (tree 1).');
  expect(description).toContain('north up, with 2 trees');
  expect(description).toContain('Targets: Bench.');
});

test('trees on one spot and crowns that were not measured are named below the plan, nothing is drawn for the latter', () => {
  const { svg, notes } = planned(
    'tree 3\n  position 44.31200, -122.87100\n',
    'tree 2\n  position 44.31200, -122.87100\n',
    `tree 9\n${AT.replace('44.31200', '44.31240')}`,
  );
  expect(svg.match(/class="(?:leaf|after)"[^>]* r=/g)).toHaveLength(1);
  expect(notes.join(' ')).toContain('On one spot: trees 3 and 2.');
  expect(notes.join(' ')).toContain('Crown not measured, so not drawn: trees 3 and 2.');
});

test('a target stands as far from its tree as recorded', () => {
  const { svg } = planned(`tree 1\n${AT}  target "Bench"\n    distance 40 ft toward E\n`);
  const [, x1, y1, x2, y2] = /stroke-dasharray="2 3" d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)"/.exec(svg)!;
  const radius = Number(/ r="([\d.]+)"/.exec(svg)![1]);
  expect(Number(y2)).toBeCloseTo(Number(y1), 0);
  expect((Number(x2) - Number(x1)) / radius).toBeCloseTo(40 / 15, 1);
});

const spot = fc.record({
  east: fc.integer({ min: 0, max: 80 }),
  north: fc.integer({ min: 0, max: 80 }),
  wide: fc.integer({ min: 4, max: 60 }),
  target: fc.boolean(),
});

test('however close trees stand, names do not collide, and those without room are listed', () => {
  fc.assert(
    fc.property(fc.array(spot, { minLength: 1, maxLength: 60 }), spots => {
      const { svg, notes } = planned(
        ...spots.map(
          ({ east, north, wide, target }, i) =>
            `tree T-${i}\n  position 44.${31000 + north}, -122.${87000 + east}\n  crown from 1 ft, ${wide} ft wide\n${target ? `  target "Path ${i}"\n    distance 9 ft toward NE\n` : ''}`,
        ),
      );
      expect(illegible(svg)).toEqual([]);
      const said = new Set(words(svg));
      const listed = notes.join(' ');
      spots.forEach((_, i) => {
        expect(said.has(`T-${i}`) || new RegExp(`tree T-${i}\\b`).test(listed)).toBe(true);
      });
    }),
    { numRuns: 25 },
  );
});
