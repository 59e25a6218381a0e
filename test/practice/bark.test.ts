import { expect, test } from 'vitest';
import { barkRows } from '../../server/practice/bark-table.ts';
import { barkShare, lookupGenus } from '../../server/practice/index.ts';

const named = (binomial: string) => ({ genus: binomial.split(' ')[0]!, binomial });

test('bark of a species goes by its own figure, then by its genus, then by its kind of leaf', () => {
  // Miles and Smith 2009: 6 % of the wood of American beech, 15.32 % as the mean of beeches.
  expect(barkShare(named('Fagus grandifolia'), 'broadleaved')).toMatchObject({
    most: expect.closeTo(1.3 * 0.06, 12),
    knownBy: 'species',
  });
  expect(barkShare(named('Fagus sylvatica'), 'broadleaved')).toMatchObject({
    most: expect.closeTo(1.5 * 0.1532, 12),
    knownBy: 'genus',
    citation: { short: 'Miles and Smith 2009', confidence: 'published' },
  });
  expect(barkShare({ genus: 'Fagus', binomial: undefined }, 'broadleaved').knownBy).toBe('genus');
  expect(barkShare(named('Paulownia tomentosa'), 'broadleaved')).toMatchObject({
    most: 0.23,
    knownBy: 'kind',
  });
});

test('of a tree without a name it is the most of any: ponderosa pine', () => {
  expect(barkShare(undefined, undefined)).toMatchObject({ most: 0.256, knownBy: 'kind' });
});

test('no figure of the table is beyond that of its kind', () => {
  const rows = barkRows.trim().split('\n');
  expect(rows.length).toBeGreaterThan(50);
  for (const row of rows) {
    const genus = row.split(' ')[0]!;
    const figures = [...row.matchAll(/\d+(\.\d+)?/g)].map(([number]) => Number(number) / 100);
    const most = barkShare(undefined, lookupGenus(genus)?.leaf).most;
    expect(figures.length, row).toBeGreaterThan(0);
    for (const figure of figures) expect(figure, row).toBeLessThanOrEqual(most);
  }
});
