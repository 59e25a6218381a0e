/** A long table from file to file, beside a program that only reads it, with the same parser. */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ACCOUNTED, median, type Used, usedBy } from './measure.ts';

const ROWS = 100_000;
const ROUNDS = 5;

const SPECIES = [
  ['Acer rubrum', 'red maple'],
  ['Quercus robur', 'English oak'],
  ['Tilia cordata', 'small-leaved lime'],
  ['Platanus x hispanica', 'London plane'],
  ['Prunus sp.', 'cherry'],
  ["Acer platanoides 'Crimson King'", 'Norway maple'],
] as const;
const CONDITIONS = ['good', 'fair', 'poor', ''] as const;

/** As public bodies publish them: byte order mark, semicolons, decimal commas, girths of 0, texts in quotation marks. */
function table(rows: number): string {
  // The multiplicative generator of Park and Miller (1988), Communications of the ACM 31(10): 1192-1201.
  let state = 1;
  const below = (limit: number) => {
    state = (state * 16807) % 2147483647;
    return state % limit;
  };
  const decimal = (value: number, digits: number) => value.toFixed(digits).replace('.', ',');
  const lines = Array.from({ length: rows }, (_, row) => {
    const [botanical, common] = SPECIES[below(SPECIES.length)]!;
    return [
      100_000 + row,
      botanical,
      common,
      below(50) === 0 ? 0 : 20 + below(300),
      decimal(3 + below(250) / 10, 1),
      2 + below(12),
      decimal(44 + below(1e6) / 1e6, 6),
      decimal(-122 - below(1e6) / 1e6, 6),
      CONDITIONS[below(CONDITIONS.length)],
      `"Street ${below(900)}"`,
      below(3) === 0 ? `leans, see sheet ${below(10_000)}` : '',
    ].join(';');
  });
  const heading =
    'Tree ID;Botanical name;Common name;Circumference (cm);Height (m);Crown spread (m);Latitude;Longitude;Condition;Street;Remarks';
  return `\uFEFF${[heading, ...lines].join('\r\n')}\r\n`;
}

const PEER = `
import { createReadStream } from 'node:fs';
import { parse } from 'csv-parse';
const parser = parse({ delimiter: ';', bom: true, relax_column_count: true, relax_quotes: true });
let rows = 0;
for await (const row of createReadStream(process.argv[1]).pipe(parser)) rows += row.length > 0 ? 1 : 0;
if (rows < 2) throw new Error('the table was not read');
`;

const HERE = dirname(fileURLToPath(import.meta.url));

const used = (args: readonly string[]): Used =>
  usedBy(spawnSync(process.execPath, [...ACCOUNTED, ...args], { cwd: HERE, encoding: 'utf8' }));

export function importing(): void {
  const folder = mkdtempSync(join(tmpdir(), 'soundwood-bench-'));
  const file = join(folder, 'trees.csv');
  const short = join(folder, 'short.csv');
  writeFileSync(file, table(ROWS));
  writeFileSync(short, table(ROWS / 10));
  const program = join(HERE, 'soundwood.js');
  // In a folder of its own: the trees that are in a folder already are read as well.
  const into = (name: string) => join(mkdtempSync(join(folder, 'to-')), name);
  const programs: readonly [string, () => readonly string[]][] = [
    ['reading the table with csv-parse alone (peer)', () => ['--input-type=module', '-e', PEER, file]],
    ['soundwood import', () => [program, 'import', file, '--to', into('trees.wood')]],
    ['soundwood import, a tenth of the rows', () => [program, 'import', short, '--to', into('short.wood')]],
  ];
  const runs = programs.map((): Used[] => []);
  for (let round = 0; round < ROUNDS; round++)
    programs.forEach(([, args], i) => {
      runs[i]!.push(used(args()));
    });
  rmSync(folder, { recursive: true });
  const time = (i: number) => median(runs[i]!.map(({ cpu }) => cpu));
  process.stdout.write(
    `\nImport of ${ROWS} rows, whole programs with their start, CPU, median of ${ROUNDS} interleaved rounds\n`,
  );
  programs.forEach(([name], i) => {
    const memory = Math.max(...runs[i]!.map(used => used.memory));
    process.stdout.write(
      `  ${name.padEnd(46)} ${time(i).toFixed(0).padStart(6)} ms  ${(time(i) / time(0)).toFixed(1).padStart(5)} times the peer  ${memory.toFixed(0).padStart(4)} MB at its peak\n`,
    );
  });
}
