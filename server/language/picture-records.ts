/** The edits that name photographs in the record of a tree, below an inspection of their day. */

import { formatDate } from '../base/dates.ts';
import type { LatitudeLongitude } from '../base/distance.ts';
import type { Interval } from '../base/interval.ts';
import { plainNumber, type Unit, unitOf } from '../base/quantity.ts';
import { folderOf } from '../facts/paths.ts';
import type { Tree, WrittenTree } from '../facts/types.ts';
import type { FileSnapshot, PlacedFact } from '../facts/workspace.ts';
import { adviceEdits, newRecord } from './advice.ts';
import { pathAsWritten, relativeTo } from './photos.ts';
import type { Edit } from './snapshot.ts';

export interface PictureRecord {
  readonly file: FileSnapshot;
  readonly placed: PlacedFact<WrittenTree>;
  /** Day number. */
  readonly day: number;
  readonly pictures: readonly {
    /** Relative to the root. */
    readonly path: string;
    /** To the tree. */
    readonly distance?: Interval | undefined;
  }[];
  /** Of the tree, if the record has none. */
  readonly position?: LatitudeLongitude | undefined;
  readonly vantage: string;
  /** Of a new inspection. */
  readonly by?: string | undefined;
}

/** The unit that distances at a tree are written in: that of its height, else of its diameter. */
export function farUnit({ height, diameters }: Pick<Tree, 'height' | 'diameters'>): Unit {
  const { symbol = 'ft' } = height?.value.unit ?? diameters[0]?.value.unit ?? {};
  return unitOf(symbol === 'ft' || symbol === 'in' ? 'ft' : 'm')!;
}

/** Rounded outward to whole units: positions know no more. */
export function writtenDistance({ low, high }: Interval, unit: Unit): string {
  const least = Math.floor(low / unit.factor);
  const most = Math.ceil(high / unit.factor);
  return least > 0 ? `${least}..${most} ${unit.symbol}` : `< ${most} ${unit.symbol}`;
}

/** A hundred-thousandth of a degree is a meter. */
const POSITION_DIGITS = 5;
export const degrees = (value: number): string => plainNumber(value, POSITION_DIGITS);

function photoLines({ file, pictures, placed }: PictureRecord): readonly string[] {
  const unit = farUnit(placed.fact);
  return pictures.map(({ path, distance }) => {
    const written = pathAsWritten(relativeTo(folderOf(file.path), path));
    return `photo ${written}${distance ? `, from ${writtenDistance(distance, unit)}` : ''}`;
  });
}

export function pictureEdits(record: PictureRecord): readonly Edit[] {
  const { file, placed, day, position, vantage, by } = record;
  const photos = photoLines(record);
  const inspection = placed.fact.inspections.find(({ date }) => date.value === day);
  const at = placed.fact.tag;
  return [
    ...(position
      ? adviceEdits(file, placed, {
          kind: 'reading',
          under: at,
          lines: [`position ${degrees(position.latitude)}, ${degrees(position.longitude)}`],
        })
      : []),
    ...(inspection
      ? adviceEdits(file, placed, { kind: 'reading', under: inspection.at, lines: photos })
      : [
          newRecord(file, placed, [
            `inspection ${formatDate(day)} from ${vantage}`,
            ...[...(by === undefined ? [] : [`by ${by}`]), ...photos].map(line => `  ${line}`),
          ]),
        ]),
  ];
}
