import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { parseDate } from '../grammar/dates.ts';
import { buildWorkspace, readFile } from '../server/facts/workspace.ts';
import { checkWorkspace } from '../server/rules/check.ts';

const README = readFileSync('README.md', 'utf8');
const blocks = (language: string) =>
  [...README.matchAll(new RegExp(`\`\`\`${language}\\n([\\s\\S]*?)\`\`\``, 'g'))].map(match => match[1]!);

const SITE = `site "Fernhollow Court"
  region      US-OR

person RV "Ruth Varga"
  qualified   consulting arborist, remote pilot
`;

test('the README shows what the program says of its own example', () => {
  const files = [readFile('site.wood', SITE), readFile('tree.wood', blocks('wood')[0]!)];
  const said = checkWorkspace(buildWorkspace(files), parseDate('2026-04-01')!).map(
    ({ file, line, column, level, message, rule }) =>
      `${file}:${line}:${column}: ${level}: ${message} [${rule}]`,
  );
  const shown = blocks('text')[0]!
    .split('\n')
    .filter(line => line.startsWith('tree.wood:'));
  expect(shown.length).toBeGreaterThan(2);
  for (const line of shown) expect(said).toContain(line);
});
