/** The one reading that would settle whether a section has lost more strength than the limit allows. */

import { compassPoint } from '../../grammar/bearing.ts';
import type { Settings } from '../facts/settings.ts';
import type { Interval } from '../mechanics/interval.ts';
import { sectionInputs, withInputs } from '../mechanics/section-readings.ts';
import { type Settling, settling } from '../mechanics/settle.ts';
import { lossBounds, settled } from '../mechanics/uncertain-section.ts';
import { downTo, type Hollow, upTo } from './hollows.ts';
import { type Judged, judge, showNumber } from './judge.ts';
import type { DefectStrength } from './strength.ts';

export interface Settles {
  readonly defect: string;
  /** What to read, for people: `sound wall at SW`. */
  readonly reading: string;
  /** m; a reading at or beyond it decides. Absent where it would only narrow the figure. */
  readonly threshold: number | undefined;
  readonly decides: 'within' | 'exceeds' | undefined;
  /** One sentence for people. */
  readonly text: string;
}

/** The name that sectionInputs gives a reading, for people. */
function nameOf(input: string, { cavity, outer }: Hollow): string {
  const wall = /wall (\d+)$/.exec(input);
  if (wall) {
    const walls = cavity.walls ?? [];
    return walls.length > 1 ? `sound wall at ${compassPoint(walls[Number(wall[1])]!.bearing)}` : 'sound wall';
  }
  if (input.endsWith('depth')) return 'void from the opening inwards';
  if (input.endsWith('opening')) return 'width of the opening';
  if (input === 'bark') return 'thickness of the bark';
  return input === 'cross diameter' || outer.crossDiameter ? `${input} of the stem` : 'diameter of the stem';
}

function sentence(found: Settling, reading: string, hollow: Hollow, judged: Judged): string {
  const defect = hollow.defect.id.value;
  if (found.threshold === undefined)
    return `Of the readings at ${defect}, the ${reading} would narrow the figure most; it does not decide alone.`;
  // Told to the side that asks for more, never towards safe.
  const length = (found.decidedAt === 'high' ? upTo : downTo)(found.threshold, hollow.unit);
  const beyond = found.decidedAt === 'high' ? 'more' : 'less';
  const limit = showNumber(judged.setting.value, judged.setting, 1);
  return `A ${reading} of ${length} or ${beyond} at ${defect} would settle it: the loss is then ${found.decision === 'within' ? 'within' : 'beyond'} ${limit}.`;
}

const known = new WeakMap<DefectStrength, { settings: Settings; settles: Settles | undefined }>();

/**
 * Undefined where the readings already decide, or nothing uncertain is left to read. Of readings that contradict
 * each other the one that counts is the one that stands in the section.
 */
export function settlesDefect(strength: DefectStrength, settings: Settings): Settles | undefined {
  const before = known.get(strength);
  if (before?.settings === settings) return before.settles;
  const settles = find(strength, settings);
  known.set(strength, { settings, settles });
  return settles;
}

function find({ hollow, figures }: DefectStrength, settings: Settings): Settles | undefined {
  const judged = judge(figures.strengthLoss, 'strength-loss', settings);
  if (judged.standing !== 'may exceed') return undefined;
  const { section } = settled({ outer: hollow.outer, cavities: [hollow.cavity] });
  const inputs = sectionInputs(section);
  const sectionWith = withInputs(section);
  const lossWith = (readings: ReadonlyMap<string, Interval>): Interval =>
    // As they stand, the figure is known already.
    readings === inputs ? figures.strengthLoss : lossBounds(sectionWith(readings));
  const found = settling(lossWith, inputs, judged.setting.value, judged.direction);
  if (!found) return undefined;
  const reading = nameOf(found.input, hollow);
  return {
    defect: hollow.defect.id.value,
    reading,
    threshold: found.threshold,
    decides: found.decision,
    text: sentence(found, reading, hollow, judged),
  };
}
