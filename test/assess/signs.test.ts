import { describe, expect, it, test } from 'vitest';
import { DEFECT_KINDS } from '../../grammar/fields-tree.ts';
import { FIELD_SIGNS, SIGN_KINDS } from '../../server/assess/sign-kinds.ts';
import { signsOf } from '../../server/assess/signs.ts';
import { byStanding, gravest, type SignStanding, STANDINGS } from '../../server/assess/standing.ts';
import { treeIn } from './inventory.ts';

const signs = (lines: string) => {
  const { tree, settings } = treeIn(`tree 1\n  dbh 30 in\n  height 60 ft\n${lines}`);
  return signsOf({ tree, site: undefined, settings });
};
const one = (lines: string) => signs(lines)[0]!;

const defect = (kind: string, ...fields: readonly string[]) =>
  `  inspection 2026-05-04 from ground\n  defect A ${kind}\n${fields.map(field => `    ${field}\n`).join('')}`;

describe('the table of signs', () => {
  it('has every kind of defect and every field that says something about safety', () => {
    expect(Object.keys(SIGN_KINDS).sort()).toEqual([...DEFECT_KINDS, ...FIELD_SIGNS].sort());
  });

  it('leaves to a person alone only what no figure is known for', () => {
    const alone = Object.entries(SIGN_KINDS).filter(([, { judgedBy }]) => judgedBy === 'person');
    expect(alone.map(([kind]) => kind).sort()).toEqual(['weak union', 'woodpecker holes']);
  });

  test.each(DEFECT_KINDS)('%s without a word more is never within', kind => {
    expect(one(defect(kind)).standing).not.toBe('within');
  });
});

test.each<[string, string, SignStanding]>([
  // USDA hazard rating codes: 30 to 40 % of the circumference moderate, more high.
  ['canker over 60 %', defect('canker', 'share 60 % of circumference'), 'exceeds'],
  ['canker over 45 %', defect('canker', 'share 45 % of circumference'), 'exceeds'],
  ['canker over 35 %', defect('canker', 'share 35 % of circumference'), 'may exceed'],
  ['canker over 20 to 50 %', defect('canker', 'share 20..50 % of circumference'), 'may exceed'],
  ['wound over 10 %', defect('wound', 'share 10 % of circumference'), 'within'],
  // 12 in of a girth of 94.2 in are 12.7 %; of an unknown girth nobody knows.
  ['wound 12 in wide on 30 in', defect('wound', 'width 12 in', 'diameter 30 in'), 'within'],
  ['wound 12 in wide at breast height', defect('wound', 'on trunk at 4 ft', 'width 12 in'), 'within'],
  ['wound 12 in wide high up', defect('wound', 'on trunk at 30 ft', 'width 12 in'), 'not judged'],
  ['wound 12 in wide, height not said', defect('wound', 'width 12 in'), 'not judged'],
  ['half of the roots', defect('root loss', 'share 50 % of roots'), 'exceeds'],
  ['15 to 40 % of the roots', defect('root decay', 'share 15..40 % of roots'), 'may exceed'],
  ['a tenth of the roots', defect('root loss', 'share 10 % of roots'), 'within'],
  ['roots unseen', defect('root loss', 'share unseen of roots'), 'not judged'],
  // Dead or cracked branches over 4 in (USDA NA-FR-01-96).
  ['dead wood of 2 in', defect('dead wood', 'diameter 2 in'), 'within'],
  ['dead wood of 9 in', defect('dead wood', 'diameter 9 in'), 'exceeds'],
  ['dead wood of about 4 in', defect('dead wood', 'diameter ~4 in'), 'may exceed'],
  ['dead wood of unknown size', defect('dead wood', 'length 6 ft'), 'not judged'],
  ['40 % of a crown of unknown kind dead', defect('dead wood', 'share 40 % of crown'), 'exceeds'],
  ['a hanger', defect('hanger', 'diameter 3 in'), 'moving'],
  ['a crack that opens', defect('crack', 'length 14 ft', 'state increasing'), 'moving'],
  ['a crack of which nobody says more', defect('crack', 'length 14 ft'), 'not judged'],
  ['a crack that runs into the soil', defect('crack', 'on trunk at 0 ft'), 'exceeds'],
  [
    'a closed canker that grows',
    defect('canker', 'share 10 % of circumference', 'state increasing'),
    'not judged',
  ],
  [
    'decay that grows, its section thick',
    defect('decay', 'diameter 30 in', 'wall 9 in', 'state increasing'),
    'not judged',
  ],
  ['a cavity without a diameter', defect('cavity', 'depth 8 in'), 'not judged'],
  ['a cavity nobody looked into', defect('cavity', 'diameter 30 in', 'depth unseen'), 'not judged'],
  ['a shell', defect('decay', 'diameter 30 in', 'wall 1 in'), 'exceeds'],
  ['a thick ring', defect('decay', 'diameter 30 in', 'wall 9 in'), 'within'],
  ['a new lean of 3 deg', '  lean 3 deg, new\n', 'moving'],
  ['a steady lean of 12 deg', '  lean 12 deg, steady\n', 'within'],
  ['a lean of 12 deg', '  lean 12 deg\n', 'within'],
  ['a lean of 22 deg of which nobody says whether it changes', '  lean 22 deg\n', 'not judged'],
  ['a steady lean of 22 deg', '  lean 22 deg, steady\n', 'within'],
  ['a steady lean of 50 deg', '  lean 50 deg, steady\n', 'exceeds'],
  ['heaving soil', '  soil heaving\n', 'moving'],
  ['cracked soil', '  soil cracked\n', 'moving'],
  ['soil that nobody saw', '  soil unseen\n', 'not judged'],
  ['firm soil', '  soil firm\n', 'within'],
  ['a dead tree', '  vigor dead\n', 'exceeds'],
  ['a cracked union', '  stem East\n    union cracked\n', 'moving'],
  ['a union with included bark', '  stem East\n    union included bark\n', 'may exceed'],
  ['a union that nobody saw', '  stem East\n    union unseen\n', 'not judged'],
  ['a sound union', '  stem East\n    union sound\n', 'within'],
])('%s', (_what, lines, standing) => {
  expect(one(lines).standing).toBe(standing);
});

