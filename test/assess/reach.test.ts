import { describe, expect, test } from 'vitest';
import { isClosedThrough, reachOf, targetsInReach } from '../../server/assess/reach.ts';
import { parseDate } from '../../server/base/dates.ts';
import { treeIn } from './inventory.ts';

const day = (text: string): number => parseDate(text)!;
const targets = (lines: string, height = '  height 60 ft\n') => treeIn(`tree 1\n${height}${lines}`);
const inReach = (lines: string, height?: string) => {
  const { tree, settings } = targets(lines, height);
  return targetsInReach(tree, settings).map(({ name }) => name.value);
};
const LAWN = (more = '') => `  target "Lawn"\n    distance 12 ft\n${more}`;

describe('targets in reach', () => {
  test('are no farther away than the tree is tall', () => {
    const at = (distance: string) => inReach(`  target "Lawn"\n    distance ${distance}\n`);
    expect(at('60 ft')).toEqual(['Lawn']);
    expect(at('61 ft')).toEqual([]);
    expect(at('55..70 ft')).toEqual(['Lawn']);
  });

  test('are all where height or distance are not known', () => {
    expect(inReach('  target "Lawn"\n')).toEqual(['Lawn']);
    expect(inReach('  target "Lawn"\n    distance unseen\n')).toEqual(['Lawn']);
    expect(inReach('  target "Lawn"\n    distance 500 ft\n', '')).toEqual(['Lawn']);
  });
});

describe('a target', () => {
  const reach = (lines: string, today = '2026-06-01') => {
    const { tree, settings } = targets(lines);
    const { targets: state, open } = reachOf(tree, settings, day(today));
    return [state, ...open.map(({ name }) => name.value)];
  };

  test('that is not on record is not out of reach', () => {
    expect(reach('')).toEqual(['not recorded']);
    expect(reach('  target "Lawn"\n    distance 61 ft\n')).toEqual(['out of reach']);
  });

  test('is closed from its first day to its last, where somebody sees to it', () => {
    const closed = LAWN('    closed 2026-06-01, until 2026-06-30, by RV\n');
    expect(reach(closed, '2026-05-31')).toEqual(['open', 'Lawn']);
    expect(reach(closed)).toEqual(['closed']);
    expect(reach(closed, '2026-06-30')).toEqual(['closed']);
    expect(reach(closed, '2026-07-01')).toEqual(['open', 'Lawn']);
    expect(reach(LAWN('    closed 2026-06-01, by RV\n'), '2030-01-01')).toEqual(['closed']);
    expect(reach(`${closed}  target "Path"\n    distance 5 ft\n`)).toEqual(['open', 'Path']);
  });

  test('is closed through a stretch of days where it is on both ends', () => {
    const { tree } = targets(LAWN('    closed 2026-06-01, until 2026-06-30, by RV\n'));
    const through = (from: string, to: string) => isClosedThrough(tree.targets[0]!, day(from), day(to));
    expect(through('2026-06-01', '2026-06-30')).toBe(true);
    expect(through('2026-06-01', '2026-07-01')).toBe(false);
    expect(through('2026-05-31', '2026-06-30')).toBe(false);
  });
});
