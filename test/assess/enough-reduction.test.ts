import { expect, test } from 'vitest';
import { answeringReductions } from '../../server/assess/answers.ts';
import { enoughReduction } from '../../server/assess/enough-reduction.ts';
import { judge } from '../../server/assess/judge.ts';
import { loadUnder } from '../../server/assess/load.ts';
import { strengthOf } from '../../server/assess/strength.ts';
import { dayContext } from './inventory.ts';

/** A ring of 30 in: 5.2 in of wall leave 82 % of its strength, 2 in 44 %. */
const lime = (wall: string, ...lines: readonly string[]) =>
  dayContext(`tree 1
  dbh 30 in
  height 60 ft
  crown from 15 ft, 40 ft wide
  age young
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    bark 0 in
    wall ${wall}
  prescription R1 reduce
    for A
${lines.map(line => `    ${line}\n`).join('')}`);

const enough = (context: ReturnType<typeof lime>) =>
  enoughReduction(context, answeringReductions(context.tree, context.settings)[0]!);

const stress = ({ tree, site, settings }: ReturnType<typeof lime>) => {
  const load = loadUnder(tree, tree.prescriptions[0]!, strengthOf(tree, settings), site, settings)!;
  return judge(load.sections[0]!.stressRatio, 'stress-ratio', settings);
};

test('the lines keep the stress within the limit, and a foot less does not', () => {
  const lines = enough(lime('5.2 in'))!;
  expect(lines[0]).toMatch(/^height 60 ft to [\d.]+ ft$/);
  expect(lines[1]).toMatch(/^spread 40 ft to [\d.]+ ft$/);
  expect(stress(lime('5.2 in', ...lines)).standing).toBe('within');
  const less = lines
    .slice(0, 2)
    .map(line => line.replace(/to ([\d.]+)/, (_, size) => `to ${Number(size) + 1}`));
  expect(stress(lime('5.2 in', ...less)).standing).not.toBe('within');
});

test('none where the limits on doses do not allow it, in any number of stages', () => {
  expect(enough(lime('2 in'))).toBeUndefined();
});
