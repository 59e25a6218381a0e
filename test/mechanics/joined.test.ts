import { describe, expect, it } from 'vitest';
import { exact, interval } from '../../server/base/interval.ts';
import { type GroupMember, groupFigures } from '../../server/mechanics/joined.ts';
import { sectionFigures } from '../../server/mechanics/section.ts';
import { uncertainFigures } from '../../server/mechanics/uncertain-section.ts';

const inch = 0.0254;
const lower: GroupMember = {
  height: 5.5,
  outer: { diameter: exact(26 * inch) },
  cavity: {
    bearing: 225,
    opening: exact(9 * inch),
    allRound: interval(2 * inch, 4 * inch),
  },
};
const upper: GroupMember = {
  height: 6.4,
  outer: { diameter: exact(25 * inch) },
  cavity: { bearing: 90, depth: exact(10 * inch), opening: exact(6 * inch) },
};
const alone = ({ outer, cavity }: GroupMember) =>
  uncertainFigures({ outer, cavities: [cavity] }).strengthLoss;

describe('cavities suspected to be joined', () => {
  const group = groupFigures([upper, lower]);

  it('are apart as weak as the weakest of their own sections', () => {
    expect(group.apart.high).toBe(Math.max(alone(lower).high, alone(upper).high));
    expect(group.apart.low).toBe(Math.max(alone(lower).low, alone(upper).low));
  });

  it('are joined by the union of their voids at every height, at each own bearing', () => {
    const worst = sectionFigures({
      outer: { diameter: 25 * inch },
      cavities: [
        { bearing: 225, opening: 9 * inch, allRound: 2 * inch },
        { bearing: 90, depth: 10 * inch, opening: 6 * inch },
      ],
    });
    expect(group.joined.high).toBeGreaterThanOrEqual(worst.strengthLoss);
    expect(group.joined.high).toBeLessThan(worst.strengthLoss * 1.02);
    expect(group.joined.low).toBeGreaterThan(group.apart.low);
  });

  it('range from the best of apart to the worst of joined', () => {
    expect(group.strengthLoss).toEqual(interval(group.apart.low, group.joined.high));
  });

  it('are computed from the lowest opening to the highest, half way too where the stem tapers', () => {
    expect(group.heights.map(level => level.height)).toEqual([5.5, 5.95, 6.4]);
    expect(group.heights.map(level => level.apart !== undefined)).toEqual([true, false, true]);
    const straight = groupFigures([lower, { ...upper, outer: lower.outer }]);
    expect(straight.heights.map(level => level.height)).toEqual([5.5, 6.4]);
  });

  it('give the section to draw: the joined one at its worst', () => {
    const top = group.heights.at(-1)!;
    expect(top.worst.cavities).toHaveLength(2);
    expect(sectionFigures(top.worst).worstBearing).toBe(top.worstBearing);
  });

  it('that were not seen may be anything up to the far bark', () => {
    const unseen = groupFigures([lower, { ...upper, cavity: { bearing: 90, opening: exact(6 * inch) } }]);
    expect(unseen.joined.high).toBe(1);
    expect(unseen.strengthLoss.low).toBe(alone(lower).low);
  });

  it('say whose readings contradict each other, once', () => {
    const deep = {
      ...lower,
      cavity: { ...lower.cavity, allRound: exact(5 * inch), depth: interval(24 * inch, Infinity) },
    };
    const found = groupFigures([upper, deep]).contradictions;
    expect(found.map(({ cavity, kind }) => [cavity, kind])).toEqual([
      [1, 'depth beyond the void of the walls'],
    ]);
  });

  it('are one at least', () => {
    expect(() => groupFigures([])).toThrow(RangeError);
    const one = groupFigures([lower]);
    expect(one.strengthLoss).toEqual(alone(lower));
  });
});
