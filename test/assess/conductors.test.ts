/** Who may come how near to an electric line, and when. */

import { describe, expect, it } from 'vitest';
import {
  approach,
  clearance,
  crewNearness,
  deadOn,
  fallsToward,
  nearness,
} from '../../server/assess/conductors.ts';
import { parseDate } from '../../server/base/dates.ts';
import { dayContext, treeIn } from './inventory.ts';

const FOOT = 0.3048;
const day = (text: string): number => parseDate(text)!;
const treeOf = (lines: string) => treeIn(`site "Mill Lane"\n  region US-OR\n\ntree 1\n${lines}\n`);

describe('distance to a line', () => {
  const near = (lines: string, of = nearness) => {
    const { tree, settings } = treeOf(`conductor "Lane line"\n${lines}`);
    return of({ tree, settings }, tree.conductors[0]!);
  };

  it('is 10 ft to 50 kV and 4 in more for each 10 kV begun above', () => {
    const of = (voltage: string) => {
      const { tree, settings } = treeOf(`conductor "Lane line"\nvoltage ${voltage}`);
      const { low, high } = approach(tree.conductors[0]!, settings);
      return [low / FOOT, high / FOOT].map(feet => Number(feet.toFixed(6)));
    };
    expect(of('240 V')).toEqual([10, 10]);
    expect(of('50 kV')).toEqual([10, 10]);
    expect(of('69 kV')).toEqual([10.666667, 10.666667]);
    expect(of('12..69 kV')).toEqual([10, 10.666667]);
    expect(of('unseen')).toEqual([10, 34]);
  });

  it('counts the limit itself as far enough', () => {
    expect(near('voltage 12.5 kV\ndistance 10 ft')).toBe('within');
    expect(near('voltage 12.5 kV\ndistance 9.9 ft')).toBe('exceeds');
    expect(near('voltage 12.5 kV\ndistance 9..11 ft')).toBe('may exceed');
    expect(near('voltage 12.5 kV\ndistance ~10 ft')).toBe('may exceed');
    expect(near('voltage 12.5 kV\ndistance 14 ft', crewNearness)).toBe('exceeds');
  });

  it('takes what nobody stated for anything possible', () => {
    expect(near('distance 9 ft')).toBe('exceeds');
    expect(near('distance 30 ft')).toBe('may exceed');
    expect(near('distance 35 ft')).toBe('within');
    expect(near('voltage 12.5 kV')).toBe('may exceed');
  });

  it('is dead on all, some or none of the days', () => {
    const { tree } = treeOf('conductor "Lane line"\ndead 2026-09-14..2026-09-16');
    const line = tree.conductors[0]!;
    const on = (from: string, to: string) => deadOn(line, { from: day(from), to: day(to) });
    expect(on('2026-09-14', '2026-09-16')).toBe('all');
    expect(on('2026-09-16', '2026-09-17')).toBe('some');
    expect(on('2026-09-17', '2026-09-18')).toBe('none');
    expect(deadOn(line, undefined)).toBe('some');
  });
});

describe('crews', () => {
  const people = dayContext(`person DO "Dell Okafor"
  qualified line clearance, crane operator
  certificate "line clearance 0452", until 2026-12-31
  certificate "crane 7731", until 2026-03-31

person PS "Pia Santoro"
  qualified trainee

crew LINE "Line crew"
  members DO, PS
  qualified line clearance

crew PAIR "Pair"
  members DO

crew ROPE "Rope crew"
  members DO, PS

tree 1
  prescription R1 reduce
    with LINE
  prescription R2 reduce
    with PAIR
  prescription R3 reduce
    with ROPE
  prescription R4 reduce
`);
  const crews = (on: string) =>
    people.tree.prescriptions.map(({ crew }) => clearance(crew ? { crew } : {}, people, day(on)));

  it('tells which crews are qualified for line clearance, and until when', () => {
    expect(crews('2026-12-31')).toEqual(['qualified', 'qualified', 'not qualified', 'not named']);
    expect(crews('2027-01-01')).toEqual(['expired', 'expired', 'not qualified', 'not named']);
  });
});

describe('a felled tree', () => {
  const falls = (distance: string, ...tree: readonly string[]) => {
    const { tree: read, settings } = treeOf([...tree, 'conductor "Lane line"', distance].join('\n'));
    return fallsToward(read, read.prescriptions[0]!, read.conductors[0]!, settings);
  };
  const SIZES = ['height 60 ft', 'crown from 10 ft, 20 ft wide'];

  it('reaches a line that is nearer to its trunk than it is tall; distances are from the crown', () => {
    const whole = (distance: string) => falls(distance, ...SIZES, 'prescription R1 fell');
    expect(whole('distance 60 ft')).toBe('within');
    // 49 ft from the crown, and perhaps 10 ft more to the trunk.
    expect(whole('distance 49 ft')).toBe('exceeds');
    expect(whole('distance 55 ft')).toBe('may exceed');
  });

  it('reaches it perhaps where nobody wrote down height or distance', () => {
    expect(falls('distance 200 ft', 'prescription R1 fell')).toBe('may exceed');
    expect(falls('', ...SIZES, 'prescription R1 fell')).toBe('may exceed');
  });

  it('in pieces falls no farther than they are long; pruning fells nothing', () => {
    expect(falls('distance 10 ft', ...SIZES, 'prescription R1 fell', 'piece 8 ft')).toBe('within');
    expect(falls('distance 7 ft', ...SIZES, 'prescription R1 fell', 'piece 8 ft')).toBe('may exceed');
    expect(falls('distance 1 ft', ...SIZES, 'prescription R1 reduce')).toBe('within');
  });
});
