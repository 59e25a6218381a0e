/** Photographs of one thing from one side on several days, to be looked at side by side. */

import { bearingsApart } from '../base/bearings.ts';
import { dayTaken, type PhotoFile } from '../facts/photos.ts';
import { asWritten } from '../facts/state.ts';
import type { Photo, Tree, Work } from '../facts/types.ts';
import { defectName } from './evidence.ts';

/** A photograph in the record of a tree. */
export interface TreePhoto {
  /** As written. */
  readonly path: string;
  /** `the whole tree`, `cavity A`, `nests`. */
  readonly subject: string;
  /** Of the record that names it, else of its file. */
  readonly day: number | undefined;
  /** Where the camera looked, degrees. */
  readonly toward: number | undefined;
  readonly distance: Photo['distance'];
  /** `ground`, `drone`. */
  readonly from: string | undefined;
  /** The work after which it was taken, where its record says so. */
  readonly of: Work | undefined;
}

interface DatedPhoto extends TreePhoto {
  readonly day: number;
}

interface SeriesPhoto {
  readonly photo: DatedPhoto;
  /** The work done since the photograph before it, and until the one after it. */
  readonly after: readonly Work[];
  readonly before: readonly Work[];
}

export interface PhotoSeries {
  readonly subject: string;
  /** Two or more, by their days. */
  readonly photos: readonly SeriesPhoto[];
}

const WHOLE = 'the whole tree';

/** Every photograph on record, in the order of the records. A day or direction on record counts before that of the file. */
export function treePhotos(
  state: Tree,
  fileOf: (path: string) => PhotoFile | undefined,
): readonly TreePhoto[] {
  const { photos, inspections, defects, nestChecks, works } = asWritten(state);
  const directionOf = (path: string): number | undefined => {
    const file = fileOf(path);
    return file?.state === 'read' ? file.record?.facing : undefined;
  };
  const of = (
    named: readonly Photo[],
    subject: string,
    day: number | undefined,
    more: Partial<TreePhoto> = {},
  ): readonly TreePhoto[] =>
    named.map(({ path, distance, toward }) => ({
      path,
      subject,
      day: day ?? dayTaken(fileOf(path)),
      toward: toward ?? directionOf(path),
      distance,
      from: undefined,
      of: undefined,
      ...more,
    }));
  return [
    ...photos.map(
      ({ value: path }): TreePhoto => ({
        path,
        subject: WHOLE,
        day: dayTaken(fileOf(path)),
        toward: directionOf(path),
        distance: undefined,
        from: undefined,
        of: undefined,
      }),
    ),
    ...inspections.flatMap(({ photos, date, from }) => of(photos, WHOLE, date.value, { from: from.value })),
    ...defects.flatMap(defect =>
      of(defect.photos, defectName(defect), defect.seen, { from: defect.inspection?.from.value }),
    ),
    ...nestChecks.flatMap(({ photos, date, from }) => of(photos, 'nests', date.value, { from: from.value })),
    ...works.flatMap(work => of(work.photos, WHOLE, work.date.value, { of: work })),
  ];
}

/** Degrees: views that differ by no more, one of the eight main winds, are of the same side. */
const SIDE = 45;
/** From farther than so many times the distance, a picture shows another thing. */
const FARTHER = 2;

/** Whether two photographs show the same side of the same thing. Of two that say nothing of their direction it is taken. */
function areAlike(one: TreePhoto, other: TreePhoto): boolean {
  if (one.subject !== other.subject) return false;
  if ((one.toward === undefined) !== (other.toward === undefined)) return false;
  if (one.toward !== undefined && bearingsApart(one.toward, other.toward!) > SIDE) return false;
  if (!one.distance || !other.distance) return true;
  const [a, b] = [one.distance.value, other.distance.value];
  return a.low <= FARTHER * b.high && b.low <= FARTHER * a.high;
}

/**
 * The photographs to be looked at side by side: of one thing and from one side, each with the work done between them.
 * Of many the first and the last, and those nearest to work before and after it. On a day on which there was work, only
 * a photograph that the record of the work names is known to be from after it.
 */
export function photoSeries(photos: readonly TreePhoto[], works: readonly Work[]): readonly PhotoSeries[] {
  const dated = photos
    .filter((photo): photo is DatedPhoto => photo.day !== undefined)
    .toSorted((a, b) => b.day - a.day);
  const groups: DatedPhoto[][] = [];
  for (const photo of dated) {
    const alike = groups.find(([newest]) => areAlike(newest!, photo));
    if (!alike) groups.push([photo]);
    // One of each day.
    else if (alike.every(({ day, of }) => day !== photo.day || of !== photo.of)) alike.push(photo);
  }
  return groups.flatMap((newestFirst): readonly PhotoSeries[] => {
    const all = newestFirst.toReversed().sort((a, b) => a.day - b.day || Number(!!a.of) - Number(!!b.of));
    const chosen = new Set([all[0]!, all.at(-1)!]);
    for (const work of works) {
      const before = all.findLast(photo => isBefore(photo, work));
      const after = all.find(photo => isAfter(photo, work));
      if (!before || !after) continue;
      chosen.add(before).add(after);
    }
    const shown = all.filter(photo => chosen.has(photo));
    if (new Set(shown.map(({ day }) => day)).size < 2) return [];
    const between = (one: DatedPhoto | undefined, other: DatedPhoto | undefined) =>
      one && other ? works.filter(work => isBefore(one, work) && isAfter(other, work)) : [];
    return [
      {
        subject: shown[0]!.subject,
        photos: shown.map((photo, i) => ({
          photo,
          after: between(shown[i - 1], photo),
          before: between(photo, shown[i + 1]),
        })),
      },
    ];
  });
}

const isBefore = ({ day }: DatedPhoto, { date }: Work): boolean => day < date.value;
const isAfter = ({ day, of }: DatedPhoto, work: Work): boolean => of === work || day > work.date.value;