test('of a pair the graver statement counts, whichever stem stands first', () => {
  const pair = (first: string, second: string) =>
    signs(`  stem East\n    union ${first}, with West\n  stem West\n    union ${second}, with East\n`);
  for (const [a, b] of [
    ['cracked', 'sound'],
    ['sound', 'cracked'],
  ] as const) {
    const found = pair(a, b);
    expect(found).toHaveLength(1);
    expect(found[0]!.standing).toBe('moving');
  }
});

test('three stems have two unions', () => {
  const found = signs(
    '  stem A\n    union sound, with B\n  stem B\n    union cracked, with C\n  stem C\n    union sound\n',
  );
  expect(gravest(found)).toBe('moving');
});

test('a root or butt fungus belongs to the roots, whatever the stem section says', () => {
  for (const species of [
    'Kretzschmaria deusta',
    'Meripilus giganteus',
    'Armillaria mellea',
    'Ganoderma adspersum',
  ]) {
    const sign = one(defect('fungus', 'on trunk at 1 ft', `species ${species}`));
    expect(sign).toMatchObject({ part: 'roots and ground', standing: 'not judged' });
    expect(sign.settle).toContain('root');
  }
  expect(one(defect('fungus', 'on trunk at 1 ft')).part).toBe('roots and ground');
  expect(one(defect('fungus', 'on trunk at 30 ft', 'species Fomes fomentarius')).part).toBe('stem');
  expect(one(defect('fungus', 'on trunk at 30 ft')).part).toBe('stem');
});

test('a fungus of root or butt that was recorded with a decay leaves the anchorage unknown as well', () => {
  const kinds = (...fields: readonly string[]) =>
    signs(defect('decay', 'on trunk at 3 ft', 'diameter 30 in', 'wall 12 in', ...fields)).map(
      ({ kind, part, standing }) => `${kind}, ${part}: ${standing}`,
    );
  const unknown = 'fungus, roots and ground: not judged';
  expect(kinds('species Meripilus giganteus')).toContain(unknown);
  expect(kinds('species Fomes fomentarius')).not.toContain(unknown);
  expect(kinds()).not.toContain(unknown);
});

test('cavities that may be beyond the limit if they are connected are never within it', () => {
  const thin = 'diameter 30 in\n    wall 2 in';
  const text = `  inspection 2026-05-04 from ground
  defect A cavity
    on trunk at 4 ft
    ${thin}
  defect B cavity
    on trunk at 8 ft
    diameter 30 in
  joined A, B suspected
`;
  expect(signs(text).map(({ kind, standing }) => `${kind}: ${standing}`)).toEqual([
    'cavity: exceeds',
    'cavity: not judged',
    'joined: may exceed',
  ]);
});

test('a defect on a limb is the limb’s', () => {
  const found = signs(
    `  limb L1\n    diameter 8 in\n${defect('cavity', 'on L1 at 20 ft', 'diameter 8 in', 'wall 1 in')}`,
  );
  expect(found[0]).toMatchObject({ part: 'limb', members: ['L1'], standing: 'exceeds' });
});

test('closed and healed defects, and felled trees, have no sign', () => {
  expect(signs(defect('crack', 'closed 2026-05-20 "limb removed"'))).toEqual([]);
  expect(signs(defect('wound', 'state healed'))).toEqual([]);
  expect(signs(`  felled 2026-05-20\n${defect('crack')}`)).toEqual([]);
});

test('not judged never ranks below what may exceed', () => {
  const rank = (standing: SignStanding) => STANDINGS.indexOf(standing);
  expect(rank('not judged')).toBeGreaterThan(rank('may exceed'));
  const verdicts = STANDINGS.map(standing => ({ standing, why: '' }));
  expect([...verdicts].sort(byStanding).map(({ standing }) => standing)).toEqual([...STANDINGS].reverse());
});
