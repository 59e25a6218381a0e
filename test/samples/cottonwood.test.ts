/** The sample of an estate: nothing of it is misread, all its work is priced, and its crew reads Spanish. */

import { expect, test } from 'vitest';
import { folderWith } from '../cli/folder.ts';

const FOLDER = `${process.cwd()}/samples/cottonwood-bench`;

test('what the check says of it is meant: a bat check too old, a line without its crew', async () => {
  const here = await folderWith({});
  const { code, out } = await here.run('check', FOLDER, '--date', '2026-06-01', '--format', 'json');
  expect(code).toBe(0);
  const { findings } = JSON.parse(out) as { findings: readonly { rule: string; level: string }[] };
  expect(findings.filter(({ level }) => level !== 'note').map(({ rule }) => rule)).toEqual([
    'bat-check-stale',
    'bat-check-stale',
    'conductor-crew',
  ]);
});

test('its quote has both ends of the choice at the gate, and no job without a price', async () => {
  const here = await folderWith({});
  const { out } = await here.run('report', FOLDER, '--for', 'client', '--date', '2026-06-01');
  const text = out.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
  expect(text).toContain('Subtotal $6,480.00 to $8,830.00 Tax, 7.75 % $502.20 to $684.33');
  expect(text).not.toContain('not priced');
});

test('its work orders are in Spanish, the line and what it means among them', async () => {
  const here = await folderWith({});
  const { out } = await here.run('report', FOLDER, '--for', 'crew', '--date', '2026-06-01');
  expect([...out.matchAll(/class="order[^"]*" lang="(\w+)"/g)].map(([, code]) => code)).toEqual(
    Array.from({ length: 7 }, () => 'es'),
  );
  expect(out).toContain('no consta que la cuadrilla esté calificada para despejar líneas');
});
