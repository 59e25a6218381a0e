import { expect, test } from 'vitest';
import { cutsWith, leastLateral, methodUses } from '../../server/assess/methods.ts';
import { parseDate } from '../../server/base/dates.ts';
import { treeIn } from './inventory.ts';

test('the least lateral that keeps a third is written 0.33, which stands for up to half of its last digit more', () => {
  expect(leastLateral(1 / 3)).toBe('0.33');
  expect(leastLateral(0.4)).toBe('0.4');
  expect(leastLateral(0.336)).toBe('0.34');
});

test('cuts keep their diameter when their laterals are named, unless it is over the limit', () => {
  const cuts = (line: string, species = 'Quercus garryana') => {
    const { tree, settings } = treeIn(`tree 1\n  species ${species}\n  prescription R1 reduce\n${line}`);
    return cutsWith(tree.prescriptions[0]!, '0.33', tree, settings);
  };
  expect(cuts('    cuts up to 3 in\n')).toBe('cuts up to 3 in, laterals 0.33');
  expect(cuts('    cuts up to 5 in\n')).toBe('cuts up to 4 in, laterals 0.33');
  expect(cuts('    cuts up to 3..12 cm\n')).toBe('cuts up to 10 cm, laterals 0.33');
  expect(cuts('    cuts up to 3 in\n', 'Betula pendula')).toBe('cuts up to 2 in, laterals 0.33');
  expect(cuts('')).toBe('cuts laterals 0.33');
});

test('methods of open work and of work within a year', () => {
  const { tree } = treeIn(`tree 1
  prescription R1 reduce
    method topping
  prescription R2 reduce
    method topping
  work R2 2025-11-01
  prescription R3 reduce
    method topping
  work R3 2024-11-01
  prescription R4 reduce
    method reduction cuts
`);
  const uses = methodUses(tree, parseDate('2026-06-01')!, new Set(['topping']));
  expect(uses.map(({ prescription, done }) => [prescription.id.value, done]).sort()).toEqual([
    ['R1', false],
    ['R2', true],
  ]);
});
