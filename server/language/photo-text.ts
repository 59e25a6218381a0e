/** What the file of a photograph says of itself, as Markdown. */

import { compassPoint } from '../../grammar/bearing.ts';
import type { Line, Value } from '../../grammar/syntax.ts';
import { cameraBearing } from '../assess/photo-views.ts';
import { distanceBetween } from '../base/distance.ts';
import { inUnit, plainNumber, unitOf } from '../base/quantity.ts';
import { folderOf } from '../facts/paths.ts';
import { type PhotoFile, type PhotoRecord, resolveInside } from '../facts/photos.ts';
import type { DatedWorkspace, FileSnapshot } from '../facts/workspace.ts';
import type { Cursor } from './cursor.ts';
import { escapeMarkdown, paragraphs } from './markdown.ts';
import { settingsOf } from './snapshot.ts';

export interface PhotoNamed {
  /** As it is written. */
  readonly written: string;
  /** Relative to the root; undefined if it leads out of the workspace. */
  readonly path: string | undefined;
}

/** The photograph that a value names. */
export function photoAt(file: FileSnapshot, line: Line, value: Value): PhotoNamed | undefined {
  if (line.word !== 'photo' || value.type !== 'text') return undefined;
  return { written: value.text, path: resolveInside(folderOf(file.path), value.text) };
}

export function photoText(
  snapshot: DatedWorkspace,
  { fact, file }: Cursor,
  { written, path }: PhotoNamed,
): string {
  const title = `**${escapeMarkdown(written)}**`;
  if (path === undefined)
    return paragraphs(title, 'It is outside the folder of the inventory, so it is not read.');
  const found = snapshot.workspace.photos?.get(path);
  if (!found) return paragraphs(title, 'The file has not been read.');
  const tree = fact?.fact.kind === 'tree' ? fact.fact : undefined;
  const record = found.state === 'read' ? found.record : undefined;
  const bearing = tree && cameraBearing(record, tree, settingsOf(snapshot, file.path));
  return paragraphs(title, fileText(found, tree?.position), bearing && escapeMarkdown(stoodAt(bearing)));
}

/** The side of the tree that the camera was on. */
const stoodAt = ({ from, off }: NonNullable<ReturnType<typeof cameraBearing>>): string =>
  `The camera stood to the ${compassPoint(from)} of the tree, within ${Math.ceil(off)}°.`;

type Position = Parameters<typeof distanceBetween>[0];

function fileText(file: PhotoFile, tree: Position | undefined): string {
  switch (file.state) {
    case 'missing':
      return 'The file does not exist.';
    case 'unreadable':
      return escapeMarkdown(`The file ${file.reason}.`);
    case 'read':
      if (!file.record) return 'The file has no date, position or lens data.';
      return recordLines(file.record, tree)
        .map(line => `- ${escapeMarkdown(line)}`)
        .join('\n');
  }
}

const UNKNOWN = 'not in the file';

/** Day, place, lens and size; what is not in the file is said, because rules may ask for it. */
function recordLines(record: PhotoRecord, tree: Position | undefined): readonly string[] {
  const { takenAt, latitude, longitude, facing, focalLength35, imageWidth, imageHeight } = record;
  const place =
    latitude === undefined || longitude === undefined
      ? UNKNOWN
      : `${plainNumber(latitude, 5)}, ${plainNumber(longitude, 5)}${away(tree, { latitude, longitude })}`;
  const lens =
    focalLength35 === undefined ? UNKNOWN : `${inUnit(focalLength35, unitOf('mm')!, 0)}, as on 35 mm film`;
  const size = imageWidth === undefined ? UNKNOWN : `${imageWidth} px wide`;
  return [
    `Taken: ${takenAt?.replace('T', ' ').slice(0, 16) ?? UNKNOWN}`,
    `Place: ${place}`,
    ...(facing === undefined ? [] : [`Facing: ${compassPoint(facing)} (${plainNumber(facing, 0)}°)`]),
    `Lens: ${lens}`,
    `Size: ${size}${imageWidth !== undefined && imageHeight !== undefined ? `, ${imageHeight} px high` : ''}`,
  ];
}

const away = (tree: Position | undefined, camera: Position): string =>
  tree ? `, ${inUnit(distanceBetween(tree, camera), unitOf('m')!, 0)} from the position of the tree` : '';
