/**
 * A check of very many trees by the program: time from start to end, CPU (with that of the garbage collector, which has
 * threads of its own), and memory at its peak. Beside it, as a measure of the machine, a program that only parses the same
 * records as JSON and validates them.
 */

import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { generateTrees, printTree, printVisits, SITE_TEXT, TREES_SCHEMA } from './inventory.ts';
import { ACCOUNTED, median, type OtherNode, type Used, usedBy } from './measure.ts';

const TREES_A_FILE = 10_000;

/** Files of ten thousand trees each, in the notation and as JSON: all of them need not fit into memory. */
export function inventory(trees: number, print = printTree): string {
  const folder = mkdtempSync(join(tmpdir(), 'soundwood-bench-'));
  mkdirSync(join(folder, '.git'));
  writeFileSync(join(folder, 'site.wood'), SITE_TEXT);
  writeFileSync(join(folder, SCHEMA), JSON.stringify(TREES_SCHEMA));
  for (let first = 1; first <= trees; first += TREES_A_FILE) {
    const file = join(folder, `trees-${String(first).padStart(8, '0')}`);
    const records = generateTrees(Math.min(TREES_A_FILE, trees - first + 1), first);
    writeFileSync(`${file}.wood`, records.map(print).join('\n'));
    writeFileSync(`${file}.json`, JSON.stringify(records));
  }
  return folder;
}

export interface Run extends Used {
  /** ms. */
  readonly wall: number;
}

const SCHEMA = 'schema.json';

const PEER = `
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv } from 'ajv';
import addFormats from 'ajv-formats';
const [folder, schema] = process.argv.slice(1);
const read = name => JSON.parse(readFileSync(join(folder, name), 'utf8'));
const ajv = new Ajv();
addFormats.default(ajv);
const validate = ajv.compile(read(schema));
for (const name of readdirSync(folder))
  if (/^trees-.*json$/.test(name) && !validate(read(name))) throw new Error(ajv.errorsText(validate.errors));
`;

export const CHECK = 'the program';

/** How the program is started. */
export interface Way {
  readonly name: string;
  /** Another program, with the same records. */
  readonly isPeer?: true;
  /** As many as the machine has where it is left out. */
  readonly cores?: 1;
  /** The same as runs the benchmark, where it is left out. */
  readonly node?: string;
}

const CAN_HOLD_TO_ONE_CORE = availableParallelism() > 1 && spawnSync('taskset', ['--version']).status === 0;

const oneCore = (name = ''): readonly Way[] =>
  CAN_HOLD_TO_ONE_CORE ? [{ name: `one core${name}`, cores: 1 }] : [];

/** Those that this machine has: another core, the program that holds others to one, other versions of Node. */
export const waysWith = (others: readonly OtherNode[]): readonly Way[] => [
  { name: 'as JSON, parsed and validated by ajv (peer)', isPeer: true },
  ...oneCore(),
  { name: CHECK },
  ...others.flatMap(({ path, name }) =>
    [...oneCore(`, ${name}`), { name: `${CHECK}, ${name}` }].map(way => ({
      ...way,
      node: path,
    })),
  ),
];

const HERE = dirname(fileURLToPath(import.meta.url));

export const PROGRAM = join(HERE, 'soundwood.js');

const argumentsFor = (folder: string, { isPeer }: Way): readonly string[] =>
  isPeer
    ? ['--input-type=module', '--eval', PEER, folder, SCHEMA]
    : [PROGRAM, 'check', folder, '--on', '2026-06-01', '--reject', 'never'];

function run(folder: string, way: Way): Run {
  const [command, ...args] = [
    ...(way.cores === undefined ? [] : ['taskset', '--cpu-list', '0']),
    way.node ?? process.execPath,
    ...ACCOUNTED,
    ...argumentsFor(folder, way),
  ];
  const before = performance.now();
  const ended = spawnSync(command!, args, {
    // Where packages are found.
    cwd: HERE,
    encoding: 'utf8',
    stdio: ['ignore', 'ignore', 'pipe'],
    maxBuffer: 1 << 28,
  });
  const wall = performance.now() - before;
  return { wall, ...usedBy(ended) };
}

/** CPU, ms, of a check of trees with one visit each, and of the same trees with three; medians of runs that take turns. */
export function measureVisits(
  trees: number,
  rounds: number,
): { readonly one: number; readonly three: number } {
  const folders = [inventory(trees), inventory(trees, printVisits)];
  const times = folders.map((): number[] => []);
  for (let round = 0; round < rounds; round++)
    folders.forEach((folder, i) => {
      times[i]!.push(run(folder, { name: CHECK }).cpu);
    });
  for (const folder of folders) rmSync(folder, { recursive: true });
  const [one, three] = times.map(median);
  return { one: one!, three: three! };
}

/** Medians for each way. They take turns, each round from another one on: what ran before bears on a busy machine. */
export function measureScale(trees: number, rounds: number, ways: readonly Way[]): readonly Run[] {
  const folder = inventory(trees);
  const runs = ways.map((): Run[] => []);
  for (let round = 0; round < rounds; round++) {
    for (let turn = 0; turn < ways.length; turn++) {
      const i = (round + turn) % ways.length;
      runs[i]!.push(run(folder, ways[i]!));
    }
  }
  rmSync(folder, { recursive: true });
  return runs.map(list => ({
    wall: median(list.map(({ wall }) => wall)),
    cpu: median(list.map(({ cpu }) => cpu)),
    memory: median(list.map(({ memory }) => memory)),
  }));
}
