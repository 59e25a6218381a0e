/** Seasons and distances are those of the place, also south of the equator and where nothing is on record. */

import { describe, expect, it } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';

const found = (region: string, tree: string, rule: string) =>
  checkWorkspace(
    buildWorkspace([readFile('a.wood', `site "Place"\n  region ${region}\n\n${tree}`)]),
    parseDate('2027-03-15')!,
  ).filter(finding => finding.rule === rule);

const hollow = (days: string) => `tree 1
  vigor good
  defect A cavity
  prescription R1 fell
    for A
    between ${days}
`;

const maple = (days: string) => `tree 1
  vigor good
  prescription R1 reduce
    dose 5 %
    between ${days}
`;

describe('bats in New Zealand', () => {
  it('close May to September to felling, and no remedy names these months', () => {
    const [finding] = found('NZ', hollow('2027-06-07..2027-06-11'), 'bat-check-missing');
    expect(finding).toMatchObject({ grade: 'exceeds' });
    expect(finding!.message).toContain('05-01..09-30');
    expect(finding!.remedy).not.toMatch(/-0[5-9]-\d\d/);
    expect(found('NZ', hollow('2027-04-05..2027-04-09'), 'bat-check-missing')[0]).toMatchObject({
      grade: 'stated',
    });
  });
});

describe('nests in South Africa', () => {
  it('are looked for in the southern season, not in the northern one', () => {
    expect(found('ZA', maple('2027-10-04..2027-10-08'), 'nest-check-missing')).toHaveLength(1);
    expect(found('ZA', maple('2027-05-03..2027-05-07'), 'nest-check-missing')).toEqual([]);
    expect(found('DK', maple('2027-05-03..2027-05-07'), 'nest-check-missing')).toHaveLength(1);
  });
});

const line = (kilovolts: number, distance: number) => `tree 1
  conductor "Lane line"
    voltage ${kilovolts} kV between phases
    distance ${distance} m
    aside ${distance} m
  prescription R1 reduce
    dose 5 %
    with ROPE

crew ROPE "Rope crew"
  qualified climbing arborist
`;

describe('distances to lines', () => {
  it.each([
    ['US', 12.5, 3.048],
    ['DE', 20, 3],
    ['DE', 380, 5],
    ['FR', 20, 3],
    ['FR', 63, 5],
    ['ES', 66, 3],
    ['ES', 220, 5],
    ['IT', 15, 3.5],
    ['IT', 132, 5],
    ['BE', 70, 3.2],
    ['AT', 20, 3],
    ['PL', 15, 5],
    ['GB', 11, 10],
    ['GB-SCT', 11, 10],
    ['CA-QC', 120, 3],
    ['CA-AB', 69, 3.5],
    ['CA-BC', 138, 4.5],
    ['CA-ON', 115, 3],
    ['AU-SA', 66, 4],
    ['AU-WA', 22, 3],
    ['AU-VIC', 220, 8],
    ['AU-NSW', 132, 3],
    ['AU-QLD', 11, 3],
    ['NZ', 11, 4],
    // Nothing is on record: the greatest distance found anywhere.
    ['ZA', 11, 4],
    ['SG', 66, 6],
    ['CH', 110, 8],
    ['BR', 13.8, 4],
  ])('in %s at %f kV: nearer than %f m is found, as far is not', (region, kilovolts, metres) => {
    expect(found(region, line(kilovolts, metres - 0.05), 'conductor-distance')).toHaveLength(1);
    expect(found(region, line(kilovolts, metres + 0.05), 'conductor-distance')).toEqual([]);
  });
});
