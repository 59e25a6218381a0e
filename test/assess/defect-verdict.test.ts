import { describe, expect, test } from 'vitest';
import { defectVerdict, grown, isRootRot } from '../../server/assess/defect-verdict.ts';
import { within } from '../../server/assess/standing.ts';
import { dayContext } from './inventory.ts';

const verdict = (defect: string, tree = '') => {
  const context = dayContext(`tree 1\n${tree}  defect A ${defect}\n`);
  return defectVerdict(context.tree.defects[0]!, context);
};
const standing = (defect: string, tree?: string) => verdict(defect, tree).standing;

describe('a canker', () => {
  // At most 40 % of the circumference; from 30 % on a person rates it.
  test.each([
    ['share 25 % of circumference', 'within'],
    ['share 30 % of circumference', 'within'],
    ['share 35 % of circumference', 'may exceed'],
    ['share 35..45 % of circumference', 'may exceed'],
    ['share 45 % of circumference', 'exceeds'],
    ['share unseen of circumference', 'not judged'],
    // 28 in of 30π in is 29.7 %, 38 in is 40.3 %.
    ['width 28 in\n    diameter 30 in', 'within'],
    ['width 38 in\n    diameter 30 in', 'exceeds'],
    // Of an oval from 38/(36π) to 38/(30π): 33.6 to 40.3 %.
    ['width 38 in\n    diameter 30 x 36 in', 'may exceed'],
    ['width 38 in', 'not judged'],
  ] as const)('%s: %s', (fields, expected) => {
    expect(standing(`canker\n    ${fields}`)).toBe(expected);
  });

  test('near the ground takes the girth of the tree, higher up or on a limb not', () => {
    const wide = (on: string) =>
      standing(`canker\n    on ${on}\n    width 38 in`, '  dbh 30 in\n  limb L1\n');
    expect(wide('trunk at 4 ft')).toBe('exceeds');
    expect(wide('trunk at 10 ft')).toBe('not judged');
    expect(wide('L1 at 4 ft')).toBe('not judged');
  });
});

describe('roots', () => {
  test.each([
    ['share 25 % of roots', 'within'],
    ['share 20..30 % of roots', 'may exceed'],
    ['share 26 % of roots', 'exceeds'],
    ['share unseen of roots', 'not judged'],
  ] as const)('cut or decayed, %s: %s', (fields, expected) => {
    expect(standing(`root decay\n    ${fields}`)).toBe(expected);
  });
});

describe('dead wood', () => {
  // A branch of at most 4 in; half of the crown of a broad-leaved tree, 30 % of any other.
  test.each([
    ['diameter 4 in', '', 'within'],
    ['diameter 4.1 in', '', 'exceeds'],
    ['diameter 3..5 in', '', 'may exceed'],
    ['diameter unseen', '', 'not judged'],
    ['share 40 % of crown', '  species Quercus garryana\n', 'within'],
    ['share 51 % of crown', '  species Quercus garryana\n', 'exceeds'],
    ['share 40 % of crown', '  species Pseudotsuga menziesii\n', 'exceeds'],
    ['share 40 % of crown', '', 'exceeds'],
    // The graver of two readings decides; one that nobody made is graver than one within.
    ['diameter 5 in\n    share 1 % of crown', '', 'exceeds'],
    ['diameter unseen\n    share 1 % of crown', '', 'not judged'],
  ] as const)('%s %s: %s', (fields, tree, expected) => {
    expect(standing(`dead wood\n    ${fields}`, tree)).toBe(expected);
  });
});

describe('what no figure judges', () => {
  test('a hanger is loose, included bark lacks strength, a crack may go through', () => {
    expect(standing('hanger')).toBe('moving');
    expect(standing('included bark')).toBe('may exceed');
    expect(standing('crack')).toBe('not judged');
    expect(standing('crack\n    on trunk at 4 ft')).toBe('not judged');
    expect(standing('crack\n    on trunk at 0 ft')).toBe('exceeds');
  });

  test('increasing makes a crack move, and takes the reassurance from what is within', () => {
    const sound = within('25 % of the circumference');
    expect(grown(false, 'canker', sound)).toBe(sound);
    expect(grown(true, 'canker', sound).standing).toBe('not judged');
    expect(grown(true, 'crack', sound).standing).toBe('moving');
    const over = { standing: 'exceeds', why: 'over' } as const;
    expect(grown(true, 'canker', over)).toEqual({ standing: 'exceeds', why: 'over, and increasing' });
  });
});

describe('a fruiting body', () => {
  const rots = (fields: string, tree = '') => {
    const context = dayContext(`tree 1\n${tree}  defect A fungus\n${fields}`);
    return isRootRot(context.tree.defects[0]!, context);
  };

  test('is one of the roots by its species, else by its place at the base', () => {
    expect(rots('    species Armillaria mellea\n    on trunk at 10 ft\n')).toBe(true);
    expect(rots('    species Fomes fomentarius\n    on trunk at 1 ft\n')).toBe(false);
    expect(rots('')).toBe(true);
    expect(rots('    on trunk at 1 ft\n')).toBe(true);
    expect(rots('    on trunk at 10 ft\n')).toBe(false);
    expect(rots('    on L1 at 1 ft\n', '  limb L1\n')).toBe(false);
  });

  test('never passes for sound', () => {
    for (const fields of ['', '\n    on trunk at 10 ft', '\n    species Fomes fomentarius'])
      expect(standing(`fungus${fields}`)).toBe('not judged');
  });
});
