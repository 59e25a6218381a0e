/** Every published value of the mechanics and of the practice, from the list that is printed. */

import { expect, it } from 'vitest';
import { agrees, checkRows, checksPage } from '../server/docs/checks-reference.ts';

const rows = checkRows();

it.each(rows.map(row => [`${row.source}: ${row.name}`, row] as const))('%s', (_, row) => {
  expect(agrees(row), `expected ${row.expected}, computed ${row.computed}`).toBe(true);
});

it('are printed, each on a row of its own', () => {
  const printed = checksPage()
    .split('\n')
    .filter(line => line.startsWith('| '));
  // A heading and the line under it.
  expect(printed.length).toBe(rows.length + 2);
  expect(rows.length).toBeGreaterThan(150);
});
