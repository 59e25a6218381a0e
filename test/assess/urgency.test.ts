/** By when a tree needs somebody. */

import { expect, test } from 'vitest';
import { urgencyOf } from '../../server/assess/urgency.ts';
import { dayContext } from './inventory.ts';

const urgency = (lines: string): string =>
  urgencyOf(
    dayContext(`person RV "Ruth Varga"
  qualified consulting arborist
tree 1
  species Quercus robur
  dbh 60 cm
  height 20 m
${lines.replace(/^/gm, '  ')}
  inspection 2026-05-20 from ground
    by RV
`),
  );

const TARGET = 'target "Path"\n  kind people\n  distance 3 m\n  occupied frequent\n';

test.each([
  ['a part that is failing', 'lean 12 deg toward N, increasing\nsoil heaving'],
  ['a risk rated extreme', `${TARGET}risk "Path"\n  rating extreme`],
  ['a high risk without any work', `${TARGET}risk "Path"\n  rating high`],
  ['a sign beyond its limit without a response', `${TARGET}defect A root loss\n  share 60 % of roots`],
  ['the same where no target is recorded', 'defect A root loss\n  share 60 % of roots'],
  [
    'work of immediate priority',
    'prescription R1 clean\n  priority immediate\n  between 2026-09-01..2026-09-30',
  ],
  ['a work window that has passed', 'prescription R1 clean\n  between 2026-03-01..2026-03-31'],
  ['an investigation that is overdue', 'follow-up F1 probe\n  due 2026-05-01'],
])('now: %s', (_, lines) => {
  expect(urgency(lines)).toBe('now');
});

test.each([
  ['work within half a year', 'prescription R1 clean\n  between 2026-09-01..2026-09-30'],
  ['work without a day', 'prescription R1 clean'],
  ['a sign that could not be judged', 'defect A cavity\n  on trunk at 1 m'],
])('this season: %s', (_, lines) => {
  expect(urgency(lines)).toBe('this season');
});

test.each([
  ['nothing on record', ''],
  ['work next year', 'prescription R1 clean\n  between 2027-03-01..2027-03-31'],
  ['a felled tree', 'felled 2026-05-21\ndefect A cavity\n  on trunk at 1 m'],
])('watch: %s', (_, lines) => {
  expect(urgency(lines)).toBe('watch');
});
