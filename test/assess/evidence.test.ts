import { describe, expect, test } from 'vitest';
import { inspectionsOf, isAnswered, lastLook, openDefects } from '../../server/assess/evidence.ts';
import { formatDate, parseDate } from '../../server/base/dates.ts';
import { treeIn } from './inventory.ts';

const today = parseDate('2026-06-01')!;

describe('defects that still matter', () => {
  test('neither closed nor healed', () => {
    const { tree } = treeIn(`tree 1
  inspection 2026-04-02 from ground
  defect A crack
  defect B wound
    state healed
  defect C hanger
    closed 2026-05-01
`);
    expect(openDefects(tree).map(({ id }) => id.value)).toEqual(['A']);
  });

  test('none on a felled tree', () => {
    const { tree } = treeIn(`tree 1
  felled 2026-05-01
  defect A crack
`);
    expect(openDefects(tree)).toEqual([]);
  });
});

describe('the last look', () => {
  const look = (text: string) => {
    const last = lastLook(treeIn(text).tree, today);
    return last && formatDate(last.day);
  };

  test('is the latest inspection, wherever it stands', () => {
    expect(
      look(`tree 1
  inspection 2026-04-02 from ground
  inspection 2025-04-02 from ground
`),
    ).toBe('2026-04-02');
  });

  test('counts a re-inspection done, not a tomogram', () => {
    expect(
      look(`tree 1
  inspection 2025-04-02 from ground
  follow-up F1 re-inspection
    done 2025-10-02
  follow-up F2 tomogram
    done 2026-02-02
`),
    ).toBe('2025-10-02');
  });

  test('is not one that is still to come', () => {
    expect(look('tree 1\n  inspection 2026-09-02 from ground\n')).toBeUndefined();
  });
});

test('inspections that could see a defect are those from the day it was seen', () => {
  const { tree } = treeIn(`tree 1
  inspection 2025-04-02 from rope
  inspection 2026-04-02 from ground
  defect A crack
`);
  expect(inspectionsOf(tree, tree.defects[0]!).map(({ from }) => from.value)).toEqual(['ground']);
});

describe('a defect is answered', () => {
  const answered = (text: string) => {
    const { tree } = treeIn(`tree 1
  inspection 2026-04-02 from ground
  stem South
  defect A crack
    on South at 4 ft
${text}`);
    return isAnswered(tree, tree.defects[0]!);
  };

  test.each([
    ['by a follow-up of it', '  follow-up F1 probe\n    of A\n', true],
    ['not by one that is done', '  follow-up F1 probe\n    of A\n    done 2026-05-01\n', false],
    ['not by one of another defect', '  follow-up F1 probe\n    of B\n', false],
    ['by an investigation', '  prescription R1 investigate\n', true],
    ['by felling', '  prescription R1 fell\n', true],
    ['by taking off its part', '  prescription R1 fell\n    remove South\n', true],
    ['not by taking off another part', '  prescription R1 fell\n    remove North\n', false],
    ['not by felling that was withdrawn', '  prescription R1 fell\n    withdrawn 2026-05-01\n', false],
    ['not by pruning', '  prescription R1 reduce\n    for A\n', false],
  ])('%s', (_how, text, expected) => {
    expect(answered(text)).toBe(expected);
  });
});
