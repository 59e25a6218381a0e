import { expect, test } from 'vitest';
import { answersRisk } from '../../server/assess/causes.ts';
import { treeIn } from './inventory.ts';

const answers = (prescription: string, risk: string) => {
  const { tree } = treeIn(`tree 1
  limb L1
  defect A crack
    on L1 at 20 ft
  defect B crack
  target "Path"
  risk "Path"${risk}
  prescription R1 reduce${prescription}
`);
  return answersRisk(tree, tree.prescriptions[0]!, tree.risks[0]!);
};

test('a prescription answers the risk from what it is for, by the defect or the part that has it', () => {
  expect(answers('\n    for A', ' from A')).toBe(true);
  expect(answers('\n    for L1', ' from A')).toBe(true);
  expect(answers('\n    for B', ' from A')).toBe(false);
  expect(answers('\n    for L1', ' from B')).toBe(false);
});

test('one for nothing in particular answers all, and a risk from nothing in particular is answered by all', () => {
  expect(answers('', ' from A')).toBe(true);
  expect(answers('\n    for B', '')).toBe(true);
});
