import { add, type Interval, interval, isLess } from '../base/interval.ts';
import { showQuantity } from '../base/quantity.ts';
import type { DaySpan } from '../base/yearly-window.ts';
import type { Settings } from '../facts/settings.ts';
import type { Conductor, Crew, Person, Placed, Prescription, Tree } from '../facts/types.ts';
import { approachDistance } from '../practice/electricity.ts';
import { called } from './called.ts';
import { comesDownWhole, crownRadius, heightFelled, readingOf } from './fall-zone.ts';
import { daysLeft, lengthLike } from './prescriptions.ts';
import { isQualified, qualifiedOn } from './qualifications.ts';

const LINE_CLEARANCE = 'line clearance';

/**
 * Minimum approach distance of people not qualified for line clearance, m. An unknown voltage ranges up to the limit
 * `line-voltage`.
 */
export function approach({ voltage }: Conductor, settings: Settings): Interval {
  const { value: rule } = settings.approach;
  const volts = readingOf(voltage, settings);
  const low = approachDistance(volts.low, rule);
  if (volts.high === Number.POSITIVE_INFINITY && rule.unknown !== undefined)
    return interval(low, Math.max(low, rule.unknown));
  const highest = Math.max(settings.limit('line-voltage').value, volts.low);
  return interval(low, approachDistance(Math.min(volts.high, highest), rule));
}

/** Compares the distance to a conductor with `times` the approach distance. */
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

/** Whether the line is off on all, some or none of these days; `some` if no days are stated. */
export function deadOn({ dead }: Conductor, days: DaySpan | undefined): 'all' | 'some' | 'none' {
  if (!dead) return 'none';
  if (!days) return 'some';
  if (dead.from <= days.from && days.to <= dead.to) return 'all';
  return dead.to < days.from || days.to < dead.from ? 'none' : 'some';
}

interface PeopleLookup {
  readonly person: (id: string) => Person | undefined;
  readonly crew: (id: string) => Crew | undefined;
}

export type Clearance = 'qualified' | 'expired' | 'not qualified' | 'not named';

/**
 * Whether the crew, or the person if no crew is named, is qualified for line clearance on a day. A crew is qualified if
 * it says so or all its members are; `expired` if the certificates of all its trained members have expired.
 */
export function clearance(
  {
    crew: crewName,
    by,
  }: { readonly crew?: Placed<string> | undefined; readonly by?: Placed<string> | undefined },
  { person, crew }: PeopleLookup,
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

interface WorkContext extends PeopleLookup {
  readonly tree: Tree;
  readonly settings: Settings;
  readonly today: number;
}

/**
 * Whether a line has to be off during the work: the felled tree may reach it, or people not qualified for line
 * clearance come near it.
 */
export function lineOffFor(around: WorkContext, prescription: Prescription, conductor: Conductor): boolean {
  const { tree, settings, today } = around;
  if (fallsToward(tree, prescription, conductor, settings) !== 'within') return true;
  const day = daysLeft(prescription, today)?.from ?? today;
  return (
    clearance(crewOf(prescription), around, day) !== 'qualified' &&
    nearness(conductor, settings, Math.max(1, settings.limit('line-crew-ratio').value)) !== 'within'
  );
}

/** Last valid day of the crew's line clearance, if it is required and currently valid. */
export function clearanceEnds(around: WorkContext, prescription: Prescription): number | undefined {
  const { tree, settings, today, crew, person } = around;
  const ratio = Math.max(1, settings.limit('line-crew-ratio').value);
  if (tree.conductors.every(conductor => nearness(conductor, settings, ratio) === 'within')) return undefined;
  const first = daysLeft(prescription, today)?.from ?? today;
  const holds = (day: number) => clearance(crewOf(prescription), around, day) === 'qualified';
  if (!holds(first)) return undefined;
  const named = prescription.crew && crew(prescription.crew.value);
  return (named?.members ?? [])
    .flatMap(({ value }) => person(value)?.certificates.flatMap(({ until }) => until ?? []) ?? [])
    .sort((a, b) => a - b)
    .find(day => day >= first && !holds(day + 1));
}

/** Distance from the trunk within which wood may land, m; up to the height for a piece of unknown length. */
export function landsWithin(tree: Tree, prescription: Prescription, settings: Settings): Interval {
  const height = heightFelled(tree, prescription, settings);
  if (comesDownWhole(prescription)) return height;
  const { length } = prescription.piece ?? {};
  return length ? readingOf(length, settings) : interval(0, Math.max(0, height.high));
}

/** Whether a felled tree, or a piece of it, may reach a line. */
export function fallsToward(
  tree: Tree,
  prescription: Prescription,
  { distance }: Conductor,
  settings: Settings,
): 'exceeds' | 'may exceed' | 'within' {
  if (prescription.kind.value !== 'fell') return 'within';
  const falls = landsWithin(tree, prescription, settings);
  const toTrunk = add(readingOf(distance, settings), interval(0, crownRadius(tree, settings).high));
  if (toTrunk.low >= falls.high) return 'within';
  return toTrunk.high < falls.low ? 'exceeds' : 'may exceed';
}

/** Only the crew: the person who prescribes need not do the work. */
export const crewOf = ({ crew }: Prescription): { readonly crew?: Placed<string> | undefined } =>
  crew ? { crew } : {};

/** `"Lane line" (12.5 kV)`. */
export const conductorName = ({ name, voltage }: Conductor): string =>
  `${called('conductor', name)} (${voltage && voltage.value.form !== 'unseen' ? showQuantity(voltage.value) : 'voltage not stated'})`;

/** `3..5 ft from the crown or the work`. */
export const conductorPlace = ({ distance }: Conductor): string =>
  distance && distance.value.form !== 'unseen'
    ? `${showQuantity(distance.value)} from the crown or the work`
    : 'at a distance that nobody stated';

/** The approach distance times `times`: `10 ft`, or `10..34 ft` for an unknown voltage. */
export function showApproach(conductor: Conductor, settings: Settings, times = 1): string {
  const { low, high } = approach(conductor, settings);
  const like = conductor.distance?.value;
  const most = lengthLike(high * times, like);
  return low === high ? most : `${lengthLike(low * times, like)} to ${most}`;
}
