/** The quote: what is stated is summed, what is not is named, and nothing appears where nothing is stated. */

import { expect, test } from 'vitest';
import { folderWith } from '../cli/folder.ts';
import { pageText } from './page-text.ts';

const SITE = `site "Court"
  region US-OR
  quote "Q-7", until 2026-09-30, tax 10 %

`;

const job = (id: string, lines: string, kind = 'clean') =>
  `  prescription ${id} ${kind}\n    between 2026-10-01..2026-10-31\n${lines}`;

async function quoteIn(trees: string, site = SITE): Promise<string> {
  const folder = await folderWith({ 'a.wood': `${site}${trees}` });
  const { code, out } = await folder.run('report', '--for', 'client');
  expect(code).toBe(0);
  const found = /<section class="quote".*?<section class="accept">/s.exec(out)?.[0] ?? '';
  return pageText(found).trim();
}

test('without hours and prices there is no quote', async () => {
  expect(await quoteIn(`tree 1\n${job('R1', '')}`)).toBe('');
});

test('prices and hours of a site are summed, with its tax on top', async () => {
  const text = await quoteIn(
    `tree 1\n${job('R1', '    hours 2..3\n    price 100.50 USD\n')}  follow-up F1 probe\n    due 2026-07-01\n    hours 1\n    price 50 USD\n`,
  );
  expect(text).toContain('Court: quote Q-7 Can be accepted until September 30, 2026.');
  expect(text).toContain('Hours in all 3 to 4');
  expect(text).toContain('Subtotal $150.50 Tax, 10 % $15.05 Total $165.55');
  expect(text).not.toMatch(/without|alternatives/i);
});

test('hours are summed for each crew: an alternative of another crew may cost a crew none', async () => {
  const crews = 'crew ROPE "Rope crew"\n\ncrew LIFT "Lift crew"\n\n';
  const text = await quoteIn(
    `${crews}tree 1\n${job('R1', '    with ROPE\n    hours 2..3\n')}${job('R2', '    with LIFT\n    hours 5\n    or R1\n', 'fell')}tree 2\n${job('R1', '    with ROPE\n    hours 1\n    price 9 USD\n')}${job('R2', '')}`,
  );
  expect(text).toContain(
    'Hours of Rope crew 1 to 4 Hours of Lift crew 0 to 5 Hours without a crew not stated Hours in all 3 to 6, without 1 job',
  );
});

test('of alternatives one is counted: the total has two ends, each with its choice', async () => {
  const text = await quoteIn(
    `tree 1\n${job('R1', '    price 100 USD\n')}${job('R2', '    price 300 USD\n    or R1\n', 'fell')}tree 2\n${job('R1', '    price 10 USD\n')}`,
  );
  expect(text).toContain('Subtotal $110.00 to $310.00');
  expect(text).toMatch(
    /Lowest total \$121\.00: remove deadwood.* at tree 1\. Highest total \$341\.00: remove the tree at tree 1\./,
  );
});

test('a job without a price is named and counted, and an alternative without one costs none of the others', async () => {
  const some = await quoteIn(`tree 1\n${job('R1', '    price 100 USD\n')}tree 2\n${job('R1', '')}`);
  expect(some).toMatch(/Tree 2 .*? not priced/);
  expect(some).toContain('Total $110.00, without 1 job');
  const other = await quoteIn(
    `tree 1\n${job('R1', '    price 100 USD\n')}${job('R2', '    or R1\n', 'fell')}`,
  );
  expect(other).toContain('Subtotal $0.00 to $100.00, without 1 job');
  // To keep the tree costs nothing and misses no price.
  const kept = await quoteIn(
    `tree 1\n${job('R1', '    price 100 USD\n')}${job('R2', '    or R1\n', 'keep')}`,
  );
  expect(kept).toContain('Subtotal $0.00 to $100.00 Tax');
});

test('currencies are never added; ranges and open ends stay so', async () => {
  const text = await quoteIn(
    `tree 1\n${job('R1', '    price 100 USD\n')}tree 2\n${job('R1', '    price 80..90 EUR\n')}`,
  );
  expect(text).toContain('Subtotal $100.00');
  expect(text).toContain('Subtotal €80.00 to €90.00');
  expect(text).toContain('Prices in different currencies are not added together.');
  expect(await quoteIn(`tree 1\n${job('R1', '    price > 100 USD\n')}`)).toContain(
    'Subtotal $100.00 or more',
  );
  expect(await quoteIn(`tree 1\n${job('R1', '    price ~100 USD\n')}`)).toContain('Subtotal about $100.00');
});

test('work done, withdrawn, or on a felled tree is not quoted', async () => {
  const priced = job('R1', '    price 100 USD\n');
  expect(await quoteIn(`tree 1\n${priced}  work R1 2026-05-02\n`)).toBe('');
  expect(await quoteIn(`tree 1\n${priced}    withdrawn 2026-05-02\n`)).toBe('');
  expect(await quoteIn(`tree 1\n  felled 2026-05-02\n${priced}`)).toBe('');
});

test('a price without currency, or below zero, is a mistake of writing', async () => {
  for (const price of ['price 100', 'price -5 USD', 'hours -2', 'price 100 dollars']) {
    const folder = await folderWith({ 'a.wood': `tree 1\n${job('R1', `    ${price}\n`)}` });
    const { code, out } = await folder.run('check', '--format', 'lines');
    expect(code, price).toBe(1);
    expect(out, price).toMatch(/a\.wood:4:\d+: error/);
  }
});

test('advice that the check holds wrong is marked where it could be accepted', async () => {
  const text = await quoteIn(
    `tree 1\n  prescription R1 reduce\n    dose 80 %\n    between 2026-10-01..2026-10-31\n    price 100 USD\n`,
  );
  expect(text).toContain('Not settled: see the tree.');
});
