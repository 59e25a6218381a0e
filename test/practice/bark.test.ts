import { expect, test } from 'vitest';
import { barkShare } from '../../server/practice/bark.ts';
import { greenDensities } from '../../server/practice/density.ts';
import { lookupGenus } from '../../server/practice/species.ts';

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
  const kinds = [...greenDensities()];
  expect(kinds.length).toBeGreaterThan(400);
  for (const [name, { barkShare: share }] of kinds) {
    const { most } = barkShare(undefined, lookupGenus(name.split(' ')[0]!)?.leaf);
    expect(share, name).toBeLessThanOrEqual(most);
  }
});
