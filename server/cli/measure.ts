/** `soundwood measure`: the size of a thing in a photograph, and the record that it belongs into. */

import { relative, resolve } from 'node:path';
import { type Measured, type Measuring, measureInPicture } from '../assess/measured.ts';
import type { Interval } from '../base/interval.ts';
import { UserError } from '../base/user-error.ts';
import { valuesOf } from '../facts/interval.ts';
import { folderOf } from '../facts/paths.ts';
import { isPhotoPath, resolveInside } from '../facts/photos.ts';
import { settingsFor } from '../facts/workspace.ts';
import { shown, slashed } from '../host/paths.ts';
import { readPicture } from '../host/pictures.ts';
import { defectNamed, type MeasuredField, measuredEdits, quantityOf } from '../language/measuring.ts';
import type { PointPair } from '../mechanics/measure.ts';
import { photographsCitation } from '../practice/photographs.ts';
import { sanitizeForLog, sanitizeJson } from '../show/sanitize.ts';
import { askedTrees } from './asked-trees.ts';
import { linesOfEdits, writeEdits } from './edits.ts';
import { reasonOf } from './files.ts';
import { EXIT_CLEAN, type Io } from './io.ts';

export interface MeasureOptions {
  readonly points: readonly string[];
  readonly from?: string;
  readonly known?: string;
  readonly knownPoints?: readonly string[];
  readonly lens?: string;
  readonly oblique?: string;
  readonly tree?: string;
  readonly defect?: string;
  readonly field?: MeasuredField;
  readonly write?: boolean;
  readonly format: 'text' | 'json';
}

const NUMBER = String.raw`(\d{1,6}(?:\.\d+)?)`;
const POINTS = new RegExp(String.raw`^${NUMBER}\s*,\s*${NUMBER}\s+${NUMBER}\s*,\s*${NUMBER}$`);

function pointsOf(option: string, words: readonly string[]): PointPair {
  const text = words.join(' ').trim();
  const [, ...numbers] = POINTS.exec(text) ?? [];
  const [ax, ay, bx, by] = numbers.map(Number);
  if (ax === undefined || ay === undefined || bx === undefined || by === undefined)
    throw new UserError(
      `${option} ${text === '' ? 'is empty' : `"${text}" is not two points`}: write it as ${option} 1200,840 1460,910, pixels from the left and the top of the picture as it is shown.`,
    );
  return [
    { x: ax, y: ay },
    { x: bx, y: by },
  ];
}

function wantedOf(options: MeasureOptions): Measuring {
  const { points, from, known, knownPoints, lens, oblique } = options;
  if (!known !== !knownPoints)
    throw new UserError('a known length needs both options: --known 12in --known-points 100,200 400,200.');
  return {
    points: pointsOf('--points', points),
    ...(from === undefined ? {} : { distance: quantityOf('--from', from, 'length') }),
    ...(known === undefined
      ? {}
      : {
          known: {
            length: quantityOf('--known', known, 'length'),
            points: pointsOf('--known-points', knownPoints!),
          },
        }),
    ...(lens === undefined ? {} : { lens: quantityOf('--lens', lens, 'length') }),
    ...(oblique === undefined ? {} : { oblique: quantityOf('--oblique', oblique, 'angle') }),
  };
}

export async function measure(
  photo: string,
  paths: readonly string[],
  options: MeasureOptions,
  io: Io,
): Promise<number> {
  const { tree: tag, defect: name, field, write, format } = options;
  if ([tag, name, field].some(one => one !== undefined) && [tag, name, field].some(one => one === undefined))
    throw new UserError('a record needs all three options: --tree 14 --defect A --field width.');
  if (write && tag === undefined)
    throw new UserError('--write needs the record: --tree 14 --defect A --field width.');
  let wanted = wantedOf(options);
  const path = resolve(io.cwd, photo);
  if (!isPhotoPath(photo))
    throw new UserError(`the name of ${photo} is not that of a photograph (JPEG, PNG, WebP, HEIC or TIFF).`);
  const picture = await readPicture(path).catch((error: unknown) => {
    throw new UserError(`${shown(io.cwd, path)} ${reasonOf(error)}.`);
  });
  const measured = (settings: Parameters<typeof measureInPicture>[2], above?: Interval): Measured => {
    try {
      return measureInPicture(picture, { ...wanted, ...(above ? { above } : {}) }, settings);
    } catch (error) {
      throw error instanceof UserError ? new UserError(`${shown(io.cwd, path)}: ${error.message}`) : error;
    }
  };
  const tell = (result: Measured) => {
    if (format === 'text') return io.out(sanitizeForLog(textOf(shown(io.cwd, path), result)));
    const { length, written, grounds, doubts } = result;
    const metres = { low: length.low, ...(length.high < Infinity ? { high: length.high } : {}) };
    io.out(
      sanitizeJson(
        `${JSON.stringify({ photo: shown(io.cwd, path), metres, written, grounds, doubts }, null, 2)}\n`,
      ),
    );
  };
  if (tag === undefined) {
    const { workspace, root } = await askedTrees(paths, io.today, io);
    tell(measured(settingsFor(workspace, slashed(relative(root, path)), io.today)));
    return EXIT_CLEAN;
  }
  const { workspace, root, asked } = await askedTrees([tag, ...paths], io.today, io);
  const [one, other] = asked;
  if (!one || other)
    throw new UserError(
      `there is more than one tree ${tag}, in ${asked.map(each => each.path).join(' and ')}: name the file as well.`,
    );
  const inside = slashed(relative(root, path));
  if (inside.startsWith('../'))
    throw new UserError(
      `${shown(io.cwd, path)} is outside the inventory, so records cannot refer to it: move it below ${root}.`,
    );
  const settings = settingsFor(workspace, one.path, io.today);
  const defect = defectNamed(one.tree, name!);
  const stated = defect.photos.find(
    each => resolveInside(folderOf(one.path), each.path) === inside,
  )?.distance;
  if (!wanted.distance && !wanted.known && stated) wanted = { ...wanted, distance: stated.value };
  const result = measured(settings, defect.height && valuesOf(defect.height.value, settings));
  tell(result);
  const file = workspace.files.get(one.path)!;
  const edits = measuredEdits(
    { file, placed: one.placed, defect, field: field!, photo: inside },
    result,
    wanted,
  );
  if (format === 'text') {
    io.out(`\nTree ${tag}, ${defect.kind.value} ${name}, in ${sanitizeForLog(one.path)}:\n`);
    io.out(sanitizeForLog(`${linesOfEdits(file.text, edits).join('\n')}\n`));
  }
  if (write) await writeEdits([{ file, edits }], root, io);
  if (format === 'text') io.out(write ? 'Written.\n' : 'Nothing was written. Use --write to write it.\n');
  return EXIT_CLEAN;
}

function textOf(photo: string, { written, grounds, doubts }: Measured): string {
  return [
    `${written}  in ${photo}`,
    ...grounds.map(ground => `  ${ground}`),
    `  (errors by ${photographsCitation.short}, from memory)`,
    ...doubts,
    '',
  ].join('\n');
}
