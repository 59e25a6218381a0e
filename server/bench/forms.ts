/**
 * Each form that leaves the program, beside a check of the same trees that only prints: CPU from start to end, and memory
 * at its peak. In the same run a converter makes GeoJSON of the exported table; it judges nothing.
 */

import { spawnSync } from 'node:child_process';
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { ACCOUNTED, median, type Used, usedBy } from './measure.ts';
import { inventory, PROGRAM } from './scale.ts';

const DAY = ['--date', '2026-06-01'] as const;
const CHECK = ['check', ...DAY, '--fail-on', 'never'] as const;

interface Form {
  readonly name: string;
  /** Arguments of the program. */
  readonly args: readonly string[];
  /**
   * CPU over that of the check that only prints, at most. The wish is 2; forms with the worst finding and what is due of
   * each tree judge them all and write much besides.
   */
  readonly most: number;
}

const exported = (name: string, most: number): Form => ({
  name: `export, ${name}`,
  args: ['export', ...DAY, '--format', name],
  most,
});

const FORMS: readonly Form[] = [
  { name: 'check', args: CHECK, most: 1 },
  exported('csv', 3),
  exported('geojson', 4),
  exported('jsonl', 3),
  exported('parquet', 4),
  exported('kml', 4),
  { name: 'calendar', args: ['calendar', ...DAY], most: 3 },
  { name: 'check, sarif', args: [...CHECK, '--format', 'sarif'], most: 3 },
];

export interface FormCost extends Used {
  readonly name: string;
  /** CPU over that of the check. */
  readonly ratio: number;
  readonly most: number;
}

export interface Converted {
  /** ms of CPU. */
  readonly cpu: number;
  readonly ratio: number;
}

/** Medians of rounds in which the forms take turns. */
export function measureForms(
  trees: number,
  rounds: number,
): { readonly forms: readonly FormCost[]; readonly converter?: Converted } {
  const folder = inventory(trees);
  const fileOf = (name: string) => join(folder, `${name}.out`);
  const runs = FORMS.map((): Used[] => []);
  const conversions: (number | undefined)[] = [];
  for (let round = 0; round < rounds; round++) {
    FORMS.forEach(({ name, args }, i) => {
      const to = i === 0 ? [] : ['--output', fileOf(name)];
      const ended = spawnSync(process.execPath, [...ACCOUNTED, PROGRAM, ...args, ...to, folder], {
        encoding: 'utf8',
        stdio: ['ignore', 'ignore', 'pipe'],
        maxBuffer: 1 << 28,
      });
      runs[i]!.push(usedBy(ended));
    });
    conversions.push(convert(fileOf('export, csv'), folder));
  }
  rmSync(folder, { recursive: true });
  const [check] = runs;
  const peer = median(check!.map(({ cpu }) => cpu));
  const forms = FORMS.map(({ name, most }, i) => {
    const cpu = median(runs[i]!.map(one => one.cpu));
    return { name, most, cpu, memory: median(runs[i]!.map(({ memory }) => memory)), ratio: cpu / peer };
  });
  const converted = conversions.filter(one => one !== undefined);
  if (converted.length === 0) return { forms };
  return { forms, converter: { cpu: median(converted), ratio: median(converted) / peer } };
}

/** CPU, ms, of GDAL's converter from the table to GeoJSON; undefined where it is not installed. */
function convert(table: string, folder: string): number | undefined {
  const to = join(folder, 'converted.geojson');
  rmSync(to, { force: true });
  // The second line of `times` is what the programs of a shell have used.
  const { status, stdout } = spawnSync(
    'sh',
    [
      '-c',
      'ogr2ogr -f GeoJSON "$1" "CSV:$0" -oo X_POSSIBLE_NAMES=longitude_deg -oo Y_POSSIBLE_NAMES=latitude_deg && times',
      table,
      to,
    ],
    { encoding: 'utf8' },
  );
  if (status !== 0) return undefined;
  const [user, system] = [
    ...stdout
      .trim()
      .split('\n')
      .at(-1)!
      .matchAll(/(\d+)m([\d.]+)s/g),
  ].map(([, minutes, seconds]) => Number(minutes) * 60 + Number(seconds));
  return (user! + system!) * 1000;
}
