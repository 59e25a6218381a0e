import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { splitBlocks } from '../../grammar/blocks.ts';
import { tidy } from '../../grammar/tidy.ts';
import { version } from '../../package.json';
import type { Finding } from '../../server/rules/check.ts';
import { showFinding } from '../../server/show/findings-lines.ts';
import { plain } from '../../server/show/terminal.ts';

const manifest = JSON.parse(readFileSync('client/package.json', 'utf8'));
const { contributes } = manifest;

test('the extension has the version of the program', () => {
  expect(manifest.version).toBe(version);
});

describe('every file that the manifest names is there', () => {
  /** What the bundler and the generator put into client/dist, and from where. */
  const MADE: Record<string, string> = {
    'dist/desktop.js': 'client/desktop.ts',
    'dist/web.js': 'client/web.ts',
    'dist/soundwood.tmLanguage.json': 'grammar/soundwood.tmLanguage.json',
    'dist/markdown-injection.tmLanguage.json': 'grammar/markdown-injection.tmLanguage.json',
    'dist/language-configuration.json': 'grammar/language-configuration.json',
  };
  const named = [...JSON.stringify(manifest).matchAll(/"(?:\.\/)?((?:dist|media)\/[^"]+)"/g)];
  test.each([...new Set(named.map(match => match[1]!))])('%s', path => {
    expect(existsSync(MADE[path] ?? join('client', path))).toBe(true);
  });
});

test('every command that is offered is registered', () => {
  const source = readdirSync('client', { recursive: true, encoding: 'utf8' })
    .filter(name => name.endsWith('.ts'))
    .map(name => readFileSync(join('client', name), 'utf8'))
    .join('\n');
  const registered = [...source.matchAll(/register(?:Command|WithProgram)\(\s*'([^']+)'/g)].map(
    match => match[1],
  );
  expect(registered.sort()).toEqual(
    contributes.commands.map(({ command }: { command: string }) => command).sort(),
  );
});

test('the problem matcher reads what the command line prints', () => {
  const finding: Finding = {
    rule: 'season-dose',
    level: 'error',
    grade: 'exceeds',
    file: 'lawn.wood',
    start: 0,
    end: 4,
    line: 120,
    column: 15,
    endLine: 120,
    endColumn: 19,
    subject: 'R1',
    message: 'The dose of 16 % exceeds the limit of 15 % [a remark].',
    remedy: 'Take 15 % or less.',
  };
  const [first] = showFinding(finding, 'old grove/lawn.wood', '    dose      16 %', plain).split('\n');
  const { regexp, ...groups } = contributes.problemMatchers[0].pattern;
  const match = new RegExp(regexp).exec(first!)!;
  const read = Object.fromEntries(
    Object.entries<number>(groups).map(([name, group]) => [name, match[group]]),
  );
  expect(read).toEqual({
    file: 'old grove/lawn.wood',
    line: '120',
    column: '15',
    severity: 'error',
    message: finding.message,
    code: 'season-dose',
  });
});

test('the sample of the walkthrough is sound and tidy', () => {
  const sample = readFileSync('client/media/sample.wood', 'utf8');
  const mistakes = splitBlocks(sample).flatMap(({ block }) =>
    block.lines.flatMap(line => line.mistake ?? []),
  );
  expect(mistakes).toEqual([]);
  expect(tidy(sample).text).toBe(sample);
});
