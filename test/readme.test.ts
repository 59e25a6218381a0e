import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { MISTAKE_CODES } from '../grammar/syntax.ts';
import { parseDate } from '../server/base/dates.ts';
import { buildWorkspace, readFile } from '../server/facts/workspace.ts';
import { checkWorkspace } from '../server/rules/check.ts';
import { folderWith } from './cli/folder.ts';

const README = readFileSync('README.md', 'utf8');
const blocks = (language: string, page = README) =>
  [...page.matchAll(new RegExp(`\`\`\`${language}\\n([\\s\\S]*?)\`\`\``, 'g'))].map(match => match[1]!);

const SITE = `site "Fernhollow Court"
  region      US-OR

person RV "Ruth Varga"
  qualified   consulting arborist, remote pilot
`;

test('every example of the notation in the README and in the recipes is read', () => {
  const recipes = readFileSync('samples/ci/README.md', 'utf8');
  const extension = readFileSync('client/README.md', 'utf8');
  const examples = [
    ...blocks('wood'),
    ...blocks('wood', extension),
    ...blocks('wood', recipes).map(text => `tree 14\n${text}`),
  ];
  expect(examples.length).toBeGreaterThan(3);
  const files = [
    readFile('site.wood', SITE),
    ...examples.map((text, i) => readFile(`${i}/example.wood`, text)),
  ];
  const said = checkWorkspace(buildWorkspace(files), parseDate('2026-04-01')!);
  const notation = new Set<string>([
    ...MISTAKE_CODES,
    'unknown-rule',
    'unknown-limit',
    'limit-unit',
    'missing-reason',
    'accept-incomplete',
  ]);
  expect(said.filter(({ rule }) => notation.has(rule))).toEqual([]);
});

test('the README shows what the program prints for its own example', async () => {
  const folder = await folderWith({ 'site.wood': SITE, 'tree.wood': blocks('wood')[0]! });
  const { out } = await folder.run('check', '--date', '2026-04-01');
  const printed = out.split('\n');
  const shown = blocks('text')[0]!.trimEnd().split('\n');
  expect(shown.filter(line => /^ +\d+:\d+ /.test(line)).length).toBeGreaterThan(2);
  let from = 0;
  for (const line of shown) {
    from = printed.indexOf(line, from) + 1;
    expect(from, line).toBeGreaterThan(0);
  }
});
