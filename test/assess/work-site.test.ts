/** Who may come how near to a line, how far wood falls, and which certificates hold. */

import { describe, expect, it } from 'vitest';
import { approach, clearance, deadOn, nearness } from '../../server/assess/conductors.ts';
import { fallReach, heightFelled } from '../../server/assess/fall-zone.ts';
import { permitFor } from '../../server/assess/permits.ts';
import { openWork } from '../../server/assess/prescriptions.ts';
import { expiredCertificate, qualifiedOn } from '../../server/assess/qualifications.ts';
import { currentRisks, ratingToActOn } from '../../server/assess/risks.ts';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile, settingsFor } from '../../server/facts/workspace.ts';
import { treeContext } from '../../server/rules/check.ts';

const FOOT = 0.3048;
const day = (text: string): number => parseDate(text)!;

/** What the rules see of the only tree of a text. */
function contextOf(text: string) {
  const file = readFile('example.wood', text);
  const workspace = buildWorkspace([file]);
  return treeContext(workspace, file, file.trees[0]!.fact, day('2026-06-01'));
}
const treeOf = (lines: string) => contextOf(`tree 1\n${lines}\n`);

describe('distance to a line', () => {
  const near = (lines: string, times?: number) => {
    const { tree, settings } = treeOf(`conductor "Lane line"\n${lines}`);
    return nearness(tree.conductors[0]!, settings, times);
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
    expect(near('voltage 12.5 kV\ndistance 14 ft', 2)).toBe('exceeds');
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

describe('people', () => {
  const people = contextOf(`person DO "Dell Okafor"
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

  it('holds a certificate for the qualification that its text names', () => {
    const dell = people.person('DO')!;
    expect(qualifiedOn(dell, 'line clearance', day('2026-06-01'))).toBe(true);
    expect(qualifiedOn(dell, 'crane operator', day('2026-03-31'))).toBe(true);
    expect(expiredCertificate(dell, 'crane operator', day('2026-04-01'))?.number).toBe('crane 7731');
    expect(qualifiedOn(dell, 'remote pilot', day('2026-06-01'))).toBe(false);
  });
});

describe('where wood comes down', () => {
  const reach = (prescription: string) => {
    const { tree, settings } = treeOf(
      `height 60 ft\ncrown from 10 ft, 40 ft wide\nstem South\nfrom 5 ft\nlength 30 ft\nprescription R1 ${prescription}`,
    );
    const { low, high } = fallReach(tree, tree.prescriptions[0]!, settings);
    return [low / FOOT, high / FOOT].map(feet => Number(feet.toFixed(6)));
  };

  it('is the height of what is felled whole', () => {
    expect(reach('fell')).toEqual([60, 60]);
    expect(reach('fell\nremove South')).toEqual([35, 35]);
  });

  it('is the crown radius, the piece or the top that is cut off, whichever is most', () => {
    expect(reach('thin')).toEqual([20, 20]);
    expect(reach('fell\npiece 8 ft, 20 in thick')).toEqual([20, 20]);
    expect(reach('fell\npiece 25 ft')).toEqual([25, 25]);
    expect(reach('fell\npiece 500 lb')).toEqual([20, 60]);
    expect(reach('monolith\nheight 60 ft to 15..20 ft')).toEqual([40, 45]);
  });

  it('takes the whole tree for a part whose size nobody stated', () => {
    const { tree, settings } = treeOf('height 60 ft\nlimb L1\nprescription R1 fell\nremove L1');
    expect(heightFelled(tree, tree.prescriptions[0]!, settings).high / FOOT).toBeCloseTo(60, 9);
  });
});

describe('prescriptions and permits', () => {
  it('are open while they stand and wait for a stage of their work', () => {
    const { tree } = treeOf(`prescription R1 reduce
prescription R2 reduce
replaces R1
prescription R3 fell
withdrawn 2026-05-02
prescription R4 clean
work R4 2026-02-02
prescription R5 reduce
stages 2
work R5 2026-02-02
prescription R6 keep
prescription R7 cable`);
    expect(openWork(tree).map(({ id }) => id.value)).toEqual(['R2', 'R5', 'R7']);
  });

  it('fills in what the tree’s line says of the same permit, not of another', () => {
    const { tree } = treeOf(`protected permit WP-29, until 2026-06-20, for pruning
prescription R1 clean
permit WP-29
prescription R2 clean
permit WP-30
prescription R3 clean`);
    const [same, other, none] = tree.prescriptions.map(prescription => permitFor(tree, prescription)!);
    expect(same).toMatchObject({ until: day('2026-06-20'), scope: 'pruning' });
    expect(other).toEqual({ number: expect.objectContaining({ value: 'WP-30' }) });
    expect(none!.number.value).toBe('WP-29');
  });
});

describe('risks', () => {
  it('are those last seen, by the worse of what is stated and what the inputs give', () => {
    const { tree } = treeOf(`inspection 2025-01-10 from ground
risk "Path"
rating extreme
inspection 2026-01-10 from ground
risk "Path"
failure probable
impact high
consequences severe
rating moderate
risk "Gate"
rating low`);
    expect(currentRisks(tree).map(risk => [risk.target.value, ratingToActOn(risk)])).toEqual([
      ['Path', 'high'],
      ['Gate', 'low'],
    ]);
  });
});

describe('limits of the work site', () => {
  it('are set by a practice block', () => {
    const file = readFile(
      'example.wood',
      'practice "Office limits"\n  limit exclusion-ratio 2\n    because "two lengths"\n',
    );
    const setting = settingsFor(buildWorkspace([file]), 'example.wood').limit('exclusion-ratio');
    expect([setting.value, setting.origin.name]).toEqual([2, 'Office limits']);
  });
});
