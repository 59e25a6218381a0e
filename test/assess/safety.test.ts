import { describe, expect, it } from 'vitest';
import { stemSafety } from '../../server/assess/safety.ts';
import { strengthOf } from '../../server/assess/strength.ts';
import { readFile } from '../../server/facts/file.ts';
import { latestState } from '../../server/facts/state.ts';
import { buildWorkspace, settingsFor, siteOf } from '../../server/facts/workspace.ts';

const PATH = 'a.wood';

interface Stem {
  readonly species?: string;
  readonly height?: string;
  readonly crown?: string;
  readonly wall?: string;
  readonly diameter?: string;
  readonly wind?: string;
  readonly more?: string;
  readonly on?: string;
  readonly practice?: string;
}

const safetyOf = ({
  species = 'Quercus alba',
  height = '20 m',
  crown = 'from 5 m, 12 m wide',
  diameter = '80 cm',
  wall = '12 cm',
  wind = '40 m/s, exposure C',
  more = '',
  on = 'trunk',
  practice = '',
}: Stem = {}) => {
  const file = readFile(
    PATH,
    `${practice}site "Court"
  wind ${wind}

tree 1
  species ${species}
  height ${height}
  crown ${crown}
${more}  inspection 2026-05-04 from rope
  defect A decay
    on ${on} at 1 m
    diameter ${diameter}
    bark 0 mm
    wall ${wall}
`,
  );
  const workspace = buildWorkspace([file]);
  const tree = latestState(file.trees[0]!.fact);
  const settings = settingsFor(workspace, PATH);
  return stemSafety(tree, strengthOf(tree, settings), siteOf(workspace, PATH), settings);
};

