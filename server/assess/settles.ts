/** The single reading that would decide whether the loss of a section exceeds its limit. */

import { compassPoint } from '../../grammar/bearing.ts';
import type { Interval } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { listed } from '../base/words.ts';
import type { Settings } from '../facts/settings.ts';
import { sectionInputs, withInputs } from '../mechanics/section-readings.ts';
import { type DecisiveReading, decisiveReading } from '../mechanics/settle.ts';
import { lossBounds } from '../mechanics/uncertain-section.ts';
import { unreadBearings } from '../mechanics/unread.ts';
import { downTo, type Hollow, upTo } from './hollows.ts';
import { type Judged, judge, showNumber } from './judge.ts';
import type { DefectStrength } from './strength.ts';

export interface Settles {
  readonly defect: string;
  /** `sound wall at SW`. */
  readonly reading: string;
  /** m; a reading at or beyond it decides. Undefined if it would only narrow the figure. */
  readonly threshold: number | undefined;
  readonly decides: 'within' | 'exceeds' | undefined;
  /** One sentence. */
  readonly text: string;
}

/** Display name of a reading of `sectionInputs`. */
function nameOf(input: string, { cavity, outer }: Hollow): string {
  const wall = /wall (\d+)$/.exec(input);
  if (wall) return `sound wall at ${compassPoint(cavity.walls![Number(wall[1])]!.bearing)}`;
  if (input.endsWith('wall')) return 'sound wall';
  if (input.endsWith('depth')) return 'depth from the opening';
  if (input.endsWith('opening')) return 'width of the opening';
  if (input === 'bark') return 'thickness of the bark';
  return input === 'cross diameter' || outer.crossDiameter ? `${input} of the stem` : 'diameter of the stem';
}

function sentence(found: DecisiveReading, reading: string, hollow: Hollow, judged: Judged): string {
  const defect = hollow.defect.id.value;
  if (found.threshold === undefined)
    return `Of the readings at ${defect}, the ${reading} would narrow the figure most, but it does not decide alone.`;
  // Rounded to the stricter side.
  const length = (found.decidedAt === 'high' ? upTo : downTo)(found.threshold, hollow.unit);
  const beyond = found.decidedAt === 'high' ? 'more' : 'less';
  const limit = showNumber(judged.setting.value, judged.setting, 1);
  return `A ${reading} of ${length} or ${beyond} at ${defect} would settle it: the loss of the section is then ${found.decision === 'within' ? 'within' : 'beyond'} ${limit}.`;
}

const pointsOf = (bearings: readonly number[]): string => listed(bearings.map(compassPoint));

/** Unread bearings, if too much of the stem is unread for one reading to decide. */
function unreadWalls({ defect, cavity }: Hollow): Settles | undefined {
  const { walls, allRound, bearing, depth, opening } = cavity;
  if (!walls || allRound) return undefined;
  const unread = unreadBearings(walls);
  if (unread.length === 0) return undefined;
  const [first, ...others] = unread;
  const isAlone = walls.length === 1;
  const where = isAlone
    ? `opposite, at ${compassPoint(first!)}, and at ${pointsOf(others)}`
    : `at ${pointsOf(unread)}`;
  const turn =
    bearing === undefined && (depth || opening) ? ' Its bearing is not on record: record that too.' : '';
  return {
    defect: defect.id.value,
    reading: `sound wall at ${pointsOf(unread)}`,
    threshold: undefined,
    decides: undefined,
    text: `At ${defect.id.value} the sound wall was measured only at ${pointsOf(walls.map(read => read.bearing))}. Measure it ${where} as well.${turn}`,
  };
}

/** Readings this close leave hardly any uncertainty between them, degrees. */
const EIGHTH = 45;

/** Further bearings to read if no existing reading decides. */
function besideReadings({ defect, cavity, read }: Hollow): Settles | undefined {
  const id = defect.id.value;
  const open = { defect: id, threshold: undefined, decides: undefined };
  if (read === 'depth')
    return {
      ...open,
      reading: 'sound wall on four bearings',
      text: `A depth does not show how wide the void at ${id} is behind its opening. Measure the sound wall on at least four bearings, with a resistance drill or a tomograph.`,
    };
  const between = cavity.walls && !cavity.allRound ? unreadBearings(cavity.walls, EIGHTH) : [];
  if (between.length === 0) return undefined;
  return {
    ...open,
    reading: `sound wall at ${pointsOf(between)}`,
    text: `The sound wall at ${id} may be thinner between the measured bearings. Measure it at ${pointsOf(between)} as well.`,
  };
}

/** Of more uncertain readings than this no single one matters. */
const MANY_READINGS = 24;
/** Computations to find the threshold, besides two per reading. */
const THRESHOLD_FIGURES = 20;

/**
 * Undefined where the readings already decide, or nothing uncertain is left to read; where they contradict each other,
 * these are to be read again first.
 */
export const settlesDefect = memo((strength: DefectStrength, settings: Settings): Settles | undefined => {
  const { hollow, figures, work } = strength;
  const judged = judge(figures.strengthLoss, 'section-loss', settings);
  if (judged.standing !== 'may exceed' || figures.contradictions.length > 0) return undefined;
  const unread = unreadWalls(hollow);
  if (unread) return unread;
  const section = { outer: hollow.outer, cavities: [hollow.cavity] };
  const inputs = sectionInputs(section);
  if (inputs.size > MANY_READINGS) return besideReadings(hollow);
  const sectionWith = withInputs(section);
  const each = work / (2 * inputs.size + THRESHOLD_FIGURES);
  const lossWith = (readings: ReadonlyMap<string, Interval>): Interval =>
    // The figure of the unchanged readings is known.
    readings === inputs ? figures.strengthLoss : lossBounds(sectionWith(readings), each);
  const found = decisiveReading(lossWith, inputs, judged.setting.value, judged.direction);
  const beside = found?.threshold === undefined ? besideReadings(hollow) : undefined;
  if (beside || !found) return beside;
  const reading = nameOf(found.input, hollow);
  return {
    defect: hollow.defect.id.value,
    reading,
    threshold: found.threshold,
    decides: found.decision,
    text: sentence(found, reading, hollow, judged),
  };
});
