import { expect, test } from 'vitest';
import { strengthOf } from '../../server/assess/strength.ts';
import { anyHollow, generator } from './any-hollow.ts';
import { treeIn } from './inventory.ts';

/** An exact reading of a line, `26 in`, as a range around it. */
const EXACT = /(?<![.~<>\d] ?)(?<!\.\.)\b(\d+(?:\.\d+)?) (in|cm)/;
const widened = (line: string): string =>
  line.replace(EXACT, (_, value, unit) => {
    const by = unit === 'in' ? 1 : 2.5;
    return `${Math.max(0, Number(value) - by)}..${Number(value) + by} ${unit}`;
  });

/** What the margins of a search may add or take. */
const MARGIN = 0.01;

test('a reading that is less certain never narrows a figure, whichever way the figure is found', () => {
  const random = generator(5);
  const figuresOf = (lines: readonly string[]) => {
    const text = lines.map(line => `  ${line}\n`).join('');
    const { tree, settings } = treeIn(`tree 1\n  inspection 2026-05-04 from ground\n${text}`);
    return strengthOf(tree, settings).defects[0]!.figures;
  };
  let compared = 0;
  for (let i = 0; i < 800; i++) {
    const lines = anyHollow(random, 'A');
    const exact = lines.flatMap((line, at) =>
      /^ {2}(diameter|wall|depth|opening|bark) /.test(line) && !/ x /.test(line) && EXACT.test(line)
        ? [at]
        : [],
    );
    const at = exact[Math.floor(random() * exact.length)];
    if (at === undefined) continue;
    const [before, after] = [figuresOf(lines), figuresOf(lines.with(at, widened(lines[at]!)))];
    // Readings that contradict each other may agree once one of them is less certain: then both count.
    if (before.contradictions.length > after.contradictions.length) continue;
    compared++;
    const told = `${lines.join('\n')}\n${widened(lines[at]!)}`;
    expect(after.strengthLoss.low, told).toBeLessThanOrEqual(before.strengthLoss.low + MARGIN);
    expect(after.strengthLoss.high, told).toBeGreaterThanOrEqual(before.strengthLoss.high - MARGIN);
  }
  expect(compared).toBeGreaterThan(500);
});
