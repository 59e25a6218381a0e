/** Proposals for what may be written at a place: what they write and say, from text. */

import { describe, expect, test } from 'vitest';
import { HEADS } from '../../grammar/fields.ts';
import { completions } from '../../server/language/completion.ts';
import { RULES } from '../../server/rules/registry.ts';
import { fixture } from './fixture.ts';

const completed = (source: string) => {
  const { snapshot, file, offset } = fixture(source);
  return completions(snapshot, file, offset);
};
const labels = (source: string) => completed(source).map(({ label }) => label);

describe('names', () => {
  const tree = (line: string, more = '') =>
    `--- a.wood\ntree 1\n stem North\n limb L1\n defect A cavity\n target "Play ""lawn"""\n prescription R1 reduce\n follow-up F1 tomogram\n${more} ${line}\n--- p.wood\nperson RV "Ruth Varga"\n qualified consulting arborist\ncrew ROPE "Rope crew"\n`;

  test('of targets are quoted as they have to be written', () => {
    expect(labels(tree('risk ‸'))).toEqual(['"Play ""lawn"""']);
  });

  test('say what they are the name of', () => {
    expect(completed(tree('follow-up F2 tomogram\n of ‸'))).toContainEqual(
      expect.objectContaining({ label: 'A', kind: 'name', detail: 'cavity' }),
    );
    expect(completed(tree('work ‸'))).toMatchObject([{ label: 'R1', detail: 'reduce' }]);
    expect(completed(tree('defect B cavity\n on ‸'))[0]).toMatchObject({
      label: 'trunk',
      detail: 'the main stem',
    });
  });

  test('of persons say what they are qualified for', () => {
    expect(completed(tree('inspection 2026-03-14 from ground\n by ‸'))).toMatchObject([
      { label: 'RV', detail: 'Ruth Varga', documentation: expect.stringContaining('consulting arborist') },
    ]);
  });

  test('what an exception or a risk is about is a defect, a prescription or a part', () => {
    expect(labels(tree('accept season-dose for ‸'))).toEqual(['A', 'R1']);
    expect(labels(tree('risk "Play ""lawn""" from ‸'))).toEqual(
      expect.arrayContaining(['A', 'trunk', 'North', 'L1']),
    );
  });

  test('new ones are the next free: letters for defects, numbers for the others', () => {
    expect(labels(tree('defect ‸'))).toEqual(['B']);
    expect(labels(tree('limb ‸'))).toEqual(['L2']);
    expect(labels(tree('prescription ‸'))).toEqual(['R2']);
    expect(labels(tree('follow-up ‸'))).toEqual(['F2']);
    expect(labels(tree('stem ‸'))).toEqual([]);
  });

  test('of a tree are those of its own block', () => {
    expect(labels('tree 1\n defect A cavity\ntree 2\n defect ‸\n')).toEqual(['A']);
  });
});

describe('values', () => {
  test('rules that may be accepted; in a practice block all', () => {
    const all = labels('practice "x"\n severity ‸\n').filter(label =>
      RULES.some(({ name }) => name === label),
    );
    expect(all).toHaveLength(RULES.length);
    expect(labels('tree 1\n accept ‸\n')).toHaveLength(RULES.filter(({ acceptable }) => acceptable).length);
  });

  test('a window begins today, and a bearing is a point of the compass', () => {
    expect(labels('tree 1\n prescription R1 reduce\n between ‸\n')).toEqual(['2026-06-01..']);
    expect(labels('tree 1\n lean 12 deg toward ‸\n')).toEqual(expect.arrayContaining(['N', 'SW', 'NNE']));
  });

  test('what nobody saw may be written as unseen', () => {
    expect(labels('tree 1\n defect A cavity\n depth ‸\n')).toContain('unseen');
  });
});

test('every field of every head proposes without failing, and each label once', () => {
  for (const head of HEADS.values()) {
    const begun = head.under === undefined ? '' : `${HEADS.get(head.under)!.example}\n`;
    for (const { word } of head.fields.values()) {
      const found = labels(`${begun}${head.example}\n  ${word} ‸\n`);
      expect(new Set(found).size, word).toBe(found.length);
    }
  }
});
