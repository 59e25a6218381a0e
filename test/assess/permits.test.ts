import { describe, expect, it } from 'vitest';
import { permitsBefore } from '../../server/assess/permit-needs.ts';
import { permitFor, protectedBy } from '../../server/assess/permits.ts';
import { parseDate } from '../../server/base/dates.ts';
import { dayContext, treeIn } from './inventory.ts';

const day = (text: string): number => parseDate(text)!;
const treeOf = (lines: string) => treeIn(`tree 1\n${lines}\n`);

describe('a permit', () => {
  it('takes from the tree’s line what that says of the same permit, not of another', () => {
    const { tree } = treeOf(`protected permit WP-29, until 2026-06-20, for pruning
prescription R1 clean
permit WP-29
prescription R2 clean
permit WP-30
prescription R3 clean`);
    const [same, other, none] = tree.prescriptions.map(prescription => permitFor(tree, prescription)!);
    expect(same).toMatchObject({ until: day('2026-06-20'), scope: 'pruning' });
    expect(other).toEqual({ number: expect.objectContaining({ value: 'WP-30' }) });
    expect(none!.number.value).toBe('WP-29');
  });

  it('is none on a tree without one; the protection is named', () => {
    const { tree } = treeOf('protected by "heritage tree list"\nprescription R1 clean');
    expect(permitFor(tree, tree.prescriptions[0]!)).toBeUndefined();
    expect(protectedBy(tree)).toBe('protected by "heritage tree list"');
  });
});

it('says what the law requires before work that nobody has prescribed yet', () => {
  const before = (lines: string, act: 'felling' | 'pruning') => {
    const context = dayContext(
      `site "Mill"\n  region GB-ENG\n  grounds garden\n  conservation-area "Mill Lane"\ntree 1\n${lines}\n`,
    );
    return permitsBefore(context, act);
  };
  const notice = expect.stringMatching(/^notify the authority 42 days before, or obtain a permit, .*s\. 211/);
  expect(before('dbh 40 cm at 1.5 m', 'pruning')).toEqual([notice]);
  expect(before('dbh 7 cm at 1.5 m', 'pruning')).toEqual([]);
  expect(before('protected under order by "order 4"', 'pruning')).toEqual([
    expect.stringMatching(/^obtain a permit \(.*s\. 198/),
  ]);
  // A size that nobody measured excludes nothing.
  expect(before('height 20 m', 'felling')).toEqual([
    expect.stringMatching(/^find out whether the law requires you to notify .*s\. 211/),
  ]);
});
