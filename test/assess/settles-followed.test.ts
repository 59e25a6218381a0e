import { expect, test } from 'vitest';
import { judge } from '../../server/assess/judge.ts';
import { settlesDefect } from '../../server/assess/settles.ts';
import { strengthOf } from '../../server/assess/strength.ts';
import { anyHollow, generator } from './any-hollow.ts';
import { treeIn } from './inventory.ts';

const TOLD =
  /^A (?<what>.+) of (?<length>[\d.]+ (?:in|cm)) or (?:more|less) at A would settle it: the loss of the section is then (?<side>within|beyond) /;

/** The hollow with a reading that was told in place of its own. */
function withReading(lines: readonly string[], what: string, length: string): readonly string[] | undefined {
  const put = (word: string, line: string) => [
    ...lines.filter(one => !one.startsWith(`  ${word} `)),
    `  ${word} ${line}`,
  ];
  if (what === 'sound wall') return put('wall', length);
  if (what.startsWith('depth')) return put('depth', length);
  if (what.startsWith('width')) return put('opening', `${length} wide`);
  return what.startsWith('thickness') ? put('bark', length) : undefined;
}

test('a reading that is said to settle a hollow settles it', () => {
  const random = generator(99);
  const strengthWith = (lines: readonly string[]) => {
    const text = lines.map(line => `  ${line}\n`).join('');
    const { tree, settings } = treeIn(`tree 1\n  inspection 2026-05-04 from ground\n${text}`);
    return { defect: strengthOf(tree, settings).defects[0]!, settings };
  };
  let followed = 0;
  for (let i = 0; i < 600; i++) {
    const lines = anyHollow(random, 'A');
    const { defect, settings } = strengthWith(lines);
    const told = TOLD.exec(settlesDefect(defect, settings)?.text ?? '')?.groups;
    const then = told && withReading(lines, told.what!, told.length!);
    if (!then) continue;
    followed++;
    const after = strengthWith(then);
    const { standing } = judge(after.defect.figures.strengthLoss, 'section-loss', after.settings);
    expect(standing, `${lines.join('\n')}\n${told.what} ${told.length}`).toBe(
      told.side === 'within' ? 'within' : 'exceeds',
    );
  }
  expect(followed).toBeGreaterThan(80);
});
