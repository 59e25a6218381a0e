import { readdirSync } from 'node:fs';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { RULES, ruleNamed, ruleNames } from '../../../server/rules/registry.ts';

const FOLDER = fileURLToPath(new URL('../../../server/rules/', import.meta.url));

it('every file in a folder of rules is a rule of the registry, under its own name', () => {
  const files = readdirSync(FOLDER, { withFileTypes: true })
    .filter(entry => entry.isDirectory())
    .flatMap(({ name }) => readdirSync(FOLDER + name))
    .filter(file => file.endsWith('.ts'))
    .map(file => basename(file, '.ts'));
  expect([...ruleNames].sort()).toEqual(files.sort());
});

it('names are in kebab case and unique', () => {
  for (const name of ruleNames) expect(name).toMatch(/^[a-z]+(-[a-z]+)*$/);
  expect(new Set(ruleNames).size).toBe(RULES.length);
});

it('a rule is found by its name', () => {
  for (const rule of RULES) expect(ruleNamed(rule.name)).toBe(rule);
  expect(ruleNamed('season-doze')).toBeUndefined();
});
