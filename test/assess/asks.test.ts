import { expect, test } from 'vitest';
import { asksOfCutting } from '../../server/assess/asks.ts';
import { dayContext } from './inventory.ts';

const asks = (lines: string) => {
  const context = dayContext(
    `practice "Office"\n  season nesting 02-01..08-31\n    because "county permit"\n\ntree 1\n${lines}`,
  );
  return asksOfCutting(context, context.today)
    .map(({ words }) => words)
    .join('\n');
};

test('the nesting season is always named, with the days that a check holds', () => {
  expect(asks('')).toBe(
    'avoid the nesting season 02-01..08-31, or have a nest check made at most 7 days before the work',
  );
});

test('an active nest, a permit or its lack, a line and a roost', () => {
  expect(asks('  nest check 2026-05-30 from ground\n    found active\n')).toContain(
    'the nest found active on 2026-05-30',
  );
  expect(asks('  protected by "city list"\n')).toContain('a permit for this work');
  expect(asks('  protected permit TR-1, until 2026-12-31\n')).toContain(
    'permit TR-1 is valid until 2026-12-31',
  );
  expect(asks('  conductor "Lane line"\n')).toContain('use a line-clearance crew');
  expect(asks('  defect A cavity\n    diameter 30 in\n    opening 4 in wide\n    depth 10 in\n')).toContain(
    'bat check',
  );
});

test('where something gives way, people are kept out before anything else', () => {
  expect(asks('  defect A crack\n    on trunk at 4 ft\n    state increasing\n')).toMatch(
    /^keep people out of its reach now; /,
  );
});
