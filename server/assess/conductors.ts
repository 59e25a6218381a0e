/** How near to electric lines the work comes, and whether the people who do it are trained for that. */

import { showQuantity } from '../../grammar/quantity.ts';
import type { Settings } from '../facts/settings.ts';
import type { Conductor, Crew, Person, Placed, Prescription } from '../facts/types.ts';
import { type Interval, interval, isLess } from '../mechanics/interval.ts';
import { approachDistance, type DaySpan } from '../practice/index.ts';
import { called } from './counted.ts';
import { readingOf } from './fall-zone.ts';
import { lengthLike } from './prescriptions.ts';
import { isQualified, qualifiedOn } from './qualifications.ts';

export const LINE_CLEARANCE = 'line clearance';

/**
 * The distance, in m, that people not qualified for line clearance keep, for every voltage that the line may
 * have: to that of the highest line (limit `line-voltage`) where nobody stated it.
 */
export function approach({ voltage }: Conductor, settings: Settings): Interval {
  const volts = readingOf(voltage, settings);
  const highest = Math.max(settings.limit('line-voltage').value, volts.low);
  return interval(approachDistance(volts.low), approachDistance(Math.min(volts.high, highest)));
}

/** How the distance to a conductor stands to `times` the approach distance. */
export function nearness(
  conductor: Conductor,
  settings: Settings,
  times = 1,
): 'exceeds' | 'may exceed' | 'within' {
  const distance = readingOf(conductor.distance, settings);
  const { low, high } = approach(conductor, settings);
  if (isLess(distance.high, low * times)) return 'exceeds';
  return isLess(distance.low, high * times) ? 'may exceed' : 'within';
}

/** Whether the line is switched off on all of these days, some of them, or none; some where none are stated. */
export function deadOn({ dead }: Conductor, days: DaySpan | undefined): 'all' | 'some' | 'none' {
  if (!dead) return 'none';
  if (!days) return 'some';
  if (dead.from <= days.from && days.to <= dead.to) return 'all';
  return dead.to < days.from || days.to < dead.from ? 'none' : 'some';
}

interface People {
  readonly person: (id: string) => Person | undefined;
  readonly crew: (id: string) => Crew | undefined;
}

export type Clearance = 'qualified' | 'expired' | 'not qualified' | 'not named';

/**
 * Whether the crew, or the person where no crew is named, is qualified for line clearance on a day. A crew is
 * where it says so, or every member is; `expired` where the certificates of all its trained members have run out.
 */
export function clearance(
  { crew: crewName, by }: { readonly crew?: Placed<string>; readonly by?: Placed<string> },
  { person, crew }: People,
  day: number,
): Clearance {
  const named = crewName && crew(crewName.value);
  if (!named) {
    const worker = by && person(by.value);
    if (!worker) return 'not named';
    if (!isQualified(worker, LINE_CLEARANCE)) return 'not qualified';
    return qualifiedOn(worker, LINE_CLEARANCE, day) ? 'qualified' : 'expired';
  }
  const trained = named.members
    .map(({ value }) => person(value))
    .filter(member => member !== undefined && isQualified(member, LINE_CLEARANCE));
  const stated = named.qualifications.some(({ value }) => value === LINE_CLEARANCE);
  const everyone = trained.length > 0 && trained.length === named.members.length;
  if (!stated && !everyone) return 'not qualified';
  const holds = trained.length === 0 || trained.some(member => qualifiedOn(member!, LINE_CLEARANCE, day));
  return holds ? 'qualified' : 'expired';
}

/** Who prescribes is not who does the work: only the crew of a prescription counts. */
export const crewOf = ({ crew }: Prescription): { readonly crew?: Placed<string> } => (crew ? { crew } : {});

/** For people: `"Lane line" (12.5 kV)`. */
export const conductorName = ({ name, voltage }: Conductor): string =>
  `${called('conductor', name)} (${voltage && voltage.value.form !== 'unseen' ? showQuantity(voltage.value) : 'voltage not stated'})`;

/** For people: `3..5 ft from the crown or the work`. */
export const conductorPlace = ({ distance }: Conductor): string =>
  distance && distance.value.form !== 'unseen'
    ? `${showQuantity(distance.value)} from the crown or the work`
    : 'at a distance that nobody stated';

/** The approach distance times `times`, for people: `10 ft`, `10..34 ft` where the voltage is open. */
export function showApproach(conductor: Conductor, settings: Settings, times = 1): string {
  const { low, high } = approach(conductor, settings);
  const like = conductor.distance?.value;
  const most = lengthLike(high * times, like);
  return low === high ? most : `${lengthLike(low * times, like)} to ${most}`;
}
