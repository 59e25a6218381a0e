/**
 * Speed, as ratios against a peer in the same run: `npm run bench`. With --write into RESULTS.md, with --million
 * also of a million trees, with --node PATH also by another Node, with --ratios only what is quickly measured, which
 * fails where a ratio has been lost.
 */

import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { measureKept } from './editing.ts';
import { measureForms } from './forms.ts';
import { importing } from './importing.ts';
import { median, otherNode } from './measure.ts';
import { mechanicsReport } from './mechanics.ts';
import { measureNests } from './nests.ts';
import { pacing } from './pacing.ts';
import { measurePage, paging } from './paging.ts';
import { picturing } from './picturing.ts';
import { measureReading, type ReadingTime } from './reading.ts';
import { CHECK, measureScale, measureVisits, waysWith } from './scale.ts';
import { typing } from './typing.ts';

/** Enough for the compiler to have seen both sides. */
const ROUNDS = 15;
const TREES = 10_000;
const MANY = 100_000;
const MILLION = 1_000_000;

const { values: asked } = parseArgs({
  options: {
    write: { type: 'boolean' },
    million: { type: 'boolean' },
    node: { type: 'string', multiple: true, default: [] },
    ratios: { type: 'boolean' },
  },
});
const OTHERS = asked.node.map(otherNode);

const ratio = (value: number, peer: number): string => (value / peer).toFixed(1);

function reading(): void {
  const found = measureReading(TREES, ROUNDS);
  const line = (what: string, value: number) =>
    `  ${what.padEnd(48)} ${value.toFixed(0).padStart(6)} ms  ${ratio(value, found.json).padStart(5)} times JSON, ${ratio(value, found.yaml)} times YAML\n`;
  process.stdout.write(`\n${TREES} generated trees, CPU, median of ${ROUNDS} rounds\n`);
  process.stdout.write(line('JSON.parse and a compiled ajv schema', found.json));
  process.stdout.write(line('js-yaml and the same schema', found.yaml));
  process.stdout.write(line('reading the notation', found.reading));
  process.stdout.write(line('check with the headline rules alone', found.headlines));
  process.stdout.write(line(`whole check, all rules (${found.findings} findings)`, found.whole));
}

function scale(): void {
  const sizes = asked.million ? [MANY, MILLION] : [MANY];
  process.stdout.write('Whole check by the program, start included\n');
  const times: number[] = [];
  const ways = waysWith(OTHERS);
  const own = ways.findIndex(({ name }) => name === CHECK);
  for (const trees of sizes) {
    const runs = measureScale(trees, trees === MILLION ? 1 : 5, ways);
    runs.forEach(({ wall, cpu, memory }, i) => {
      process.stdout.write(
        `  ${`${trees} trees, ${ways[i]!.name}`.padEnd(56)} ${(wall / 1000).toFixed(1).padStart(6)} s  ${ratio(wall, runs[0]!.wall).padStart(5)} times the peer   CPU ${(cpu / 1000).toFixed(1).padStart(4)} s   memory ${memory.toFixed(0).padStart(4)} MB\n`,
      );
    });
    times.push(runs[own]!.wall);
  }
  const { lookup, check } = measureNests(MANY, 3);
  process.stdout.write(
    `  ${`${MANY} trees, one in twenty with a nest`.padEnd(56)} CPU ${(check / 1000).toFixed(1)} s, ${((lookup / check) * 100).toFixed(0)} % of it for the nests near each\n`,
  );
  const { one, three } = measureVisits(MANY, 5);
  process.stdout.write(
    `  ${`${MANY} trees, three visits each`.padEnd(56)} CPU ${(three / 1000).toFixed(1)} s, ${ratio(three, one)} times one visit\n`,
  );
  if (times.length === 2)
    process.stdout.write(`  ten times the trees take ${ratio(times[1]!, times[0]!)} times as long\n`);
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
  const programs = [{ path: process.execPath, name: '' }, ...OTHERS].flatMap(({ path, name: node }) =>
    commands.map(([name, args]) => ({
      name: [name, node].filter(Boolean).join(', '),
      start: () => spawnSync(path, args),
      times: [] as number[],
    })),
  );
  // The first check of each Node writes its code cache.
  for (const { start } of programs) start();
  for (let round = 0; round < ROUNDS; round++) {
    for (const { start, times } of programs) {
      const before = performance.now();
      start();
      times.push(performance.now() - before);
    }
  }
  rmSync(folder, { recursive: true });
  process.stdout.write(`\nStart-up with a code cache, wall clock, median of ${ROUNDS} interleaved runs\n`);
  programs.forEach(({ name, times }, i) => {
    const took = median(times);
    const bare = median(programs[i - (i % commands.length)]!.times);
    process.stdout.write(
      `  ${name.padEnd(48)} ${took.toFixed(0).padStart(6)} ms  bare node + ${(took - bare).toFixed(0)} ms  ${ratio(took, bare)} times bare node\n`,
    );
  });
}

function sections(): void {
  const lines = mechanicsReport().map(line => `  ${line}\n`);
  process.stdout.write(
    `\nSections, beside the plain way (polygons, every vertex, every bearing)\n${lines.join('')}`,
  );
}