describe('a stem in the design wind', () => {
  it('yields where green wood is crushed, not where clear wood breaks', () => {
    const { hollows, strength, drag } = safetyOf()!;
    // White oak: 3560 psi in compression, 8300 psi in bending.
    expect(strength.compression.low / 6894.757).toBeCloseTo(0.7 * 3560, 3);
    expect(strength.compression.high / 6894.757).toBeCloseTo(1.3 * 3560, 3);
    expect(drag).toMatchObject({ low: 0.15, high: 0.3 });
    const [a] = hollows;
    // A ring of d/D 0.7 keeps 1 − 0.7⁴; strength ± 30 %, drag 0.15 to 0.30, gusts 0.85 to 1.15.
    expect(a!.judged.value.low / a!.sound.low).toBeCloseTo(0.7599, 3);
    expect(a!.sound.high / a!.sound.low).toBeCloseTo((1.3 * 0.3 * 1.15) / (0.7 * 0.15 * 0.85), 6);
    expect(a!.breakingAtMost / a!.judged.value.high).toBeCloseTo((1.26 * 8300) / (1.3 * 3560), 3);
    expect(a!.criticalWind.low).toBeLessThan(a!.soundWind.low);
  });

  it('needs wood, wind, crown and a hollow that the crown bends', () => {
    expect(safetyOf({ species: 'Eucalyptus globulus' })).toBeUndefined();
    expect(safetyOf({ species: 'Washingtonia robusta' })).toBeUndefined();
    expect(safetyOf({ crown: 'from 5 m' })).toBeUndefined();
    expect(safetyOf({ on: 'L1', more: '  limb L1\n    from 6 m\n' })).toBeUndefined();
    // A wood without a row of its own goes by its density.
    expect(safetyOf({ species: 'Tilia cordata' })!.strength.woods).toEqual([]);
  });

  it('bears less with more drag: a conifer’s crown may have twice that of a broadleaved one', () => {
    expect(safetyOf({ species: 'Pseudotsuga menziesii' })!.drag).toMatchObject({ low: 0.2, high: 0.6 });
  });

  it('is blamed only for what the hollow changes', () => {
    // Slender, so that even sound it may fail the limit: the hollow is not to blame.
    const slender = safetyOf({ height: '25 m', diameter: '70 cm', wall: '20 cm' })!.hollows[0]!;
    expect(slender.sound.low).toBeLessThan(1.5);
    expect(slender.judged.standing).toBe('may exceed');
    expect(slender.standing).toBe('within');
    // Stout: sound it keeps the limit at any value, with the hollow it may not.
    const stout = safetyOf({ wall: '4 cm', height: '16 m' })!.hollows[0]!;
    expect(stout.sound.low).toBeGreaterThan(1.5);
    expect(stout.standing).toBe('may exceed');
    // A shell as thin as paper fails at the most favourable.
    expect(safetyOf({ wall: '3 mm' })!.hollows[0]!.standing).toBe('exceeds');
    expect(safetyOf({ height: '14 m', crown: 'from 5 m, 8 m wide' })!.hollows[0]!.standing).toBe('within');
  });

  it('is judged by the limit that the office sets', () => {
    const practice = 'practice "Office"\n  limit safety-factor 40 because "as an example"\n\n';
    expect(safetyOf({ practice })!.hollows[0]!.judged.standing).toBe('exceeds');
  });

  it('judges no hollow where the sizes of the tree decide, however closely they are read', () => {
    const of = (height: string) =>
      safetyOf({ height, diameter: '30 cm', wall: '10 cm', crown: 'from 3 m, 12 m wide' })!.hollows[0]!;
    const surely = of('24 m');
    expect(surely.sound.high).toBeLessThan(1.5);
    expect(surely).toMatchObject({ standing: 'not judged', isOpen: true });
    // Nor does a height that is read less exactly bring silence.
    const perhaps = of('8..24 m');
    expect(perhaps.sound.high).toBeGreaterThan(1.5);
    expect(perhaps.judged.standing).toBe('may exceed');
    expect(perhaps).toMatchObject({ standing: 'not judged', isOpen: true });
    expect(of('8 m')).toMatchObject({ standing: 'within', isOpen: false });
  });

  it('says when height, diameter and crown make a stem that no tree has', () => {
    expect(
      safetyOf({ height: '40 m', crown: 'from 10 m, 20 m wide', diameter: '25 cm', wall: '5 cm' }),
    ).toMatchObject({
      sizes: 'too slender',
    });
    expect(
      safetyOf({ height: '6 m', crown: 'from 3 m, 3 m wide', diameter: '2 m', wall: '30 cm' }),
    ).toMatchObject({
      sizes: 'too stout',
    });
    expect(safetyOf()!.sizes).toBe('fit');
  });

  it('does not judge what the figure leaves out: a dead tree, a steep lean, a forked one', () => {
    const doubtOf = (more: string) => {
      const { standing, doubt } = safetyOf({ more })!.hollows[0]!;
      expect(standing === 'not judged').toBe(doubt !== undefined);
      return doubt;
    };
    expect(doubtOf('  vigor dead\n')).toMatch(/dead/);
    expect(doubtOf('  lean 64 deg toward N\n')).toMatch(/60 degrees/);
    expect(doubtOf('  dbh 80 cm, 60 cm\n  lean 14 deg toward N\n')).toMatch(/forked/);
    expect(doubtOf('  lean unseen toward N\n')).toMatch(/60 degrees/);
    expect(doubtOf('  lean > 20 deg toward N\n')).toMatch(/60 degrees/);
    expect(doubtOf('  lean 14 deg toward N\n')).toBeUndefined();
    // Its own weight makes a bad stem no better.
    expect(safetyOf({ more: '  lean 64 deg toward N\n', wall: '3 mm' })!.hollows[0]!.standing).toBe(
      'exceeds',
    );
  });

  it('bears less toward its lean, and more from ahead of it', () => {
    const upright = safetyOf()!.hollows[0]!;
    const leaning = safetyOf({ more: '  lean 14 deg toward N\n' })!.hollows[0]!;
    expect(upright.against).toBeUndefined();
    expect(leaning.judged.value.low).toBeLessThan(upright.judged.value.low);
    expect(leaning.against!.high).toBeGreaterThan(upright.judged.value.high);
    expect(leaning.criticalWind.low).toBeLessThan(upright.criticalWind.low);
    const steeper = safetyOf({ more: '  lean 20 deg toward N\n' })!.hollows[0]!;
    expect(steeper.judged.value.low).toBeLessThan(leaning.judged.value.low);
  });

  it('takes a bowed stem by plumb line, and less than by its angle where it grew upright again', () => {
    const low = (lean: string) => safetyOf({ more: `  lean ${lean}\n` })!.hollows[0]!.judged.value.low;
    expect(low('14 deg toward N, crown 1 m aside, trunk 0.5 m aside')).toBeGreaterThan(
      low('14 deg toward N'),
    );
    expect(low('14 deg toward N, crown 6 m aside')).toBeLessThan(low('14 deg toward N'));
    expect(
      safetyOf({ more: '  lean 14 deg toward N, corrected\n' })!.hollows[0]!.judged.value.high,
    ).toBeCloseTo(safetyOf()!.hollows[0]!.judged.value.high, 9);
  });

  it('of several stems carries nobody knows how much of the crown: no favourable end', () => {
    const { hollows } = safetyOf({ on: 'West', more: '  stem West\n    from 1 m\n', wall: '3 mm' })!;
    expect(hollows[0]!.judged.value.high).toBe(Infinity);
    expect(hollows[0]!.standing).not.toBe('exceeds');
  });

  it('warns of shells that may split before they bend', () => {
    expect(safetyOf({ wall: '9 cm' })!.hollows[0]!.maySplit).toBe(true);
    expect(safetyOf({ wall: '14 cm' })!.hollows[0]!.maySplit).toBe(false);
  });

  it('widens with every reading that is not exact', () => {
    const exact = safetyOf()!.hollows[0]!;
    for (const loose of [
      safetyOf({ height: '~20 m' }),
      safetyOf({ wall: '~12 cm' }),
      safetyOf({ diameter: '~80 cm' }),
      safetyOf({ wind: '~40 m/s, exposure C' }),
      safetyOf({ crown: 'from ~5 m, ~12 m wide' }),
    ]) {
      expect(loose!.hollows[0]!.judged.value.low).toBeLessThan(exact.judged.value.low);
      expect(loose!.hollows[0]!.judged.value.high).toBeGreaterThan(exact.judged.value.high);
    }
  });
});
