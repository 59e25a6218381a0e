import { afterEach, describe, expect, it, vi } from 'vitest';
import { settlesDefect } from '../../server/assess/settles.ts';
import { strengthOf } from '../../server/assess/strength.ts';
import * as rays from '../../server/mechanics/rays.ts';
import { treeIn } from './inventory.ts';

afterEach(() => {
  vi.restoreAllMocks();
});

/** Sections that are drawn to judge a tree, and to say what would settle each of its hollows. */
function workOn(...lines: readonly string[]) {
  let sections = 0;
  const { sectionMoments } = rays;
  vi.spyOn(rays, 'sectionMoments').mockImplementation((shape, steps, buffers) => {
    sections++;
    return sectionMoments(shape, steps, buffers);
  });
  const { tree, settings } = treeIn(`tree 1\n  inspection 2026-05-04 from rope\n${lines.join('')}`);
  const strength = strengthOf(tree, settings);
  for (const defect of strength.defects) settlesDefect(defect, settings);
  vi.restoreAllMocks();
  return { sections, strength };
}

/** Some tenths of a second. */
const ON_A_TREE = 250_000;

const defect = (id: string, kind: string, ...fields: readonly string[]) =>
  `  defect ${id} ${kind}\n${fields.map(field => `    ${field}\n`).join('')}`;
const points = (count: number) => Array.from({ length: count }, (_, i) => Math.round((360 * i) / count));

describe('no tree takes long, whatever was read of it', () => {
  it('neither one line of 120 uncertain walls', () => {
    const walls = points(120).map(bearing => `2..4 in at ${bearing} deg`);
    const { sections, strength } = workOn(defect('A', 'decay', 'diameter 30 in', `wall ${walls.join(', ')}`));
    expect(sections).toBeLessThan(1000);
    // All of them 4 in, and all of them 2 in: (1 − 4/15)⁴ and (1 − 2/15)⁴; bark not measured takes from both.
    const { low, high } = strength.defects[0]!.figures.strengthLoss;
    expect(low).toBeLessThan(0.29);
    expect(high).toBeGreaterThan(0.56);
    expect(low).toBeGreaterThan(0.15);
    expect(high).toBeLessThan(0.65);
  });

  it('nor 200 hollows of which everything is uncertain', () => {
    const { sections, strength } = workOn(
      ...points(200).map((facing, i) =>
        defect(
          `A${i}`,
          'cavity',
          `on trunk at ${1 + i} ft, facing ${facing} deg`,
          'diameter ~30 in',
          'opening 3..9 in wide',
          'depth > 6 in',
        ),
      ),
      ...points(200).map((facing, i) =>
        defect(
          `B${i}`,
          'decay',
          `on trunk at ${1 + i} ft, facing ${facing} deg`,
          'diameter ~30 x 26 in',
          'opening 3..9 in wide',
          'wall 2..5 in',
        ),
      ),
    );
    expect(strength.defects).toHaveLength(400);
    expect(sections).toBeLessThan(ON_A_TREE);
    for (const { figures } of strength.defects)
      expect(figures.strengthLoss.high).toBeGreaterThan(figures.strengthLoss.low);
  });

  it('nor forty cavities suspected to be one, of which everything is uncertain', () => {
    const ids = points(40).map((_, i) => `A${i}`);
    const { sections, strength } = workOn(
      ...points(40).map((facing, i) =>
        defect(
          ids[i]!,
          'cavity',
          `on trunk at ${1 + i} ft, facing ${facing} deg`,
          `diameter ~${40 - i / 2} in`,
          'opening 1..2 in wide',
          'depth 2..6 in',
        ),
      ),
      `  joined ${ids.join(', ')} suspected\n`,
    );
    expect(sections).toBeLessThan(ON_A_TREE);
    const [group] = strength.groups;
    // Not narrower than the truth: it holds the weakest of them apart, and all the stem between them.
    expect(group!.strengthLoss.low).toBeLessThanOrEqual(group!.figures.apart.low);
    expect(group!.strengthLoss.high).toBeGreaterThan(0.9);
  });

  it('and what is wider for it holds what a search finds', () => {
    const fields = ['diameter ~30 x 26 in', 'opening 3..9 in wide', 'wall 2..5 in'];
    const hollow = (i: number) => defect(`A${i}`, 'decay', `on trunk at ${1 + i} ft, facing N`, ...fields);
    const alone = workOn(hollow(0)).strength.defects[0]!.figures.strengthLoss;
    const amongMany = workOn(...points(359).map((_, i) => hollow(i))).strength.defects[0]!.figures
      .strengthLoss;
    expect(amongMany.low).toBeLessThanOrEqual(alone.low + 0.01);
    expect(amongMany.high).toBeGreaterThanOrEqual(alone.high - 0.01);
    expect(amongMany).not.toEqual(alone);
  });
});