function editing(): void {
  process.stdout.write('\nWhat the language server keeps, heap in use after a collection\n');
  for (const [count, keys] of [
    [TREES, 10_000],
    [MANY, 500],
  ] as const) {
    const { trees, edits, before, after } = measureKept(count, keys);
    process.stdout.write(
      `  ${`${trees} trees in one file`.padEnd(36)} ${before.toFixed(0).padStart(6)} MB   after ${edits} edits ${after.toFixed(0)} MB (${((after / before - 1) * 100).toFixed(1)} %)\n`,
    );
  }
}

function forms(): void {
  const rounds = 3;
  const found = measureForms(MANY, rounds);
  process.stdout.write(
    `\nForms of ${MANY} trees, whole programs with their start, CPU, median of ${rounds} interleaved rounds\n`,
  );
  const line = (name: string, cpu: number, over: number, memory: string) =>
    `  ${name.padEnd(48)} ${(cpu / 1000).toFixed(1).padStart(6)} s  ${over.toFixed(1).padStart(5)} times the check${memory}\n`;
  for (const { name, cpu, ratio: over, memory } of found.forms)
    process.stdout.write(line(name, cpu, over, `   memory ${memory.toFixed(0).padStart(4)} MB`));
  if (found.converter)
    process.stdout.write(
      line('ogr2ogr, the CSV to GeoJSON (peer)', found.converter.cpu, found.converter.ratio, ''),
    );
}

/** With room for a busy machine and another version of Node: these catch what doubles, not what drifts. */
const LIMITS: readonly {
  readonly what: string;
  readonly most: number;
  readonly of: (found: ReadingTime) => number;
}[] = [
  { what: 'reading over JSON and ajv', most: 5, of: ({ reading, json }) => reading / json },
  { what: 'reading over YAML and ajv', most: 0.5, of: ({ reading, yaml }) => reading / yaml },
  { what: 'whole check over JSON and ajv', most: 18, of: ({ whole, json }) => whole / json },
];

/** Of trees that were looked at three times over those that were looked at once. */
const MOST_VISITS = 2.5;

/** Of the CPU of a check, what it takes to look up the nests near every tree. */
const MOST_FOR_NESTS = 0.1;

/** Of the time to the first finding on the page over that to its editor component alone, at a first visit. */
const MOST_FOR_FINDING = 12;

async function ratios(): Promise<void> {
  const found = measureReading(TREES, 9);
  const { one, three } = measureVisits(TREES, 5);
  const visits = three / one;
  process.stdout.write(
    `${'three visits over one'.padEnd(32)} ${visits.toFixed(2).padStart(6)}  at most ${MOST_VISITS}\n`,
  );
  if (visits > MOST_VISITS) process.exitCode = 1;
  const { lookup, check } = measureNests(TREES, 9);
  process.stdout.write(
    `${'nests near, of the whole check'.padEnd(32)} ${(lookup / check).toFixed(2).padStart(6)}  at most ${MOST_FOR_NESTS}\n`,
  );
  if (lookup / check > MOST_FOR_NESTS) process.exitCode = 1;
  for (const { what, most, of } of LIMITS) {
    const value = of(found);
    process.stdout.write(`${what.padEnd(32)} ${value.toFixed(2).padStart(6)}  at most ${most}\n`);
    if (value > most) process.exitCode = 1;
  }
  for (const { name, ratio: over, most } of measureForms(TREES / 2, 3).forms.slice(1)) {
    process.stdout.write(
      `${`${name} over check`.padEnd(32)} ${over.toFixed(2).padStart(6)}  at most ${most}\n`,
    );
    if (over > most) process.exitCode = 1;
  }
  const page = await measurePage(5);
  if (!page) return;
  const finding = page.finding / page.editor;
  process.stdout.write(
    `${'first finding over editor alone'.padEnd(32)} ${finding.toFixed(2).padStart(6)}  at most ${MOST_FOR_FINDING}
`,
  );
  if (finding > MOST_FOR_FINDING) process.exitCode = 1;
}

async function everything(): Promise<void> {
  // First, as most checks find their machine: what comes after minutes of load is slower on many.
  scale();
  reading();
  sections();
  starting();
  forms();
  importing();
  picturing();
  editing();
  await typing();
  await pacing();
  await paging(TREES);
}

/** What a run prints, with the machine that it ran on. */
async function written(): Promise<void> {
  const said: string[] = [];
  const print = process.stdout.write.bind(process.stdout);
  process.stdout.write = (text: string | Uint8Array) => {
    said.push(String(text));
    return print(text);
  };
  await everything();
  process.stdout.write = print;
  const commit = spawnSync('git', ['rev-parse', '--short', 'HEAD'], { encoding: 'utf8' }).stdout.trim();
  const head = `# What a run measured

Written by \`npm run bench -- --write\` on ${new Date().toISOString().slice(0, 10)}: ${availableParallelism()} cores, Node ${process.versions.node}, ${process.platform} ${process.arch}, commit ${commit}. Times differ from machine to machine; the ratios hardly do. JSON is read several times as fast as the notation, and says nothing of what is in it; YAML, which people can write as well, is slower.

\`\`\`text
`;
  writeFileSync(new URL('../bench/RESULTS.md', import.meta.url), `${head}${said.join('')}\`\`\`\n`);
}

if (asked.ratios) await ratios();
else if (asked.write) await written();
else await everything();
