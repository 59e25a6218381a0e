import { describe, expect, it, test } from 'vitest';
import { crownOf, loadedDefects, loadUnder, offsetOf } from '../../server/assess/load.ts';
import { strengthOf } from '../../server/assess/strength.ts';
import type { Site } from '../../server/facts/types.ts';
import type { Crown } from '../../server/mechanics/crown.ts';
import { momentRatio, reducedCrown } from '../../server/mechanics/reduction.ts';
import { treeIn } from './inventory.ts';

/** A ring of d/D 0.8: 0.8⁴ = 0.4096 of its strength is gone. */
const lime = (more = '', crown = 'from 15 ft, 40 ft wide', height = '60 ft') =>
  treeIn(`tree 1
  dbh 30 in
  height ${height}
  crown ${crown}
  age mature
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 3 in
${more}`);

const FOOT = 0.3048;
const B = { exposure: 'B', edition: 'ASCE 7-16' } as const;
const withExposure = (exposure: 'B' | 'C' | 'D') => ({ wind: { exposure } }) as unknown as Site;

describe('a reduction that states its dimensions', () => {
  test('moment and stress at the defect, by the functions of the mechanics', () => {
    const { tree, settings } = lime(
      '  prescription R1 reduce\n    height 60 ft to 48 ft\n    spread 40 ft to 32 ft\n',
    );
    const load = loadUnder(
      tree,
      tree.prescriptions[0]!,
      strengthOf(tree, settings),
      withExposure('B'),
      settings,
    )!;
    const crown: Crown = { base: 15 * FOOT, top: 60 * FOOT, spread: 40 * FOOT };
    const after = reducedCrown(crown, { top: 48 * FOOT, spread: 32 * FOOT });
    const expected = momentRatio([crown], [after], 4 * FOOT, B);
    const [section] = load.sections;
    expect(section!.momentRatio.low).toBeLessThanOrEqual(expected + 1e-12);
    expect(section!.momentRatio.high).toBeGreaterThanOrEqual(expected - 1e-12);
    expect(section!.momentRatio.high).toBeCloseTo(expected, 2);
    expect(section!.stressRatio.high).toBeCloseTo(expected / (1 - 0.4096), 2);
    // Beside it, if the cut did half of what the outline says.
    expect(section!.stressAtLeastEffect.high).toBeCloseTo((1 + expected) / 2 / (1 - 0.4096), 2);
  });

  it('holds for every exposure where the site states none', () => {
    const { tree, settings } = lime('  prescription R1 reduce\n    height 60 ft to 48 ft\n');
    const under = (site: Site | undefined) =>
      loadUnder(tree, tree.prescriptions[0]!, strengthOf(tree, settings), site, settings)!.momentRatio;
    const all = under(undefined);
    for (const exposure of ['B', 'C', 'D'] as const) {
      const one = under(withExposure(exposure));
      expect(all.low).toBeLessThanOrEqual(one.low);
      expect(all.high).toBeGreaterThanOrEqual(one.high);
    }
  });

  it('takes a new top without an upper end as the old one at the most', () => {
    const { tree, settings } = lime('  prescription R1 reduce\n    height 60 ft to > 50 ft\n');
    const under = loadUnder(tree, tree.prescriptions[0]!, strengthOf(tree, settings), undefined, settings)!;
    expect(under.momentRatio.high).toBeCloseTo(1, 9);
    expect(under.momentRatio.low).toBeLessThan(0.8);
  });

  it('says nothing without dimensions, or where the crown is not written down', () => {
    const bare = lime('  prescription R1 reduce\n    dose 10 %\n');
    expect(
      loadUnder(
        bare.tree,
        bare.tree.prescriptions[0]!,
        strengthOf(bare.tree, bare.settings),
        undefined,
        bare.settings,
      ),
    ).toBeUndefined();
    const noCrown = treeIn('tree 1\n  prescription R1 reduce\n    height 60 ft to 50 ft\n');
    expect(
      loadUnder(
        noCrown.tree,
        noCrown.tree.prescriptions[0]!,
        strengthOf(noCrown.tree, noCrown.settings),
        undefined,
        noCrown.settings,
      ),
    ).toBeUndefined();
  });
});

