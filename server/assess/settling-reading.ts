/**
 * The reading of a hollow that would satisfy all limits at once: section, rules of thumb, joined cavities, and work for
 * it. A value that satisfies one limit and violates another does not help.
 */

import { compassPoint } from '../../grammar/bearing.ts';
import type { Interval } from '../base/interval.ts';
import { inTable, memo } from '../base/memo.ts';
import { exactly, showQuantity, type Unit } from '../base/quantity.ts';
import type { Settings } from '../facts/settings.ts';
import { stagesOf } from '../facts/stages.ts';
import type { Defect, Site, Tree } from '../facts/types.ts';
import type { LimitName } from '../practice/limits.ts';
import { answeringOffset, answeringReductions } from './answers.ts';
import { areAbout } from './causes.ts';
import { doseOf } from './doses.ts';
import { formulasOf } from './hollow-verdict.ts';
import type { Hollow } from './hollows.ts';
import { judge } from './judge.ts';
import { loadUnder } from './load.ts';
import { settlesDefect } from './settles.ts';
import type { SignContext } from './standing.ts';
import { type DefectStrength, strengthOf } from './strength.ts';

export interface SettlingReading {
  /** `a sound wall of 5 in or more all round`. */
  readonly words: string;
  /** The line in the notation. */
  readonly line: string;
}

const readings = memo(
  (_tree: Tree, _settings: Settings, _site: Site | undefined) =>
    new Map<string, SettlingReading | undefined>(),
);

/** Undefined if no single reading satisfies all limits. */
export function readingThatSettles(context: SignContext, hollow: Hollow): SettlingReading | undefined {
  const { tree, settings, site } = context;
  return inTable(readings(tree, settings, site), hollow.defect.id.value, () => {
    const ways = hollow.read === 'depth' ? [DEPTH] : hollow.read === 'none' ? [WALL, DEPTH] : [WALL];
    return ways.map(way => search(context, hollow, way)).find(found => found);
  });
}

/** What to measure if a hollow may exceed a limit: unread bearings, else the reading that satisfies all limits. */
export function settleText(found: DefectStrength, context: SignContext): string {
  const unread = settlesDefect(found, context.settings);
  if (unread && unread.threshold === undefined) return unread.text;
  const reading = readingThatSettles(context, found.hollow);
  const isWindOpen = formulasOf(found, context).some(
    ({ judged, standing }) => judged.name === 'safety-factor' && standing === 'may exceed',
  );
  const wind = isWindOpen
    ? ' Its capacity in the design wind also depends on height, crown and wood: check those.'
    : '';
  return reading
    ? `Measure the section (resistance drill, tomograph, or a probe where it is open): ${reading.words} brings it within every limit.${wind}`
    : `No single reading decides: measure walls on several bearings, with a resistance drill or a tomograph.${wind}`;
}

/** A kind of reading that can be improved. */
export interface ReadingKind {
  readonly better: 'more' | 'less';
  /** The best that the readings on record allow, m: a reading beyond it would contradict them. */
  best(hollow: Hollow): number;
  /** The defect with this reading. @param value m */
  with(hollow: Hollow, value: number): Defect;
  words(hollow: Hollow, length: string): string;
  line(hollow: Hollow, length: string): string;
}

export const WALL: ReadingKind = {
  better: 'more',
  best: ({ cavity: { walls = [], allRound }, wood }) =>
    Math.min(wood.low / 2, ...walls.map(({ wall }) => wall.high), allRound?.high ?? Number.POSITIVE_INFINITY),
  with: ({ defect }, value) => {
    const thickness = { ...defect.diameter!, value: exactly(defect.diameter!.value, value) };
    return {
      ...defect,
      walls:
        defect.walls.length > 0
          ? defect.walls.map(wall => ({ ...wall, thickness }))
          : [{ start: thickness.start, end: thickness.end, thickness, bearing: undefined }],
    };
  },
  words: ({ defect: { walls } }, length) =>
    walls.length > 1
      ? `a sound wall of ${length} or more at each of its ${walls.length} bearings`
      : walls[0]?.bearing === undefined
        ? `a sound wall of ${length} or more all round`
        : `a sound wall of ${length} or more at ${compassPoint(walls[0].bearing)}`,
  line: ({ defect: { walls } }, length) =>
    `wall ${walls.length > 0 ? walls.map(({ bearing }) => (bearing === undefined ? length : `${length} at ${bearing} deg`)).join(', ') : length}`,
};

