/** What the file of a photograph says of itself, as Markdown. */

import { compassPoint } from '../../grammar/bearing.ts';
import type { Line, Value } from '../../grammar/syntax.ts';
import { distanceBetween } from '../base/distance.ts';
import { inUnit, plainNumber, unitOf } from '../base/quantity.ts';
import { folderOf } from '../facts/paths.ts';
import { type PhotoFile, type PhotoRecord, resolveInside } from '../facts/photos.ts';
import type { DatedWorkspace, FileSnapshot } from '../facts/workspace.ts';
import type { Cursor } from './cursor.ts';
import { escapeMarkdown, paragraphs } from './markdown.ts';

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
  { workspace }: DatedWorkspace,
  { fact }: Cursor,
  { written, path }: PhotoNamed,
): string {
  const title = `**${escapeMarkdown(written)}**`;
  if (path === undefined)
    return paragraphs(title, 'It leads out of the folder of the inventory, and is not read.');
  const found = workspace.photos?.get(path);
  const position = fact?.fact.kind === 'tree' ? fact.fact.position : undefined;
  return paragraphs(title, found ? fileText(found, position) : 'Nothing is known of its file.');
}

type Position = Parameters<typeof distanceBetween>[0];

function fileText(file: PhotoFile, tree: Position | undefined): string {
  switch (file.state) {
    case 'missing':
      return 'There is no such file.';
    case 'unreadable':
      return escapeMarkdown(`The file ${file.reason}.`);
    case 'read':
      if (!file.record) return 'Its file says nothing of the day, the place or the lens.';
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
    ...(facing === undefined ? [] : [`Looks toward: ${compassPoint(facing)} (${plainNumber(facing, 0)}°)`]),
    `Lens: ${lens}`,
    `Size: ${size}${imageWidth !== undefined && imageHeight !== undefined ? `, ${imageHeight} px high` : ''}`,
  ];
}

const away = (tree: Position | undefined, camera: Position): string =>
  tree ? `, ${inUnit(distanceBetween(tree, camera), unitOf('m')!, 0)} from the position of the tree` : '';
