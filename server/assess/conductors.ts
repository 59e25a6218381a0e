import { add, type Interval, interval } from '../base/interval.ts';
import { showQuantity } from '../base/quantity.ts';
import type { DaySpan } from '../base/yearly-window.ts';
import type { Settings } from '../facts/settings.ts';
import type { Conductor, Crew, Person, Placed, Prescription, Site, Tree } from '../facts/types.ts';
import type { LineClass } from '../practice/law/law-row.ts';
import { called } from './called.ts';
import { comesDownWhole, crownRadius, heightFelled, readingOf } from './fall-zone.ts';
import {
  agreedDistance,
  compared,
  type Distances,
  distancesFor,
  everybodys,
  requiredBy,
  workDistance,
} from './line-distances.ts';
import { daysLeft, lengthLike, lengthUp } from './prescriptions.ts';
import { isQualified, qualifiedOn } from './qualifications.ts';

/** Qualifications for work near electric lines, and the classes of people that they are in the rows of law. */
const CLASSES = [
  ['line clearance', ['line clearance']],
  ['electrically instructed', ['instructed']],
  ['electrically qualified', ['qualified', 'instructed']],
] as const satisfies readonly (readonly [string, readonly LineClass[]])[];

/**
 * Minimum approach distance of people not qualified for work near lines, m. An unknown voltage ranges up to the
 * greatest distance of the place.
 */
export function approach(conductor: Conductor, settings: Settings): Interval {
  const row = everybodys(settings);
  const agreed = row.rule.consent && agreedDistance(conductor, settings);
  return agreed || requiredBy(row, conductor, settings);
}

/** What the approach distance rests on: `29 CFR 1910.333(c)(3)(i)(A), law`. */
export function approachSource({ agreed }: Conductor, settings: Settings): string {
  const row = everybodys(settings);
  return row.rule.consent && agreed ? agreed.because : row.source;
}

interface Around {
  readonly tree: Tree;
  readonly settings: Settings;
}

/** Compares how near the work, or a piece that it cuts, may come to a conductor with the approach distance. */
export function nearness(
  { tree, settings }: Around,
  conductor: Conductor,
  prescription?: Prescription | undefined,
): 'exceeds' | 'may exceed' | 'within' {
  const keep = approach(conductor, settings);
  const row = everybodys(settings);
  return compared(workDistance(conductor, tree, prescription, row, keep.high, settings), keep);
}

/** The distance within which only a line clearance crew does the work, m: the limit `line-crew-ratio` times that of the place. */
export function crewDistance(conductor: Conductor, settings: Settings): Interval {
  const { low, high } = requiredBy(everybodys(settings), conductor, settings);
  const times = Math.max(1, settings.limit('line-crew-ratio').value);
  return interval(low * times, high * times);
}

/** Compares how near the work may come to a conductor with the distance that calls for a line clearance crew. */
export function crewNearness({ tree, settings }: Around, conductor: Conductor): ReturnType<typeof compared> {
  const keep = crewDistance(conductor, settings);
  return compared(workDistance(conductor, tree, undefined, everybodys(settings), keep.high, settings), keep);
}

/** How near qualified people may come. */
export interface CrewMinimum {
  readonly keep: Interval;
  readonly row: Distances;
  /** `agreed`: as the owner allows; `everyone`: the place has no distance for their qualification. */
  readonly of: 'class' | 'agreed' | 'everyone';
  readonly source: string;
}

/**
 * The minimum for people of these classes. Where the place has no distance for them: what the owner of the line agreed
 * to, else everybody's.
 */
