/** A folder of pictures read and grouped, beside a program that only reads their metadata, with the same reader. */

import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ACCOUNTED, median, type Used, usedBy } from './measure.ts';

const PICTURES = 5000;
const ROUNDS = 3;
/** Of a picture, on average; a camera's are longer, and no more of them is read. */
const BYTES = 100_000;

const PEER = `
import { readdirSync } from 'node:fs';
import exifr from 'exifr';
let read = 0;
for (const name of readdirSync(process.argv[1])) if (await exifr.parse(process.argv[1] + '/' + name)) read++;
if (read < 2) throw new Error('no picture was read');
`;

const HERE = dirname(fileURLToPath(import.meta.url));
const SAMPLES = join(HERE, '..', '..', 'samples', 'field', 'camera');
const DAY = '2026:03:16';

/** The sample's pictures on other days, each of its own length. */
function writePictures(folder: string, count: number): void {
  mkdirSync(join(folder, '.git'), { recursive: true });
  mkdirSync(join(folder, 'p'));
  writeFileSync(
    join(folder, 'trees.wood'),
    Array.from({ length: 15 }, (_, i) => `tree ${i + 1}\n  position ${44.3125 + i * 1e-4}, -122.872\n`).join(
      '\n',
    ),
  );
  const samples = readdirSync(SAMPLES)
    .filter(name => name.endsWith('.jpg'))
    .map(name => readFileSync(join(SAMPLES, name)));
  for (let i = 0; i < count; i++) {
    const bytes = Buffer.concat([
      samples[i % samples.length]!,
      Buffer.alloc(BYTES / 2 + (i * BYTES) / count),
    ]);
    const day = 1 + (Math.floor(i / samples.length) % 28);
    const month = 1 + (Math.floor(i / samples.length / 28) % 12);
    const date = `2026:${String(month).padStart(2, '0')}:${String(day).padStart(2, '0')}`;
    for (let at = bytes.indexOf(DAY); at >= 0; at = bytes.indexOf(DAY, at + 1))
      bytes.write(date, at, 'latin1');
    writeFileSync(join(folder, 'p', `IMG_${i}.jpg`), bytes);
  }
}

export function picturing(): void {
  const folder = mkdtempSync(join(tmpdir(), 'soundwood-bench-'));
  const [all, tenth] = [join(folder, 'all'), join(folder, 'tenth')];
  writePictures(all, PICTURES);
  writePictures(tenth, PICTURES / 10);
  const program = join(HERE, 'soundwood.js');
  const used = (args: readonly string[], cwd: string): Used => {
    const ran = spawnSync(process.execPath, [...ACCOUNTED, ...args], {
      cwd,
      encoding: 'utf8',
      maxBuffer: 1 << 28,
    });
    // Open questions are 1.
    return usedBy({ ...ran, status: ran.status === 1 ? 0 : ran.status });
  };
  const programs: readonly [string, () => Used][] = [
    [
      'reading the metadata with exifr alone (peer)',
      () => used(['--input-type=module', '-e', PEER, join(all, 'p')], HERE),
    ],
    ['soundwood import', () => used([program, 'import', 'p', '--as-text'], all)],
    ['soundwood import, a tenth of the pictures', () => used([program, 'import', 'p', '--as-text'], tenth)],
  ];
  const runs = programs.map((): Used[] => []);
  for (let round = 0; round < ROUNDS; round++)
    programs.forEach(([, run], i) => {
      runs[i]!.push(run());
    });
  rmSync(folder, { recursive: true });
  const time = (i: number) => median(runs[i]!.map(({ cpu }) => cpu));
  process.stdout.write(
    `\n${PICTURES} pictures read and grouped, whole programs with their start, CPU, median of ${ROUNDS} interleaved rounds\n`,
  );
  programs.forEach(([name], i) => {
    const memory = Math.max(...runs[i]!.map(one => one.memory));
    process.stdout.write(
      `  ${name.padEnd(46)} ${time(i).toFixed(0).padStart(6)} ms  ${(time(i) / time(0)).toFixed(1).padStart(5)} times the peer  ${memory.toFixed(0).padStart(4)} MB at its peak\n`,
    );
  });
}
