import { expect, test } from 'vitest';
import { isEmergency } from '../../server/assess/emergency.ts';
import { dayContext } from './inventory.ts';

const emergency = (lines: string) => isEmergency(dayContext(`tree 1\n${lines}`));
const CRACK = '  defect A crack\n    on trunk at 4 ft\n    state increasing\n';
const EXTREME =
  '  target "Path"\n  risk "Path"\n    failure imminent\n    impact high\n    consequences severe\n';

test('something gives way, or a risk is extreme', () => {
  expect(emergency(CRACK)).toBe(true);
  expect(emergency(EXTREME)).toBe(true);
});

test('what exceeds a limit without moving, a lower rating and a felled tree are none', () => {
  expect(emergency('  defect A root decay\n    share 60 % of roots\n')).toBe(false);
  expect(emergency(EXTREME.replace('imminent', 'probable'))).toBe(false);
  expect(emergency(`  felled 2026-05-30\n${CRACK}`)).toBe(false);
});
