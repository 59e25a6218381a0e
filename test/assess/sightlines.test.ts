import { describe, expect, it } from 'vitest';
import { sightedViews, viewsUnder } from '../../server/assess/sightlines.ts';
import { treeIn } from './inventory.ts';

const TREE = `tree 1
  height 52 ft
  crown from 14 ft, 58 ft wide
  view "Reading room"
    eye 14 ft, 40 ft away
    hide 0..24 ft, 140 ft beyond
  view "Hills"
    eye 14 ft, 40 ft away
    open 100..300 ft, 2000 ft beyond
`;

const sharesUnder = (prescription: string) => {
  const { tree, settings } = treeIn(TREE + prescription);
  return viewsUnder(tree, tree.prescriptions[0], settings).map(({ view, wish, before, after }) => ({
    name: view.name.value,
    wish,
    before: before.high,
    after: after?.high,
  }));
};

describe('views under a prescription', () => {
  it('are hidden as far as the crown stands between the lines of sight', () => {
    // Reading room: the lines pass the stem at 14 − 14·40/180 = 10.889 and 14 + 10·40/180 = 16.222 ft.
    // Hills: at 14 + 86·40/2040 = 15.686 and 14 + 286·40/2040 = 19.608 ft, all of it in the crown.
    expect(sharesUnder('')).toEqual([
      { name: 'Reading room', wish: 'hide', before: expect.closeTo(5 / 12, 9), after: undefined },
      { name: 'Hills', wish: 'open', before: 1, after: undefined },
    ]);
  });

  it('change with the base of the crown, not with its spread', () => {
    const raised = sharesUnder('  prescription R1 raise\n    base 14 ft to 18 ft\n');
    expect(raised.map(({ after }) => after)).toEqual([
      0,
      expect.closeTo((19.6078431 - 18) / (19.6078431 - 15.6862745), 6),
    ]);
    const narrowed = sharesUnder('  prescription R1 reduce\n    spread 58 ft to 50 ft\n');
    for (const { before, after } of narrowed) expect(after).toBeCloseTo(before, 12);
  });

  it('are open once the tree is felled, and as they were where only a part of it is', () => {
    expect(sharesUnder('  prescription R1 fell\n').map(({ after }) => after)).toEqual([0, 0]);
    expect(sharesUnder('  prescription R1 fell\n    remove L1\n').map(({ after }) => after)).toEqual([
      undefined,
      undefined,
    ]);
  });

  it('are passed over where lines cannot be drawn', () => {
    const { tree, settings } = treeIn(`tree 1
  height 52 ft
  crown from 14 ft, 58 ft wide
  view "No eye"
    hide 0..24 ft, 140 ft beyond
  view "A point"
    eye 14 ft, 40 ft away
    hide 24 ft, 140 ft beyond
  view "No end"
    eye 14 ft, 40 ft away
    hide > 24 ft, 140 ft beyond
`);
    expect(tree.views).toHaveLength(3);
    expect(sightedViews(tree, settings)).toEqual([]);
  });
});
