import { describe, expect, it } from 'vitest';
import { riggingsOf } from '../../server/assess/rigging.ts';
import { dayContext } from './inventory.ts';

interface Rig {
  readonly crew?: string;
  readonly tree?: string;
  readonly piece?: string;
  readonly rigged?: string;
  readonly anchor?: string;
}

const GEAR = '  line 72 kN, stretches 2 %, spliced\n  block 100 kN\n  sling 80 kN\n';

function rigging({
  crew: gear = GEAR,
  tree: more = '',
  piece = 'piece 1 m, 40 cm to 30 cm thick',
  rigged = 'rigged caught, drop 1 m, rope 20 m, legs 20 deg',
  anchor = 'anchor trunk at 9 m, 45 cm thick',
}: Rig = {}) {
  const { tree, crew, settings } = dayContext(`crew ROPE "Rope crew"
${gear}
tree 1
  species Quercus rubra
  dbh 60 cm
  height 20 m
${more}  prescription R1 fell
    with ROPE
    ${piece}
    ${rigged}
    ${anchor}
`);
  return riggingsOf(tree, crew, settings)[0]!;
}
const element = (rig: Rig, name: 'rope' | 'block' | 'sling' | 'spar') =>
  rigging(rig).elements.find(one => one.name === name)!;

describe('the rigging of a piece', () => {
  it('is judged by the worst of rope, block, sling and spar', () => {
    const { elements, standing, peak, atBlock } = rigging();
    expect(elements.map(({ name }) => name)).toEqual(['rope', 'block', 'sling', 'spar']);
    expect(standing).toBe('may exceed');
    expect(atBlock.high).toBeCloseTo(2 * peak.high * Math.cos(Math.PI / 18), 6);
    expect(elements.every(({ missing }) => missing.length === 0)).toBe(true);
  });

  it('counts knots, and names them where they decide', () => {
    const tied = element({ crew: GEAR.replace(', spliced', '') }, 'rope').judged!.value;
    const spliced = element({}, 'rope').judged!.value;
    expect(tied.low / spliced.low).toBeCloseTo(0.5, 9);
    expect(tied.high / spliced.high).toBeCloseTo(0.7, 9);
    // 72 kN over 10 is 7.2 kN: knots decide of a piece that is let run, the catch of one that falls.
    const crew = GEAR.replace(', spliced', '');
    const running = { crew, piece: 'piece 210 kg', rigged: 'rigged let run' };
    expect(element(running, 'rope').weak).toEqual(['knots']);
    expect(element({}, 'rope').weak).toEqual(['catch']);
  });

  it('passes nothing of which a figure is missing', () => {
    const small = { piece: 'piece 5 kg', rigged: 'rigged let run' };
    expect(rigging(small).standing).toBe('within');
    for (const lost of [/ {2}line.*\n/, / {2}block.*\n/, / {2}sling.*\n/])
      expect(rigging({ ...small, crew: GEAR.replace(lost, '') }).standing).toBe('not judged');
    expect(rigging({ ...small, anchor: '' }).standing).toBe('not judged');
    expect(rigging({ ...small, anchor: 'anchor trunk at 9 m' }).standing).toBe('not judged');
    expect(rigging({ ...small, piece: 'piece 1 m' }).standing).toBe('not judged');
    expect(rigging({ ...small, rigged: 'rigged caught, drop 1 m' }).standing).toBe('not judged');
    expect(element({ ...small, tree: '  vigor dead\n' }, 'spar').standing).toBe('not judged');
    const limb = { ...small, tree: '  limb L1\n    from 8 m\n', anchor: 'anchor L1 at 9 m, 30 cm thick' };
    expect(element(limb, 'spar').missing.join()).toContain('L1');
    // Beyond its limit whatever is missing.
    const heavy = { piece: 'piece 2 t', rigged: 'rigged caught' };
    expect(element(heavy, 'rope').standing).toBe('exceeds');
  });

  it('bends a hollow or thin spar beyond what a sound one bears', () => {
    const rot = (height: string) =>
      `  defect A decay\n    on trunk at ${height}\n    diameter 55 cm\n    bark 0 cm\n    wall 2 cm\n`;
    const sound = element({}, 'spar').judged!.value;
    const hollow = element({ tree: rot('2 m') }, 'spar');
    expect(hollow.judged!.value.low).toBeLessThan(sound.low);
    expect(hollow.where).toBe('at decay A');
    // Above the block it bears nothing of it.
    expect(element({ tree: rot('12 m') }, 'spar').judged!.value).toEqual(sound);
    const thin = element({ anchor: 'anchor trunk at 9 m, 15 cm thick' }, 'spar').judged!.value;
    expect(thin.low).toBeLessThan(sound.low);
    const wide = element({ rigged: 'rigged caught, drop 1 m, rope 20 m, legs 80 deg' }, 'spar');
    expect(wide.judged!.value.low).toBeLessThan(sound.low);
    // Of an unknown angle, any.
    const any = element({ rigged: 'rigged caught, drop 1 m, rope 20 m' }, 'spar').judged!.value;
    expect(any.low).toBeLessThanOrEqual(wide.judged!.value.low);
    expect(any.high).toBeGreaterThanOrEqual(sound.high);
  });
});
