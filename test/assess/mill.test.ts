import { describe, expect, it } from 'vitest';
import { type Mill, millOf } from '../../server/assess/mill.ts';
import { treeIn } from './inventory.ts';

const INCH = 0.0254;

function mill(
  more = '',
  sizes = '  dbh 30 in\n  height 80 ft\n  taper 24 in at 24 ft\n',
): Mill | string | undefined {
  const { tree, settings } = treeIn(`tree 1
  species Quercus alba
${sizes}${more}`);
  return millOf(tree, settings);
}
const FELL = '  prescription R1 fell\n    logs 16 ft, 8 ft\n';
const decay = (more = '', wall = '8 in') =>
  `  defect A decay
    on trunk at 4 ft
    diameter 30 in
    bark 0 in
    wall ${wall}
${more}`;

describe('logs for a mill', () => {
  it('are taken off the butt, thinner upward, and the butt log comes first', () => {
    const { logs, first, areLengthsStated } = mill(FELL) as Mill;
    expect(logs.map(({ number }) => number)).toEqual([1, 2]);
    expect(logs[1]!.smallEnd.high).toBeLessThan(logs[0]!.smallEnd.high);
    // 24 in at 24 ft, and less under bark; the second log ends at 25 ft.
    expect(logs[1]!.smallEnd.high).toBeLessThan(24 * INCH);
    expect(first).toBe(1);
    expect(areLengthsStated).toBe(true);
  });

  it('are customary ones up to the crown where none are stated, and none of a thin tree', () => {
    const { logs } = mill('  crown from 30 ft, 30 ft wide\n') as Mill;
    expect(logs.map(({ length }) => Math.round(length / 0.3048))).toEqual([16, 8]);
    expect(mill()).toContain('crown begins');
    expect(mill('', '  dbh 12 in\n  height 80 ft\n')).toBeUndefined();
    expect(mill(FELL, '  dbh 30 in, 28 in\n  height 80 ft\n')).toContain('several stems');
    expect(mill(FELL, '  dbh 30 in\n')).toContain('height');
    expect(mill(FELL, '  dbh 30 in\n  height 20 ft\n')).toContain('longer');
  });

  it('lose a rotten core, all the more the longer it may be', () => {
    const sound = (mill(FELL) as Mill).logs[0]!;
    const rotten = (mill(decay() + FELL) as Mill).logs[0]!;
    const short = (mill(decay('    length 4 ft\n') + FELL) as Mill).logs[0]!;
    const gone = (mill(decay('', '2 in') + FELL) as Mill).logs[0]!;
    for (const rule of ['Doyle', 'Scribner', 'International 1/4-inch'] as const) {
      expect(rotten.boards![rule].low).toBeLessThan(short.boards![rule].low);
      expect(short.boards![rule].high).toBeLessThan(sound.boards![rule].high);
      expect(gone.boards![rule].low).toBe(0);
    }
    expect(rotten.volume!.low).toBeLessThan(sound.volume!.low);
    expect([rotten.isLengthAssumed, short.isLengthAssumed]).toEqual([true, false]);
    expect((mill(decay() + FELL) as Mill).logs[1]!.off).toEqual([]);
  });

  it('are not judged behind a conk, a crack or rot of unknown width', () => {
    const conk = '  defect B fungus\n    on trunk at 5 ft\n';
    expect(mill(conk + FELL)).toContain('fungus B');
    expect(typeof mill(decay() + conk + FELL)).toBe('object');
    const crack = (mill(`  defect B crack\n    on trunk at 20 ft\n${FELL}`) as Mill).logs;
    expect(crack.map(({ notJudged }) => notJudged !== undefined)).toEqual([false, true]);
    const unread = (mill(decay('', 'unseen') + FELL) as Mill).logs[0]!;
    expect(unread.notJudged).toContain('decay A');
    expect(unread.boards).toBeUndefined();
    const nowhere = (mill(`  defect B cavity\n    diameter 30 in\n    wall 8 in\n${FELL}`) as Mill).logs;
    expect(nowhere.every(({ notJudged }) => notJudged)).toBe(true);
    const limb = `  limb L1\n    from 30 ft\n  defect B crack\n    on L1 at 32 ft\n`;
    expect((mill(limb + FELL) as Mill).logs.every(({ notJudged }) => notJudged === undefined)).toBe(true);
  });
});