export function crewMinimum(
  classes: readonly LineClass[],
  conductor: Conductor,
  settings: Settings,
  site: Site | undefined,
): CrewMinimum {
  const own = distancesFor(settings, classes).map((row): CrewMinimum => {
    const keep = requiredBy(row, conductor, settings, site);
    return { keep, row, of: 'class', source: row.source };
  });
  if (own.length > 0) return own.reduce((a, b) => (b.keep.high < a.keep.high ? b : a));
  const row = everybodys(settings);
  const agreed = agreedDistance(conductor, settings);
  if (agreed) return { keep: agreed, row, of: 'agreed', source: conductor.agreed!.because };
  const keep = requiredBy(row, conductor, settings);
  return { keep, row, of: 'everyone', source: row.source };
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

interface Workers {
  readonly crew?: Placed<string> | undefined;
  readonly by?: Placed<string> | undefined;
}

/**
 * Whether the crew, or the person if no crew is named, has a qualification on a day. A crew has it if it says so or all
 * its members have; `expired` if the certificates of all its trained members have expired.
 */
function holding(
  { crew: crewName, by }: Workers,
  { person, crew }: PeopleLookup,
  qualification: string,
  day: number,
): Clearance {
  const named = crewName && crew(crewName.value);
  if (!named) {
    const worker = by && person(by.value);
    if (!worker) return 'not named';
    if (!isQualified(worker, qualification)) return 'not qualified';
    return qualifiedOn(worker, qualification, day) ? 'qualified' : 'expired';
  }
  const trained = named.members
    .map(({ value }) => person(value))
    .filter(member => member !== undefined && isQualified(member, qualification));
  const stated = named.qualifications.some(({ value }) => value === qualification);
  const everyone = trained.length > 0 && trained.length === named.members.length;
  if (!stated && !everyone) return 'not qualified';
  const holds = trained.length === 0 || trained.some(member => qualifiedOn(member!, qualification, day));
  return holds ? 'qualified' : 'expired';
}

/** Whether the people are qualified for line clearance, or otherwise for work near lines, on a day. */
export function clearance(workers: Workers, people: PeopleLookup, day: number): Clearance {
  const all = CLASSES.map(([qualification]) => holding(workers, people, qualification, day));
  return all.find(one => one === 'qualified') ?? all.find(one => one === 'expired') ?? all[0]!;
}

/** The classes of people that a crew belongs to on a day. */
export const classesOf = (workers: Workers, people: PeopleLookup, day: number): readonly LineClass[] =>
  CLASSES.flatMap(([qualification, classes]) =>
    holding(workers, people, qualification, day) === 'qualified' ? classes : [],
  );

interface WorkContext extends PeopleLookup {
  readonly tree: Tree;
  readonly site: Site | undefined;
  readonly settings: Settings;
  readonly today: number;
}

/** How the work of a qualified crew stands to its minimum at a conductor. */
export function atMinimum(
  { tree, settings }: Around,
  prescription: Prescription,
  conductor: Conductor,
  { keep, row }: CrewMinimum,
): ReturnType<typeof compared> {
  return compared(workDistance(conductor, tree, prescription, row, keep.high, settings), keep);
}

/**
 * Whether a line has to be off during the work: the felled tree may reach it, people not qualified for line clearance
 * come near it, or others nearer than their minimum.
 */
export function lineOffFor(around: WorkContext, prescription: Prescription, conductor: Conductor): boolean {
  const { tree, site, settings, today } = around;
  if (fallsToward(tree, prescription, conductor, settings) !== 'within') return true;
  const day = daysLeft(prescription, today)?.from ?? today;
  const classes = classesOf(crewOf(prescription), around, day);
  return classes.length === 0
    ? crewNearness(around, conductor) !== 'within'
    : atMinimum(around, prescription, conductor, crewMinimum(classes, conductor, settings, site)) !==
        'within';
}

/** Last valid day of the crew's line clearance, if it is required and currently valid. */
export function clearanceEnds(around: WorkContext, prescription: Prescription): number | undefined {
  const { tree, today, crew, person } = around;
  if (tree.conductors.every(conductor => crewNearness(around, conductor) === 'within')) return undefined;
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

/** Whether a felled tree, or a piece of it, may reach a line, or the approach distance where the law counts it like people. */
export function fallsToward(
  tree: Tree,
  prescription: Prescription,
  conductor: Conductor,
  settings: Settings,
): 'exceeds' | 'may exceed' | 'within' {
  if (prescription.kind.value !== 'fell') return 'within';
  const landing = landsWithin(tree, prescription, settings);
  const falls = everybodys(settings).rule.tree ? add(landing, approach(conductor, settings)) : landing;
  const toTrunk = add(readingOf(conductor.distance, settings), interval(0, crownRadius(tree, settings).high));
  if (toTrunk.low >= falls.high) return 'within';
  return toTrunk.high < falls.low ? 'exceeds' : 'may exceed';
}

/** Only the crew: the person who prescribes need not do the work. */
export const crewOf = ({ crew }: Prescription): { readonly crew?: Placed<string> | undefined } =>
  crew ? { crew } : {};

/** `"Lane line" (12.5 kV)`. */
export const conductorName = ({ name, voltage }: Conductor): string =>
  `${called('conductor', name)} (${voltage && voltage.value.form !== 'unseen' ? showQuantity(voltage.value) : 'voltage not recorded'})`;

/** `3..5 ft from the crown or the work`. */
export const conductorPlace = ({ distance }: Conductor): string =>
  distance && distance.value.form !== 'unseen'
    ? `${showQuantity(distance.value)} from the crown or the work`
    : 'at an unrecorded distance';

/** `10 ft`, or `10 ft to 34 ft`, in the unit in which the line was measured and never rounded down. */
export function showKeep({ low, high }: Interval, conductor: Conductor, tree?: Tree): string {
  const up = (metres: number) => {
    const like = [conductor.distance?.value, tree?.height?.value] as const;
    return lengthUp(metres, ...like) ?? lengthLike(metres, ...like);
  };
  return low === high ? up(high) : `${up(low)} to ${up(high)}`;
}

/** The approach distance of people without a qualification. */
export const showApproach = (conductor: Conductor, settings: Settings, tree?: Tree): string =>
  showKeep(approach(conductor, settings), conductor, tree);
