import { styleText } from 'node:util';
import { expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import type { Finding } from '../../server/rules/check.ts';
import { showFinding } from '../../server/show/findings-lines.ts';
import { plain, showSummary } from '../../server/show/terminal.ts';

const FINDING: Finding = {
  rule: 'season-dose',
  level: 'warning',
  grade: 'may exceed',
  file: 'trees.wood',
  start: 8,
  end: 12,
  line: 3,
  column: 9,
  endLine: 3,
  endColumn: 13,
  tree: '14',
  subject: 'R1',
  message: 'R1 takes 18 % of the foliage.',
  remedy: 'Stage it over two seasons.',
};

test('a finding on lines, with related places', () => {
  const finding = {
    ...FINDING,
    related: [{ file: 'people.wood', line: 1, column: 1, message: 'The person.' }],
  };
  expect(showFinding(finding, 'in/trees.wood', '  dose  18 %', plain)).toBe(
    [
      'in/trees.wood:3:9: warning: R1 takes 18 % of the foliage. [season-dose]',
      '     3 |   dose  18 %',
      '       |         ^^^^',
      '  Stage it over two seasons.',
      '  people.wood:1:1: The person.',
      '',
    ].join('\n'),
  );
});

test('an accepted finding is no warning any more, and says who accepted it', () => {
  const accepted = { by: 'RV', until: parseDate('2027-03-01')!, because: 'scaffold in February' };
  const text = showFinding({ ...FINDING, accepted }, 'trees.wood', '  dose  18 %', plain);
  expect(text).toContain('trees.wood:3:9: note: accepted: R1 takes');
  expect(text).toContain('  Accepted by RV until 2027-03-01: scaffold in February\n');
  expect(text).not.toContain('warning');
});

test('the marker stands under the stretch: tabs, wide letters, long lines', () => {
  const under = (line: string, column: number, endColumn: number) => {
    const text = showFinding({ ...FINDING, column, endColumn }, 'a', line, plain).split('\n');
    return [text[1], text[2]];
  };
  expect(under('\tdose 18 %', 7, 11)).toEqual(['     3 | \tdose 18 %', '       | \t     ^^^^']);
  expect(under('楓 dose', 3, 7)).toEqual(['     3 | 楓 dose', '       |    ^^^^']);
  expect(under('e\u0301 🌳 dose', 7, 11)).toEqual(['     3 | e\u0301 🌳 dose', '       |      ^^^^']);
  const [excerpt, marker] = under(`${'a'.repeat(500)}MARK${'b'.repeat(500)}`, 501, 505);
  expect(excerpt!.length).toBeLessThan(120);
  expect(excerpt!.slice(marker!.indexOf('^'), marker!.lastIndexOf('^') + 1)).toBe('MARK');
});

test('an empty stretch still gets a marker', () => {
  expect(showFinding({ ...FINDING, endColumn: 9 }, 'a', '  dose  ', plain)).toContain(
    '\n       |         ^\n',
  );
});

test('colours surround the level and leave the text as it is', () => {
  const paint = (format: Parameters<typeof plain>[0], text: string) =>
    styleText(format, text, { validateStream: false });
  const coloured = showFinding(FINDING, 'a', '  dose  18 %', paint);
  expect(coloured).toContain('\x1b[33mwarning:\x1b[39m');
  expect(coloured.replace(/\x1b\[\d+m/g, '')).toBe(showFinding(FINDING, 'a', '  dose  18 %', plain));
});

test('the summary counts in plain English', () => {
  const summary = { trees: 1, files: 2, errors: 1, warnings: 0, notes: 3, accepted: 2 };
  const signs = { judged: 5, notJudged: 7, beyond: 1 };
  expect(showSummary({ ...summary, ...signs }, plain)).toBe(
    '1 tree in 2 files: 1 error, 0 warnings, 3 notes; 2 accepted; 7 signs not judged.\n',
  );
});

test.each([
  [{ judged: 3, notJudged: 0, beyond: 0 }, 'All that is recorded was judged and lies within its limits.'],
  [{ judged: 3, notJudged: 0, beyond: 1 }, '1 sign beyond a limit or perhaps beyond it, addressed in time.'],
  [{ judged: 0, notJudged: 0, beyond: 0 }, 'No sign that needs judging is on record.'],
])('silence says what it means: %o', (signs, words) => {
  const summary = { trees: 2, files: 1, errors: 0, warnings: 0, notes: 0, accepted: 0, ...signs };
  expect(showSummary(summary, plain)).toBe(`2 trees in 1 file: 0 errors, 0 warnings, 0 notes. ${words}\n`);
});
