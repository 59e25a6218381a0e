import { expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';

test('of a prescription whose kind could not be read nothing is said that rests on it', () => {
  const text = `person RV "Ruth Varga"

tree 14
  prescription reduce
  prescription R1 prune
    by RV
`;
  const said = checkWorkspace(buildWorkspace([readFile('a.wood', text)]), parseDate('2026-06-01')!);
  expect(said.map(({ rule, line }) => `${line} ${rule}`)).toEqual([
    '4 incomplete',
    '5 unexpected',
    '6 unqualified-person',
  ]);
  expect(said[2]!.message).toMatch(/^Prescription R1 names Ruth Varga/);
});

test('a person whose full name could not be read goes by the short one', () => {
  const text = `person RV Ruth Varga

tree 14
  prescription R1 clean
    by RV
`;
  const said = checkWorkspace(buildWorkspace([readFile('a.wood', text)]), parseDate('2026-06-01')!);
  expect(said.find(({ rule }) => rule === 'unqualified-person')!.message).toContain('R1 names RV, who');
});
