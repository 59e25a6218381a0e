import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import ICAL from 'ical.js';
import { expect, test } from 'vitest';
import { folderWith, ON } from './folder.ts';

const fernhollow = fileURLToPath(new URL('../../samples/fernhollow', import.meta.url));

test('Fernhollow: every kind of day, unique UIDs, the same on the same day', async () => {
  const folder = await folderWith({});
  const done = await folder.run('calendar', fernhollow, '--on', ON, '--to', 'court.ics');
  expect(done).toMatchObject({ code: 0, err: '' });
  expect(done.out).toMatch(/^court\.ics: \d+ dates of 84 trees\.\n$/);
  const text = await readFile(folder.file('court.ics'), 'utf8');
  expect((await folder.run('calendar', fernhollow, '--on', ON)).out).toBe(text);
  const events = new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent');
  const uids = events.map(event => event.getFirstPropertyValue('uid'));
  expect(new Set(uids).size).toBe(events.length);
  expect(new Set(events.map(event => event.getFirstPropertyValue('categories')))).toEqual(
    new Set([
      'window',
      'last day for work',
      'nest check',
      'nest check ends',
      'follow-up',
      're-inspection',
      'support inspection',
      'support ends',
      'wall reading',
      'permit ends',
      'exception ends',
    ]),
  );
  expect(uids).toContain('Fernhollow%20Court/14/permit%20ends/TR-2291@soundwood');
});

test('what can not be read is said', async () => {
  const folder = await folderWith({ 'a.wood': 'tree 1\n  follow-up F1 probe\n    due 2026-07-01\n' });
  const { code, out, err } = await folder.run('calendar', 'a.wood', 'b.wood');
  expect(code).toBe(2);
  expect(out).toContain('DTSTART;VALUE=DATE:20260701\r\n');
  expect(err).toContain('b.wood does not exist');
});