describe('the reduction that offsets the loss', () => {
  it('brings the stress to that of the sound stem, and no smaller one does', () => {
    const { tree, settings } = lime();
    const offset = offsetOf(tree, strengthOf(tree, settings), withExposure('B'), settings)!;
    const crown = { base: 15 * FOOT, top: 60 * FOOT, spread: 40 * FOOT };
    const stressAt = (reduction: number) => {
      const left = 1 - reduction;
      const after = reducedCrown(crown, {
        top: crown.base + (crown.top - crown.base) * left,
        spread: crown.spread * left,
      });
      return momentRatio([crown], [after], 4 * FOOT, B) / (1 - 0.4096);
    };
    expect(stressAt(offset.reduction)).toBeLessThanOrEqual(1.0005);
    expect(stressAt(offset.reduction - 0.002)).toBeGreaterThan(1);
    expect(offset.stressRatio!.high).toBeLessThanOrEqual(1.0001);
    expect(offset.stressRatio!.high).toBeGreaterThan(0.99);
    expect(offset.top).toBeCloseTo(crown.top - 45 * FOOT * offset.reduction, 9);
    expect(offset.spread).toBeCloseTo(crown.spread * (1 - offset.reduction), 9);
    expect(offset.stressAtLeastEffect!.high).toBeGreaterThan(1.2);
    expect(offset.seasonLimit).toBe(0.15);
    expect(offset.reach).toBe('staged');
  });

  it('is enough for every crown and height that estimates allow', () => {
    const estimated = treeIn(`tree 1
  height ~60 ft
  crown from ~15 ft, 40 ft wide
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 8..14 ft
    diameter 30 in
    wall 3 in
`);
    const { tree, settings } = estimated;
    const offset = offsetOf(tree, strengthOf(tree, settings), undefined, settings)!;
    // Cut down to the height and spread that are named, whatever the tree really has.
    const change = { top: offset.top, spread: offset.spread };
    for (let base = 13.5; base <= 16.5; base += 1)
      for (let top = 54; top <= 66; top += 3)
        for (let height = 8; height <= 14; height += 2)
          for (const exposure of ['B', 'C', 'D'] as const) {
            const before = { base: base * FOOT, top: top * FOOT, spread: 40 * FOOT };
            const after = reducedCrown(before, change);
            const ratio = momentRatio([before], [after], height * FOOT, { exposure, edition: 'ASCE 7-16' });
            expect(ratio).toBeLessThanOrEqual((1 - 0.4096) * 1.001);
          }
  });

  it('asks for less at the least loss than at the worst', () => {
    const { tree, settings } = treeIn(`tree 1
  height 60 ft
  crown from 15 ft, 40 ft wide
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 2..6 in
`);
    const offset = offsetOf(tree, strengthOf(tree, settings), undefined, settings)!;
    expect(offset.atBest.reduction).toBeLessThan(offset.reduction / 2);
  });

  it('passes over limbs, defects without a height, and trees without a crown', () => {
    const { tree, settings } = treeIn(`tree 1
  height 60 ft
  crown from 15 ft, 40 ft wide
  limb L1
    from 20 ft
  inspection 2026-05-04 from ground
  defect A decay
    on L1 at 22 ft
    diameter 8 in
    wall 1 in
  defect B decay
    diameter 30 in
    wall 3 in
`);
    const strength = strengthOf(tree, settings);
    expect(strength.defects).toHaveLength(2);
    expect(loadedDefects(tree, strength, 60)).toEqual([]);
    expect(offsetOf(tree, strength, undefined, settings)).toBeUndefined();
    const bare = treeIn('tree 1\n  height 60 ft\n');
    expect(crownOf(bare.tree, bare.settings)).toBeUndefined();
  });
});
