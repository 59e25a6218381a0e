/** Photographs and drill traces that a record names, and what is known of their files. */

import type { Span } from '../../grammar/text.ts';
import { parseDate } from '../base/dates.ts';
import type { DrillTrace } from '../mechanics/drill-trace.ts';
import type { PhotoRecord } from '../mechanics/exif.ts';
import { folderOf } from './paths.ts';
import type { Drilling, Fact, Photo, WrittenTree } from './types.ts';

export type { PhotoRecord } from '../mechanics/exif.ts';

/** The file of a photograph, as far as the host could look. */
export type PhotoFile =
  | { readonly state: 'missing' }
  /** It is there and may not be read, or is a folder. */
  | { readonly state: 'unreadable'; readonly reason: string }
  /** Without record where it holds none; a trace where its name ends like that of a table. */
  | { readonly state: 'read'; readonly record?: PhotoRecord; readonly trace?: DrillTrace };

/** The files that count as photographs, and those that instruments write. A glob knows no case. */
const PHOTO_ENDINGS = ['jpg', 'jpeg', 'png', 'webp', 'heic', 'tif', 'tiff'];
const ENDINGS = [...PHOTO_ENDINGS, 'csv'];
const globOf = (endings: readonly string[]): string =>
  `**/*.{${[...endings, ...endings.map(ending => ending.toUpperCase())].join(',')}}`;

export const PHOTO_GLOB = globOf(PHOTO_ENDINGS);
/** All files that an inventory may name. */
export const NAMED_GLOB = globOf(ENDINGS);

export const isPhotoPath = (path: string): boolean =>
  PHOTO_ENDINGS.includes(path.slice(path.lastIndexOf('.') + 1).toLowerCase());

/** Of more files than these in a folder, the others are not proposed. */
export const MOST_NAMED = 5000;

/** By path relative to the root. Of what is not in it nothing is known. */
export type PhotoIndex = ReadonlyMap<string, PhotoFile>;

/** The day on which a photograph was taken, by the clock of its camera. */
export function dayTaken(file: PhotoFile | undefined): number | undefined {
  const taken = file?.state === 'read' ? file.record?.takenAt : undefined;
  return taken === undefined ? undefined : parseDate(taken.slice(0, 'YYYY-MM-DD'.length));
}

/** A photograph in the record of a tree. */
export interface NamedPhoto extends Span {
  readonly path: string;
  /** From the camera to what it shows; for a nest check without it the stand-off. */
  readonly distance?: NonNullable<Photo['distance']>;
  /** Where the camera looked, degrees. */
  readonly toward?: number;
  /** What it belongs to, and the days on which that says it was looked at; no days for one of the whole tree. */
  readonly of: 'tree' | 'inspection' | 'defect' | 'nest check' | 'work';
  readonly days: readonly number[];
}

/** Whether a tree names any file: most do not. */
export function namesPhotos({
  photos,
  inspections,
  defects,
  nestChecks,
  works,
  drillings,
}: WrittenTree): boolean {
  for (const one of drillings) if (one.traces.length > 0) return true;
  if (photos.length > 0) return true;
  for (const one of inspections) if (one.photos.length > 0) return true;
  for (const one of defects) if (one.photos.length > 0) return true;
  for (const one of nestChecks) if (one.photos.length > 0) return true;
  for (const one of works) if (one.photos.length > 0) return true;
  return false;
}

/** All photographs of a tree, those of earlier readings too. That of a defect may be from any of the tree's inspections. */
export function photosOf(state: WrittenTree): readonly NamedPhoto[] {
  const tree = state.written ?? state;
  const inspected = tree.inspections.map(({ date }) => date.value);
  return [
    ...tree.photos.map(
      ({ value, start, end }): NamedPhoto => ({ path: value, start, end, of: 'tree', days: [] }),
    ),
    ...tree.inspections.flatMap(({ photos, date }) => named(photos, 'inspection', [date.value])),
    ...tree.defects.flatMap(({ photos, seen }) =>
      named(photos, 'defect', seen === undefined ? inspected : [seen, ...inspected]),
    ),
    ...tree.nestChecks.flatMap(({ photos, date, standOff }) =>
      named(photos, 'nest check', [date.value], standOff),
    ),
    ...tree.works.flatMap(({ photos, date }) => named(photos, 'work', [date.value])),
  ];
}

const named = (
  photos: readonly Photo[],
  of: NamedPhoto['of'],
  days: readonly number[],
  standOff?: Photo['distance'],
): readonly NamedPhoto[] =>
  photos.map(photo => {
    const { path, start, end, toward, distance = standOff } = photo;
    return {
      path,
      start,
      end,
      of,
      days,
      ...(distance ? { distance } : {}),
      ...(toward === undefined ? {} : { toward }),
    };
  });

/** A drill trace in the record of a tree. */
export interface NamedTrace {
  readonly drilling: Drilling;
  readonly trace: Drilling['traces'][number];
}

export const tracesOf = ({ drillings }: WrittenTree): readonly NamedTrace[] =>
  drillings.flatMap(drilling => drilling.traces.map(trace => ({ drilling, trace })));

/** The paths, relative to the root, of the photographs and traces that the trees of a file name, as far as they lie in it. */
export function photoPaths({
  path,
  nodes,
}: {
  readonly path: string;
  readonly nodes: Iterable<{ readonly fact: Fact | undefined; readonly namesPhotos: boolean }>;
}): readonly string[] {
  const folder = folderOf(path);
  const paths: string[] = [];
  for (const node of nodes) {
    if (!node.namesPhotos) continue;
    const tree = node.fact as WrittenTree;
    for (const { path: written } of [...photosOf(tree), ...tracesOf(tree).map(({ trace }) => trace)]) {
      const inside = resolveInside(folder, written);
      if (inside !== undefined) paths.push(inside);
    }
  }
  return paths;
}

/** What is known of a photograph named in a file of this folder. */
export function photoNamed(
  photos: PhotoIndex | undefined,
  folder: string,
  written: string,
): PhotoFile | undefined {
  if (!photos) return undefined;
  const path = resolveInside(folder, written);
  return path === undefined ? undefined : photos.get(path);
}

/** A path as written in a folder → relative to the root; undefined where it is absolute or leads out of it. */
export function resolveInside(folder: string, written: string): string | undefined {
  const path = written.replaceAll('\\', '/');
  if (path === '' || path.startsWith('/') || path.includes('\0') || /^[A-Za-z][A-Za-z0-9+.-]*:/.test(path))
    return undefined;
  const parts = folder === '' ? [] : folder.split('/');
  for (const part of path.split('/')) {
    if (part === '' || part === '.') continue;
    if (part !== '..') parts.push(part);
    else if (parts.pop() === undefined) return undefined;
  }
  return parts.length === 0 || parts.includes('..') ? undefined : parts.join('/');
}
