/** The day at the place where a photograph was taken. */

import { MILLISECONDS_PER_DAY, parseDate } from '../base/dates.ts';
import type { PhotoRecord } from '../facts/photos.ts';
import { ZONE_FROM_SUN } from '../practice/photographs.ts';

export interface PictureDay {
  /** Day number; undefined if the file has no time. */
  readonly day: number | undefined;
  /** Seconds since 1970 by the clock of the camera, for the order; undefined like the day. */
  readonly at: number | undefined;
  /** What makes the day doubtful, as a clause. */
  readonly doubt?: string;
}

const HOUR = 3600;
const secondsOf = (time: string): number => Date.parse(`${time}Z`) / 1000;
const dayOf = (seconds: number): number => Math.floor((seconds * 1000) / MILLISECONDS_PER_DAY);

/** Hours that the sun is ahead of UTC. */
const sunOf = (longitude: number): number => longitude / 15;

/**
 * The clock of the camera counts as the time of the place, unless it or the satellites say that it was set to another zone:
 * then the day is that of the sun there, if all zones that the place may keep agree.
 */
export function pictureDay(record: PhotoRecord | undefined): PictureDay {
  const { takenAt, clockOffset, satelliteTime, longitude } = record ?? {};
  const clock = takenAt === undefined ? undefined : secondsOf(takenAt);
  const satellites = satelliteTime === undefined ? undefined : secondsOf(satelliteTime);
  if (clock === undefined) {
    if (satellites === undefined) return { day: undefined, at: undefined };
    return longitude === undefined
      ? { day: dayOf(satellites), at: satellites, doubt: 'only the day in UTC is known' }
      : fromUtc(satellites, longitude, satellites + sunOf(longitude) * HOUR);
  }
  const day = parseDate(takenAt!.slice(0, 'YYYY-MM-DD'.length));
  if (longitude === undefined) return { day, at: clock };
  const utc = satellites ?? (clockOffset === undefined ? undefined : clock - clockOffset * 60);
  if (utc === undefined) return { day, at: clock };
  const ahead = (clock - utc) / HOUR;
  if (Math.abs(ahead - sunOf(longitude)) <= ZONE_FROM_SUN) return { day, at: clock };
  return fromUtc(utc, longitude, clock);
}

/** @param at for the order */
function fromUtc(utc: number, longitude: number, at: number): PictureDay {
  const [first, last] = [-1, 1].map(side => dayOf(utc + (sunOf(longitude) + side * ZONE_FROM_SUN) * HOUR));
  const sun = dayOf(utc + sunOf(longitude) * HOUR);
  return first === last
    ? { day: sun, at }
    : { day: sun, at, doubt: 'the clock of the camera is set to another zone, and it was near midnight' };
}
