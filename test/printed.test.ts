import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { printedFiles } from '../server/docs/printed.ts';

test.each([...printedFiles()])('%s is fresh: run npm run generate', (path, text) => {
  expect(readFileSync(path, 'utf8')).toBe(text);
});

test('no page stays behind of a rule that is gone', () => {
  const pages = readdirSync('server/rules/pages').map(name => `server/rules/pages/${name}`);
  expect(pages.filter(page => !printedFiles().has(page))).toEqual([]);
});
