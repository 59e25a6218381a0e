/** A second visit as people type it: whatever the way, it is read again and nothing is an error. */

import { describe, expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { latestState } from '../../server/facts/state.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';

const TODAY = parseDate('2026-06-01')!;

const ABOVE = `site "Court"
  region US-OR
  wind 92 mph, exposure B
  interval 30 months

person RV "Ruth Varga"
  qualified consulting arborist

`;

const TREE = `tree 14 "Lawn maple"
  species Acer macrophyllum
  dbh 30 in
  height 60 ft
  crown from 12 ft, 48 ft wide
  age mature
  vigor good
  soil firm
`;

const FIRST = `  inspection 2023-05-16 from ground
    by RV
    level basic

  stem North
    from 9 ft
    diameter 20 in
    union sound

  limb L1
    from 16 ft, facing S
    diameter 8 in
    parent 20 in
    length 24 ft
    union sound

  defect A cavity
    on trunk at 5 ft, facing NW
    diameter 31 in
    opening 4 in wide, 9 in tall
    wall 11 in at N, 11 in at E, 11 in at S, 11 in at W

  defect B wound
    on trunk at 7 ft, facing S
    length 12 in
    width 3 in

  target "Play lawn"
    distance 14 ft toward S
    occupied frequent
    kind people

  risk "Play lawn" from A
    failure possible
    impact medium
    consequences severe
    rating low
`;

/** What the second visit read, in the words of each writer. */
const SECOND: Readonly<Record<string, string>> = {
  'only what changed': `  inspection 2026-05-20 from ground
    by RV
    dbh 31 in
    vigor fair

  defect A cavity
    wall 10.6 in at N, 10.6 in at E, 10.4 in at S, 10.6 in at W
`,
  'the whole block again': `${FIRST.replace('2023-05-16', '2026-05-20').replace(
    'wall 11 in at N, 11 in at E, 11 in at S, 11 in at W',
    'wall 10.6 in at N, 10.6 in at E, 10.4 in at S, 10.6 in at W',
  )}`.replace('    level basic\n', '    level basic\n    dbh 31 in\n    vigor fair\n'),
  'in another order': `  inspection 2026-05-20 from ground
    vigor fair
    dbh 31 in
    by RV

  target "Play lawn"
    occupied frequent

  limb L1
    length 25 ft

  defect A cavity
    wall 10.6 in at W, 10.4 in at S, 10.6 in at E, 10.6 in at N
    opening 5 in wide, 10 in tall

  stem North
    diameter 20.6 in
`,
  'in other units': `  inspection 2026-05-20 from ground
    by RV
    dbh 79 cm
    height 18.5 m
    crown from 3.7 m, 14.8 m wide
    vigor fair

  defect A cavity
    opening 12 cm wide, 25 cm tall
    wall 27 cm at N, 27 cm at E, 26.5 cm at S, 27 cm at W

  limb L1
    length 7.6 m
`,
  'with the words that end things': `  inspection 2026-05-20 from ground
    by RV
    dbh 31 in
    vigor fair
    lean 2 deg toward N
    dieback 5 %

  defect A cavity
    wall 10.6 in at N, 10.6 in at E, 10.4 in at S, 10.6 in at W

  defect B wound
    state healed

  limb L1
    removed 2025-01-10 "broke off in the January storm"

  target "Play lawn"
    removed 2024-09-01 "moved to the pond"
`,
  'each with the day on which it was seen': `  inspection 2026-05-20 from ground
    by RV
    dbh 31 in
    vigor fair

  defect A cavity
    seen 2026-05-20
    wall 10.6 in at N, 10.6 in at E, 10.4 in at S, 10.6 in at W

  stem North
    seen 2026-05-20
    diameter 20.6 in
`,
  'with new things beside the old': `  inspection 2026-05-20 from ground
    by RV
    dbh 31 in
    vigor fair

  defect A cavity
    wall 10.6 in at N, 10.6 in at E, 10.4 in at S, 10.6 in at W
    note "rim rolls in on the west side"

  defect C dead wood
    on North at 30 ft
    diameter 1 in
    length 4 ft

  nest check 2026-05-20 from ground
    by RV
    found none
`,
};

/** Where the second visit stands. */
const PLACES: Readonly<Record<string, (second: string) => string>> = {
  'below the older one': second => `${TREE}\n${FIRST}\n${second}`,
  'above the older one': second => `${TREE}\n${second}\n${FIRST}`,
};

describe.each(Object.keys(PLACES))('a second visit %s', place => {
  test.each(Object.keys(SECOND))('%s', way => {
    const path = 'court.wood';
    const workspace = buildWorkspace([readFile(path, `${ABOVE}${PLACES[place]!(SECOND[way]!)}`)]);
    const findings = checkWorkspace(workspace, TODAY);
    const wrong = findings.filter(({ level, grade }) => level === 'error' || grade === 'syntax');
    expect(wrong.map(({ message }) => message)).toEqual([]);
    // Nobody wrote down that time ran backward.
    expect(findings.filter(({ rule }) => /backwards|contradict|duplicate|date-order/.test(rule))).toEqual([]);
    const tree = latestState(workspace.files.get(path)!.trees[0]!.fact);
    expect(tree.diameters[0]!.value.low).toBeCloseTo(0.787, 2);
    expect(tree.vigor?.value).toBe('fair');
    const [cavity, ...others] = tree.defects.filter(({ id }) => id.value === 'A');
    expect(others).toEqual([]);
    expect(cavity!.earlier).toHaveLength(1);
    expect(Math.min(...cavity!.walls.map(({ thickness }) => thickness.value.low))).toBeCloseTo(0.264, 2);
    // What the second visit leaves out is carried over.
    expect(cavity!.height?.value.low).toBeCloseTo(1.524, 3);
    expect(cavity!.diameter?.value.low).toBeCloseTo(0.787, 2);
  });
});

test('a wall that was taped thicker than before settles nothing: it may be as thin as it was', () => {
  const path = 'court.wood';
  const losses = (second: string) => {
    const text = `${ABOVE}${TREE}\n${FIRST.replace('wall 11 in at N, 11 in at E, 11 in at S, 11 in at W', 'wall 3 in at N, 3 in at E, 3 in at S, 3 in at W')}\n  inspection 2026-05-20 from ground\n  defect A cavity\n    wall ${second}\n`;
    return checkWorkspace(buildWorkspace([readFile(path, text)]), TODAY)
      .map(({ rule }) => rule)
      .filter(rule => rule === 'strength-loss' || rule === 'readings-contradict');
  };
  expect(losses('2.9 in at N, 2.9 in at E, 2.9 in at S, 2.9 in at W')).toContain('strength-loss');
  const thicker = losses('12 in at N, 12 in at E, 12 in at S, 12 in at W');
  expect(thicker).toContain('readings-contradict');
  expect(thicker).toContain('strength-loss');
});
