/** Strength loss of a stem at its hollows, individually and for joined cavities. */

import { type Interval, middle } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Joined, Tree } from '../facts/types.ts';
import { type GroupFigures, groupFigures } from '../mechanics/joined.ts';
import { MAX_SECTIONS, type UncertainFigures, uncertainFigures } from '../mechanics/uncertain-section.ts';
import { type Hollow, hollowsOf } from './hollows.ts';

export interface DefectStrength {
  readonly hollow: Hollow;
  readonly figures: UncertainFigures;
  /** Computing budget of a figure of this defect, in sections. */
  readonly work: number;
  /** m above ground; undefined if not stated or without upper end. */
  readonly height: Interval | undefined;
}

interface GroupStrength {
  readonly joined: Joined;
  readonly members: readonly DefectStrength[];
  readonly figures: GroupFigures;
  /** Loss of the group: joined if that is proved, else from the best apart to the worst joined. */
  readonly strengthLoss: Interval;
}

export interface Strength {
  readonly defects: readonly DefectStrength[];
  readonly groups: readonly GroupStrength[];
}

function heightOf({ defect: { height } }: Hollow, settings: Settings): Interval | undefined {
  const read = height && valuesOf(height.value, settings);
  return read && read.low >= 0 && Number.isFinite(read.high) ? read : undefined;
}

/** Undefined for a section without wood; another rule reports impossible readings. */
function attempt<T>(compute: () => T): T | undefined {
  try {
    return compute();
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

/** Sections that the figures of one tree may cost: some tenths of a second. */
const WORK_ON_A_TREE = 100_000;

/** Sections take most of the time of an assessment. */
export const strengthOf = memo((tree: Tree, settings: Settings): Strength => {
  const hollows = hollowsOf(tree, settings);
  // Equal budgets, so that the order of hollows does not matter.
  const work = Math.min(MAX_SECTIONS, WORK_ON_A_TREE / Math.max(1, hollows.length + tree.joined.length));
  const defects = hollows.flatMap((hollow): DefectStrength[] => {
    const figures = attempt(() => uncertainFigures({ outer: hollow.outer, cavities: [hollow.cavity] }, work));
    return figures ? [{ hollow, figures, work, height: heightOf(hollow, settings) }] : [];
  });
  const groups = tree.joined
    .filter(({ state }) => state.value !== 'excluded')
    .flatMap((joined): GroupStrength[] => {
      const ids = new Set(joined.defects.map(({ value }) => value));
      const members = defects.filter(
        ({ hollow, height }) => ids.has(hollow.defect.id.value) && height !== undefined,
      );
      if (members.length < 2) return [];
      const figures = attempt(() =>
        groupFigures(
          members.map(({ hollow, height }) => ({
            height: middle(height!),
            outer: hollow.outer,
            cavity: hollow.cavity,
          })),
          work,
        ),
      );
      if (!figures) return [];
      return [
        {
          joined,
          members,
          figures,
          strengthLoss: joined.state.value === 'proved' ? figures.joined : figures.strengthLoss,
        },
      ];
    });
  return { defects, groups };
});

/** The loss at a defect: its own or that of a group, whichever is worse. */
export function lossAt(defect: DefectStrength, { groups }: Strength): Interval {
  const own = defect.figures.strengthLoss;
  return groups
    .filter(({ members }) => members.includes(defect))
    .reduce(
      (loss, group) => ({
        low: group.joined.state.value === 'proved' ? Math.max(loss.low, group.strengthLoss.low) : loss.low,
        high: Math.max(loss.high, group.strengthLoss.high),
      }),
      own,
    );
}
