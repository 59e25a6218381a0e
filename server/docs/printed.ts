/** All generated files by path: written by generate.ts, and a test checks that they are up to date. */

import { rulePage, rulesTable } from '../rules/reference.ts';
import { RULES } from '../rules/registry.ts';
import { checksPage } from './checks-reference.ts';
import { languageConfiguration, markdownInjection, textMateGrammar } from './editor-files.ts';
import { factsTypes } from './facts-types.ts';
import { habitsPage } from './habits-reference.ts';
import { inventorySchema } from './inventory-schema.ts';
import { limitsTable } from './limits-reference.ts';
import { notationReference } from './notation-reference.ts';
import { regionsPage } from './regions-reference.ts';
import { signsTable } from './signs-reference.ts';

const json = (value: object) => `${JSON.stringify(value, null, 2)}\n`;

export const printedFiles = (): ReadonlyMap<string, string> =>
  new Map([
    ['grammar/NOTATION.md', notationReference()],
    ['server/facts/facts.generated.ts', factsTypes()],
    ['server/show/inventory.schema.json', json(inventorySchema())],
    ['grammar/soundwood.tmLanguage.json', json(textMateGrammar())],
    ['grammar/markdown-injection.tmLanguage.json', json(markdownInjection())],
    ['grammar/language-configuration.json', json(languageConfiguration())],
    ['server/fix/HABITS.md', habitsPage()],
    ['server/rules/RULES.md', rulesTable(RULES)],
    ['server/rules/SIGNS.md', signsTable()],
    ['server/practice/LIMITS.md', limitsTable()],
    ['server/practice/REGIONS.md', regionsPage()],
    ['server/mechanics/CHECKS.md', checksPage()],
    ...RULES.map(rule => [`server/rules/pages/${rule.name}.md`, rulePage(rule)] as const),
  ]);
