/** What the lines below a damaged one say of it. */

import { describe, expect, test } from 'vitest';
import { HEADS } from '../../grammar/fields.ts';
import { type Evidence, parseAhead, scoresOf } from '../../grammar/lookahead.ts';

const evidence = (...lines: readonly string[]): readonly Evidence[] =>
  lines.flatMap(line => parseAhead(line)?.evidence ?? []);
const scores = (
  lines: readonly string[],
  {
    current,
    top = 'tree',
    seen = [],
  }: { readonly current?: string; readonly top?: string; readonly seen?: readonly string[] } = {},
) => {
  const { of, stay } = scoresOf(
    evidence(...lines),
    current === undefined ? undefined : HEADS.get(current),
    HEADS.get(top),
    new Set(seen),
  );
  return { of: (word: string) => of(HEADS.get(word)!), stay };
};

describe('a line', () => {
  test('speaks for the heads below which it fits', () => {
    const owners = evidence('depth > 11 in')[0]!.fields.map(({ head }) => head.word);
    expect(owners).toEqual(['defect']);
    expect(evidence('diameter 26 in')[0]!.fields.map(({ head }) => head.word)).toEqual(
      expect.arrayContaining(['stem', 'limb', 'defect']),
    );
  });

  test('says nothing with a word that is none, or that its values do not fit', () => {
    expect(evidence('zzz 11 in', 'depth fast', '', '12 in')).toEqual([]);
  });

  test('that is a head names it', () => {
    expect(evidence('nest check 2026-03-14 from drone')[0]!.inner!.word).toBe('nest check');
  });
});

describe('scores', () => {
  test('count the lines up to the next head that fit below each head', () => {
    const found = scores(['diameter 28 in', 'depth > 11 in', 'defect B cavity', 'depth > 2 in']);
    expect(found.of('defect')).toBe(2);
    expect(found.of('stem')).toBe(1);
  });

  test('count a field once, where it may be written once', () => {
    expect(scores(['depth > 11 in', 'depth > 12 in']).of('defect')).toBe(1);
    expect(scores(['note "a"', 'note "b"']).of('defect')).toBe(2);
  });

  test('leave what the present head has already to others', () => {
    const lines = ['diameter 28 in', 'depth > 11 in'];
    expect(scores(lines, { current: 'defect' }).stay).toBe(2);
    expect(scores(lines, { current: 'defect', seen: ['depth'] }).stay).toBe(1);
    expect(scores(lines).stay).toBe(-1);
    expect(scores([], { current: 'defect' }).stay).toBe(0);
  });

  test('inner heads speak for their head of the file, unless it is the present one', () => {
    const lines = ['inspection 2026-03-14 from drone', 'defect A cavity'];
    expect(scores(lines, { top: 'site' }).of('tree')).toBe(2);
    expect(scores(lines, { top: 'tree' }).of('tree')).toBe(0);
  });
});