export const DEPTH: ReadingKind = {
  better: 'less',
  best: ({ cavity: { depth } }) => depth?.low ?? 0,
  with: ({ defect }, value) => ({
    ...defect,
    depth: { ...defect.diameter!, value: exactly(defect.diameter!.value, value) },
  }),
  words: (_, length) => `a void of ${length} or less through the opening`,
  line: (_, length) => `depth ${length}`,
};

/** Of what was converted from the writer's unit and back. */
const ROUNDING = 1e-6;

/** Lengths are shown to a tenth of the unit. */
const TENTHS = 10;

/** The value closest to the limits that satisfies all, in tenths of the unit; undefined if none does. */
function search(context: SignContext, hollow: Hollow, kind: ReadingKind): SettlingReading | undefined {
  const { unit, wood } = hollow;
  const metres = (tenths: number) => (tenths / TENTHS) * unit.factor;
  const settles = (tenths: number) => keepsAll(context, hollow, kind.with(hollow, metres(tenths)));
  const most = Math.floor((wood.low / 2 / unit.factor) * TENTHS);
  const best = (kind.best(hollow) / unit.factor) * TENTHS;
  let [good, bad] =
    kind.better === 'more'
      ? [Math.floor(best + ROUNDING), 0]
      : [Math.max(1, Math.ceil(best - ROUNDING)), most * 2];
  if (!(most > 0) || !settles(good)) return undefined;
  while (Math.abs(good - bad) > 1) {
    const middle = Math.round((good + bad) / 2);
    if (settles(middle)) good = middle;
    else bad = middle;
  }
  const length = lengthIn(metres(good), unit, hollow);
  return { words: kind.words(hollow, length), line: kind.line(hollow, length) };
}

export const lengthIn = (metres: number, unit: Unit, { defect }: Hollow): string =>
  showQuantity({ ...exactly(defect.diameter!.value, metres), unit });

/** Whether the defect with this reading satisfies all limits. */
function keepsAll(context: SignContext, hollow: Hollow, read: Defect): boolean {
  try {
    return keepsEach(context, hollow, read);
  } catch (error) {
    // Not computable: does not decide.
    if (error instanceof RangeError) return false;
    throw error;
  }
}

function keepsEach(context: SignContext, { defect }: Hollow, read: Defect): boolean {
  const { tree, settings } = context;
  const after = {
    ...context,
    tree: { ...tree, defects: tree.defects.map(one => (one === defect ? read : one)) },
  };
  const found = strengthOf(after.tree, settings).defects.find(({ hollow }) => hollow.defect === read);
  if (!found || found.figures.contradictions.length > 0) return false;
  return (
    formulasOf(found, after).every(({ standing }) => standing === 'within') &&
    keepsGroups(after.tree, read, settings) &&
    keepsWork(after, read)
  );
}

/** Of groups of joined cavities that include the defect. */
function keepsGroups(tree: Tree, read: Defect, settings: Settings): boolean {
  if (!tree.joined.some(({ defects }) => areAbout(defects, { id: read.id, part: undefined }))) return true;
  return strengthOf(tree, settings)
    .groups.filter(({ members }) => members.some(({ hollow }) => hollow.defect === read))
    .every(({ strengthLoss }) => keeping(settings)(strengthLoss, 'section-loss'));
}

/** Of reductions for the defect: stress, dose and seasons. */
function keepsWork({ tree, site, settings }: SignContext, read: Defect): boolean {
  if (!tree.prescriptions.some(({ for: causes }) => areAbout(causes, read))) return true;
  return answeringReductions(tree, settings)
    .filter(({ answered }) => answered.some(({ hollow }) => hollow.defect === read))
    .every(answering => {
      const { prescription, strength } = answering;
      const sections = loadUnder(tree, prescription, strength, site, settings)?.sections ?? [];
      const stress = sections.find(({ defect }) => defect.hollow.defect === read)?.stressRatio;
      if (stress && !keeping(settings)(stress, 'stress-ratio')) return false;
      const offset = answeringOffset(tree, answering, site, settings);
      const { at, id } = prescription;
      const dose = doseOf(tree, { prescription, at, subject: id.value }, settings)?.total;
      if (offset && offset.seasons.high > stagesOf(prescription)) return false;
      return stress !== undefined || !offset || !dose || dose.low >= offset.dose.high;
    });
}

const keeping =
  (settings: Settings) =>
  (value: Interval, limit: LimitName): boolean =>
    judge(value, limit, settings).standing === 'within';
