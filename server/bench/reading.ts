/** Reading and checking trees, beside JSON and YAML with the same records under a compiled schema. */

import { Ajv } from 'ajv';
import addFormats from 'ajv-formats';
import { dump, load } from 'js-yaml';
import { splitBlocks } from '../../grammar/blocks.ts';
import { buildWorkspace, readFile } from '../facts/workspace.ts';
import { checkWorkspace } from '../rules/check.ts';
import { ruleNames } from '../rules/registry.ts';
import { generateTrees, printTrees, TREES_SCHEMA } from './inventory.ts';
import { cpu, median } from './measure.ts';

/** 2026-06-01. */
const TODAY = 20605;

/** Cavity to diameter, nest checks and doses: what every inventory is checked for first. */
const HEADLINES = new Set([
  'strength-loss',
  'nest-check-missing',
  'nest-check-stale',
  'nest-check-coarse',
  'season-dose',
  'cumulative-dose',
]);

/** Turns the other rules off, as an office would; those that rest on the law stay. */
const headlinesOnly = `practice "Headlines"\n${ruleNames
  .filter(name => !HEADLINES.has(name))
  .map(name => `  severity ${name} off\n    because   "measured apart"\n`)
  .join('')}\n`;

export interface ReadingTime {
  /** CPU, ms: medians over the rounds. */
  readonly json: number;
  readonly yaml: number;
  readonly reading: number;
  readonly headlines: number;
  readonly whole: number;
  readonly findings: number;
}

/** What is measured takes turns, in every round with other trees, so that nothing is known from the round before. */
export function measureReading(count: number, rounds: number): ReadingTime {
  const ajv = new Ajv();
  (addFormats as unknown as (ajv: Ajv) => void)(ajv);
  const validate = ajv.compile(TREES_SCHEMA);
  const demand = (records: unknown) => {
    if (!validate(records)) throw new Error(`the records are not valid: ${ajv.errorsText(validate.errors)}`);
  };
  const times = { json: [] as number[], yaml: [] as number[], reading: [] as number[] };
  const checks = { headlines: [] as number[], whole: [] as number[] };
  let findings = 0;
  const check = (text: string) => {
    findings = checkWorkspace(buildWorkspace([readFile('trees.wood', text)]), TODAY).length;
  };
  for (let round = 0; round < rounds; round++) {
    const { text, records, yaml } = written(count, 1 + round * count);
    const fewer = headlinesOnly + text;
    times.json.push(cpu(() => demand(JSON.parse(records))));
    times.yaml.push(cpu(() => demand(load(yaml))));
    times.reading.push(cpu(() => void splitBlocks(text)));
    checks.headlines.push(cpu(() => check(fewer)));
    checks.whole.push(cpu(() => check(text)));
  }
  return {
    json: median(times.json),
    yaml: median(times.yaml),
    reading: median(times.reading),
    headlines: median(checks.headlines),
    whole: median(checks.whole),
    findings,
  };
}

/** The same trees in each form; of YAML the one that people write, in blocks. */
function written(count: number, firstTag: number) {
  const trees = generateTrees(count, firstTag);
  return {
    text: printTrees(trees),
    records: JSON.stringify(trees),
    yaml: trees.map(tree => dump([tree], { noRefs: true })).join(''),
  };
}
