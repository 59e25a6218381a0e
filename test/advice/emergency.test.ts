/** A tree that gives way now is not told to wait for September: the season stays on record, and people are kept out. */

import { expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { fixes } from '../../server/language/fixes.ts';
import { checkFile } from '../../server/rules/check.ts';

const ON = parseDate('2026-06-01')!;

/** What moves, or was rated extreme; each line by line. */
const SIGNS: Readonly<Record<string, string>> = {
  'a lean that is new': '  lean 12 deg toward N, new\n',
  'a lean that increases': '  lean 12 deg toward N, increasing\n',
  'soil that heaves': '  soil heaving\n',
  'soil that is cracked': '  soil cracked\n',
  'a cracked union': '  stem West\n    union cracked, with East\n  stem East\n',
  'a hanger': '  defect H hanger\n',
  'a crack that grows': '  defect K crack\n    state increasing\n',
  'an extreme rating':
    '  target "Playground"\n    distance 10 ft\n    occupied constant\n  risk "Playground"\n    failure imminent\n    impact high\n    consequences severe\n    rating extreme\n',
};

const HOLLOW = '  defect A cavity\n    on trunk at 9 ft\n';
const WORK = '  prescription R1 reduce\n    dose 10 %\n    between 2026-06-08..2026-06-12\n';

/** Records that close the days of the work, by the rule that says so. */
const CLOSED: Readonly<Record<string, string>> = {
  'nest-check-missing': WORK,
  'nest-check-stale': `  nest check 2026-05-20 from rope\n    found none\n${WORK}`,
  'nest-active': `  nest check 2026-05-30 from rope\n    found active\n${WORK}`,
  'bat-check-missing': `${HOLLOW}${WORK}`,
  'bat-check-stale': `${HOLLOW}  bat check 2026-05-10 from rope\n    found none\n${WORK}`,
  'bat-roost': `${HOLLOW}  bat check 2026-05-30 from rope\n    found roost in A\n${WORK}`,
  'pruning-season': WORK,
  'pruning-stressed': `  stressed by drought, since 2026-01-10\n${WORK}`,
  'permit-expired': `  protected by "city list" permit TR-1, until 2026-06-10\n${WORK}`,
  'permit-missing': `  protected by "city list"\n${WORK.replace('10 %', '60 %')}`,
  'season-dose': WORK.replace('10 %', '60 %'),
  'cumulative-dose': `${WORK}  prescription R0 thin\n    dated 2025-06-01\n  work R0 2025-10-10\n    dose 25 %\n`,
};

function told(rule: string, sign: string) {
  // Fields of the tree go before its heads.
  const [, fields, records] = /^((?: {2}(?:protected|stressed).*\n)?)([\s\S]*)$/.exec(CLOSED[rule]!)!;
  const file = readFile(
    'a.wood',
    `site "Court"\n  region US-MN\n\ntree 1\n  species Quercus rubra\n${fields}${sign}${records}`,
  );
  const workspace = buildWorkspace([file]);
  const finding = checkFile(workspace, file, ON).find(
    one => one.rule === rule && (one.subject === 'R1' || rule === 'pruning-season'),
  );
  expect(finding, `${rule} with ${sign}`).toBeDefined();
  const within = { start: 0, end: file.text.length };
  const titles = fixes({ workspace, today: ON }, file, within).map(({ title }) => title);
  return { ...finding!, titles };
}

const DAY = /\d{4}-\d{2}-\d{2}/;
const LATER = /\b(?:move the work|keep the work to|wait until|stages a year apart)\b/i;

test.each(Object.keys(CLOSED))('%s names no later day where something gives way', rule => {
  const calm = told(rule, '');
  for (const [what, sign] of Object.entries(SIGNS)) {
    const { remedy, level, grade, titles } = told(rule, sign);
    expect({ what, level, grade }).toEqual({ what, level: calm.level, grade: calm.grade });
    expect(remedy).not.toMatch(DAY);
    expect(remedy).not.toMatch(LATER);
    expect(titles.filter(title => LATER.test(title))).toEqual([]);
  }
});

const KEEP_OUT = Object.keys(CLOSED).filter(rule => !/-dose$/.test(rule));

test.each(KEEP_OUT)('%s has people kept out and somebody asked at once', rule => {
  for (const sign of Object.values(SIGNS)) {
    const { remedy } = told(rule, sign);
    expect(remedy).toMatch(/^Keep people out of its reach now/);
    if (/^(?:nest|bat)-|^pruning-season/.test(rule))
      expect(remedy).toMatch(/authority or a licensed biologist.*check for nests and roosts the same day/);
  }
});

test('without such a sign the work moves', () => {
  expect(told('nest-check-missing', '').remedy).toMatch(/^Move the work to 2026-/);
  expect(told('nest-check-missing', '').titles).toContainEqual(expect.stringMatching(/^Move the work to /));
});

test.each([
  ['a lean that stays', '  lean 12 deg toward N, steady\n'],
  ['a crack that stays', '  defect K crack\n    state steady\n'],
  ['a hanger that is gone', '  defect H hanger\n    closed 2026-05-01\n'],
])('%s is no emergency', (_, sign) => {
  expect(told('nest-check-missing', sign).remedy).toMatch(/^Move the work to /);
});
