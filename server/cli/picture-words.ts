/** What was found in a folder of pictures, in words. */

import { formatDate } from '../base/dates.ts';
import { grouped } from '../base/grouped.ts';
import { inUnit, unitOf } from '../base/quantity.ts';
import { counted, listed } from '../base/words.ts';
import type { GroupedPictures, Shot } from '../import/pictures.ts';
import type { ReadPictures } from './read-pictures.ts';

/** Names listed before the rest is a number. */
export const NAMED = 5;

export const baseName = (path: string): string => path.slice(path.lastIndexOf('/') + 1);

/** `a.jpg, b.jpg and 3 more`. */
export function namesOf(shots: readonly { readonly path: string }[]): string {
  const names = shots.slice(0, NAMED).map(({ path }) => baseName(path));
  return shots.length > NAMED ? `${names.join(', ')} and ${shots.length - NAMED} more` : listed(names);
}

const twoDigits = (number: number): string => String(number).padStart(2, '0');

/** `2026-03-16 09:40`. */
export function timeOf({ day, at }: Shot): string {
  if (day === undefined || at === undefined) return 'at an unknown time';
  const minutes = Math.floor(at / 60);
  const hour = Math.floor(minutes / 60) % 24;
  return `${formatDate(day)} ${twoDigits(hour)}:${twoDigits(minutes % 60)}`;
}

interface Said {
  /** Trees without a position. */
  readonly bare: number;
  /** Pictures of open questions. */
  readonly asked: readonly Shot[];
  readonly nameOf: (path: string) => string;
}

/** What was found, and what is left out. */
export function summaryOf(
  { shots, copies }: ReadPictures,
  fresh: readonly Shot[],
  { elsewhere, unplaced }: Pick<GroupedPictures<unknown>, 'elsewhere' | 'unplaced'>,
  claims: readonly { readonly tree: { readonly position?: unknown }; readonly shots: readonly Shot[] }[],
  { bare, asked, nameOf }: Said,
): readonly string[] {
  const claimed = claims.flatMap(claim => claim.shots);
  const undated = claimed.filter(({ day }) => day === undefined);
  const doubtful = claimed.filter(({ doubt }) => doubt !== undefined);
  const trees = new Set(claims.map(({ tree }) => tree)).size;
  const known = shots.length - fresh.length;
  const told = new Set([...claimed, ...asked, ...unplaced, ...elsewhere.map(({ shot }) => shot)]);
  const rest = fresh.filter(shot => !told.has(shot));
  const isBeside = bare > 0 && claims.some(({ tree }) => tree.position !== undefined);
  return [
    `${counted(shots.length + copies.length, 'picture')}; ${claimed.length - undated.length} of ${counted(trees, 'tree')}.`,
    ...(known > 0 ? [`Already on record: ${known}.`] : []),
    ...(isBeside
      ? [
          `${counted(bare, 'tree has', 'trees have')} no position, so their pictures may have been assigned to a nearby tree: check each one.`,
        ]
      : []),
    ...(rest.length > 0 ? [`No matching tree: ${namesOf(rest)}; left out.`] : []),
    ...copies.map(
      ({ path, of }) => `A copy: ${nameOf(path)} has the same content as ${nameOf(of)} and is left out.`,
    ),
    ...burstsOf(claimed).map(
      burst => `Taken in one second: ${namesOf(burst)}; all are listed; remove those that add nothing.`,
    ),
    ...elsewhere.map(
      ({ shot, distance }) =>
        `Another place: ${nameOf(shot.path)} was taken ${Number.isFinite(distance) ? `${inUnit(distance, unitOf('m')!, 0)} from everything in the inventory` : 'elsewhere'} and is left out.`,
    ),
    ...unplaced.map(
      ({ path }) => `No position: ${nameOf(path)} does not record where it was taken and is left out.`,
    ),
    ...undated.map(
      ({ path }) => `No date: ${nameOf(path)} does not record when it was taken and is left out.`,
    ),
    ...doubtful.map(
      ({ path, day, doubt }) => `Date of ${nameOf(path)}: ${formatDate(day!)}, but ${doubt}; check it.`,
    ),
  ];
}

/** Pictures of the same second and the same place. */
function burstsOf(shots: readonly Shot[]): readonly (readonly Shot[])[] {
  const bySecond = grouped(
    shots.filter(({ at }) => at !== undefined),
    ({ at, position }) => `${at} ${position?.latitude} ${position?.longitude}`,
  );
  return [...bySecond.values()].filter(({ length }) => length > 1);
}
