/** The rules of the house, held by tests: which layer may know which, and what runs where. */

import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { describe, expect, test } from 'vitest';

const sources = ['grammar', 'server', 'client'].flatMap(folder =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map(name => join(folder, name))
    .filter(name => name.endsWith('.ts') && !name.includes('dist') && !name.endsWith('.d.ts')),
);

const layerOf = (path: string): string => {
  const [top, second] = path.split('/');
  return top === 'server' && second !== undefined && !second.endsWith('.ts') ? second : top!;
};

/** What each layer may import besides itself. */
const MAY_KNOW: Record<string, readonly string[]> = {
  base: [],
  grammar: ['base'],
  mechanics: ['base'],
  practice: ['base'],
  facts: ['base', 'grammar', 'mechanics', 'practice'],
  assess: ['base', 'grammar', 'facts', 'mechanics', 'practice'],
  rules: ['base', 'grammar', 'facts', 'mechanics', 'practice', 'assess'],
  import: ['base', 'grammar', 'facts', 'practice'],
  fix: ['base', 'grammar', 'practice'],
  compare: ['base', 'grammar', 'facts', 'mechanics', 'practice', 'assess', 'rules'],
  show: ['base', 'grammar', 'facts', 'mechanics', 'practice', 'assess', 'rules', 'compare', 'import'],
  report: ['base', 'grammar', 'facts', 'mechanics', 'practice', 'assess', 'rules', 'show'],
  language: ['base', 'grammar', 'facts', 'mechanics', 'practice', 'assess', 'rules', 'fix', 'show', 'report'],
  host: ['base', 'facts'],
  lsp: ['base', 'grammar', 'facts', 'practice', 'assess', 'rules', 'language', 'show', 'report', 'host'],
  cli: [
    'base',
    'grammar',
    'facts',
    'mechanics',
    'practice',
    'assess',
    'rules',
    'compare',
    'import',
    'fix',
    'show',
    'report',
    'language',
    'lsp',
    'host',
  ],
};

const importsOf = (path: string): string[] =>
  [...readFileSync(path, 'utf8').matchAll(/(?:from|import\()\s*'([^']+)'/g)].map(match => match[1]!);

describe('arrows go one way', () => {
  test.each(sources.filter(path => layerOf(path) in MAY_KNOW))('%s', path => {
    const layer = layerOf(path);
    for (const target of importsOf(path).filter(name => /^\..*\.ts$/.test(name))) {
      const other = layerOf(normalize(join(dirname(path), target)));
      if (other !== layer) expect(MAY_KNOW[layer], `${path} imports ${target}`).toContain(other);
    }
  });
});

describe('what runs in a browser knows no node', () => {
  // Photographs and folders are read by node's server and the command line in one way; lsp is what both may know.
  const everywhere = sources.filter(
    path =>
      !/^server\/(cli|bench|docs)\/|^server\/host\/(folders|git|paths|photos|pictures|print-pdf|read-text|write-text)\.ts|^server\/lsp\/node\.ts|^client\/(?:desktop|program)\.ts/.test(
        path,
      ),
  );
  test.each(everywhere)('%s', path => {
    expect(importsOf(path).filter(name => name.startsWith('node:'))).toEqual([]);
  });
});

test('a file of more than 400 lines says at its top why it is long', () => {
  const long = sources.filter(path => readFileSync(path, 'utf8').split('\n').length > 401);
  const silent = long.filter(
    path => !/^\/\*\*(?:(?!\*\/)[\s\S])*Long because/.test(readFileSync(path, 'utf8')),
  );
  expect(silent).toEqual([]);
});
