/** How far wood falls, and how far people keep away from it. */

import { describe, expect, it } from 'vitest';
import { clearRadius, fallReach, heightFelled } from '../../server/assess/fall-zone.ts';
import { treeIn } from './inventory.ts';

const FOOT = 0.3048;
const treeOf = (lines: string) => treeIn(`tree 1\n${lines}\n`);

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

describe('the radius to keep clear', () => {
  const radius = (prescription: string, practice = '') => {
    const { tree, settings } = treeIn(
      `${practice}tree 1\nheight 60 ft\ncrown from 10 ft, 40 ft wide\nprescription R1 ${prescription}\n`,
    );
    const { low, high } = clearRadius(tree, tree.prescriptions[0]!, settings);
    return [low / FOOT, high / FOOT].map(feet => Number(feet.toFixed(6)));
  };
  const office = (ratio: string) =>
    `practice "Office limits"\n  limit exclusion-ratio ${ratio}\n    because "a yard without more room"\n\n`;

  it('is what falls, times the ratio that a practice block sets where the tree falls in one', () => {
    expect(radius('fell')).toEqual([120, 120]);
    expect(radius('fell', office('3'))).toEqual([180, 180]);
    expect(radius('fell', office('1.5'))).toEqual([90, 90]);
    // Wood falls that far at least.
    expect(radius('fell', office('0.5'))).toEqual([120, 120]);
    expect(radius('fell\npiece 8 ft', office('3'))).toEqual([20, 20]);
  });
});
