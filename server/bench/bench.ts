/** Speed, as ratios against a peer in the same run: `npm run bench`. */

import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv } from 'ajv';
import addFormats from 'ajv-formats';
import { splitBlocks } from '../../grammar/blocks.ts';
import { buildWorkspace, readFile } from '../facts/workspace.ts';
import { checkWorkspace } from '../rules/check.ts';
import { ruleNames } from '../rules/registry.ts';
import { importing } from './importing.ts';
import { generateTrees, printTrees, TREES_SCHEMA } from './inventory.ts';
import { mechanicsReport } from './mechanics.ts';
import { typing } from './typing.ts';

const ROUNDS = 7;
const TREES = 10_000;
/** 2026-06-01. */
const TODAY = 20605;

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;

/** Milliseconds of CPU, user and system, that a piece of work takes. */
function cpu(work: () => void): number {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

/** Cavity to diameter, nest checks and doses: what every inventory is checked for first. */
const HEADLINES = new Set([
  'wall-ratio',
  'strength-loss-cubic',
  'strength-loss-quartic',
  'strength-loss-opening',
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

function reading(): void {
  const ajv = new Ajv();
  (addFormats as unknown as (ajv: Ajv) => void)(ajv);
  const validate = ajv.compile(TREES_SCHEMA);
  const json: number[] = [];
  const parse: number[] = [];
  const headline: number[] = [];
  const check: number[] = [];
  let findings = 0;
  for (let round = 0; round < ROUNDS; round++) {
    // Other trees in every round, so that nothing is known from the round before.
    const trees = generateTrees(TREES, 1 + round * TREES);
    const text = printTrees(trees);
    const records = JSON.stringify(trees);
    json.push(
      cpu(() => {
        if (!validate(JSON.parse(records)))
          throw new Error(`the records are not valid: ${ajv.errorsText(validate.errors)}`);
      }),
    );
    parse.push(cpu(() => void splitBlocks(text)));
    const fewer = headlinesOnly + text;
    headline.push(cpu(() => void checkWorkspace(buildWorkspace([readFile('trees.wood', fewer)]), TODAY)));
    check.push(
      cpu(() => {
        findings = checkWorkspace(buildWorkspace([readFile('trees.wood', text)]), TODAY).length;
      }),
    );
  }
  const peer = median(json);
  const line = (what: string, values: readonly number[]) =>
    `${what.padEnd(46)} ${median(values).toFixed(0).padStart(6)} ms  ${(median(values) / peer).toFixed(1).padStart(5)} times the peer\n`;
  process.stdout.write(`${TREES} generated trees, CPU, median of ${ROUNDS} rounds\n`);
  process.stdout.write(line('  JSON.parse and a compiled ajv schema (peer)', json));
  process.stdout.write(line('  reading the notation', parse));
  process.stdout.write(line('  check with the headline rules alone', headline));
  process.stdout.write(line(`  whole check, all rules (${findings} findings)`, check));
}

function starting(): void {
  const folder = mkdtempSync(join(tmpdir(), 'soundwood-bench-'));
  // As at the root of a repository: no inventory above it is looked for.
  mkdirSync(join(folder, '.git'));
  const file = join(folder, 'one.wood');
  writeFileSync(
    file,
    'site "Fernhollow Court"\n  region      US-OR\n\ntree 1\n  species     Acer rubrum\n  dbh         12 in\n',
  );
  const program = join(dirname(fileURLToPath(import.meta.url)), 'soundwood.js');
  const commands: [string, string[]][] = [
    ['bare node', ['-e', '0']],
    ['soundwood --version', [program, '--version']],
    ['soundwood check, one small file', [program, 'check', file]],
  ];
  const times = commands.map((): number[] => []);
  for (let round = 0; round < ROUNDS * 2 + 1; round++) {
    commands.forEach(([, args], i) => {
      const before = performance.now();
      spawnSync(process.execPath, args);
      times[i]!.push(performance.now() - before);
    });
  }
  rmSync(folder, { recursive: true });
  const bare = median(times[0]!);
  process.stdout.write(`\nStart-up, wall clock, median of ${ROUNDS * 2 + 1} interleaved runs\n`);
  commands.forEach(([name], i) => {
    const own = median(times[i]!);
    process.stdout.write(
      `  ${name.padEnd(44)} ${own.toFixed(0).padStart(6)} ms  bare node + ${(own - bare).toFixed(0)} ms\n`,
    );
  });
}

function sections(): void {
  const lines = mechanicsReport().map(line => `  ${line}\n`);
  process.stdout.write(
    `\nSections, beside the plain way (polygons, every vertex, every bearing)\n${lines.join('')}`,
  );
}

reading();
sections();
starting();
importing();
await typing();
