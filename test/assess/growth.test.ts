import { describe, expect, test } from 'vitest';
import { shrunk } from '../../server/assess/growth.ts';
import { dayContext } from './inventory.ts';

/** Size, words of the earlier and the later one, and the share that is gone in percent. */
const losses = (text: string) => {
  const { tree, site, settings } = dayContext(text);
  return shrunk(tree, site, settings).map(({ size, earlier, later, loss }) => [
    size,
    earlier.words,
    later.words,
    Number((100 * loss.value.low).toFixed(3)),
  ]);
};

describe('a diameter', () => {
  const then = (earlier: string, now: string) =>
    losses(`tree 1\n  ${earlier}\n  inspection 2024-03-14 from ground\n    ${now}\n`);

  test('may be 3 % less than before: 30 of 30.9 in is 2.91 %, 30 of 31 in 3.23 %', () => {
    expect(then('dbh 30.9 in', 'dbh 30 in')).toEqual([]);
    expect(then('dbh 31 in', 'dbh 30 in')).toEqual([['diameter', '31 in', '30 in', 3.226]]);
  });

  test('may have grown', () => {
    expect(then('dbh 28 in', 'dbh 30 in')).toEqual([]);
  });

  test('that was estimated may have been less than it was said to be', () => {
    // 10 % below 32 in is 28.8 in.
    expect(then('dbh ~32 in', 'dbh 30 in')).toEqual([]);
    expect(then('dbh ~36 in', 'dbh 30 in')).toHaveLength(1);
  });

  test('of several stems is the root of the sum of their squares: 3, 4 in are 5 in; other counts are not compared', () => {
    expect(then('dbh 3 in, 4 in', 'dbh 3 in, 3.9 in')).toEqual([]);
    expect(then('dbh 3 in, 4 in', 'dbh 3 in, 3 in')).toEqual([
      ['diameter', '3 in, 4 in', '3 in, 3 in', 15.147],
    ]);
    expect(then('dbh 3 in, 4 in', 'dbh 4 in')).toEqual([]);
  });
});

test('one slip is reported once: later sizes are compared with the one that was reported', () => {
  expect(
    losses(`tree 1
  dbh 30.5 in
  inspection 2022-03-14 from ground
    dbh 35 in
  inspection 2024-03-14 from ground
    dbh 30 in
`),
  ).toEqual([['diameter', '35 in', '30 in', 14.286]]);
});

describe('a height', () => {
  const tall = (...more: readonly string[]) =>
    `tree 1\n  inspection 2024-03-14 from ground\n    height 60 ft\n  inspection 2026-03-14 from ground\n    height 50 ft\n${more.map(line => `  ${line}\n`).join('')}`;

  test('may be 10 % less: 54 of 60 ft is 10 %, 50 of 60 ft 16.7 %', () => {
    expect(losses('tree 1\n  height 60 ft\n  inspection 2024-03-14 from ground\n    height 54 ft\n')).toEqual(
      [],
    );
    expect(losses(tall())).toEqual([['height', '60 ft', '50 ft', 16.667]]);
  });

  test('is explained by work on the top, not by work below it nor by work before', () => {
    const work = (kind: string, on: string) => losses(tall(`prescription R1 ${kind}`, `work R1 ${on}`));
    for (const kind of ['reduce', 'pollard', 'clean']) expect(work(kind, '2025-02-01')).toEqual([]);
    for (const kind of ['raise', 'thin', 'cable']) expect(work(kind, '2025-02-01')).toHaveLength(1);
    expect(work('reduce', '2023-02-01')).toHaveLength(1);
  });

  test('is explained by a storm in between', () => {
    const withSite = (storm: string) => losses(`site "Court"\n  storm ${storm}\n\n${tall()}`);
    expect(withSite('2026-01-18')).toEqual([]);
    expect(withSite('2023-01-18')).toHaveLength(1);
  });

  test('is explained by what a storm did to the tree', () => {
    const stressed = (by: string) =>
      losses(tall().replace('  inspection', `  stressed by ${by}, since 2025-07-01\n  inspection`));
    expect(stressed('storm')).toEqual([]);
    expect(stressed('drought')).toHaveLength(1);
  });
});
