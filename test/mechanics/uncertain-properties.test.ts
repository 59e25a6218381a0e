import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exact, type Interval, interval } from '../../server/base/interval.ts';
import { sectionFigures } from '../../server/mechanics/section.ts';
import type { CrossSection, UncertainSection } from '../../server/mechanics/section-types.ts';
import { uncertainFigures } from '../../server/mechanics/uncertain-section.ts';
import { mapped, toldSectionOf } from './arbitrary-section.ts';

/** Mulberry32: the same draws in every run. */
function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** One exact section of those allowed; ends are drawn often, for extremes lie there. */
function drawn(section: UncertainSection, random: () => number): CrossSection {
  const { outer, cavities } = mapped(section, ({ low, high }) => {
    const place = random() * 1.6 - 0.3;
    return low + Math.min(1, Math.max(0, place)) * (high - low);
  });
  return {
    outer,
    cavities: cavities.map(cavity =>
      cavity.depth === undefined ? cavity : { ...cavity, smallest: random() < 0.5 },
    ),
  };
}

function sampledHull(section: UncertainSection, samples: number, seed: number): Interval {
  const random = generator(seed);
  let [low, high] = [Infinity, -Infinity];
  for (let i = 0; i < samples; i++) {
    const { strengthLoss } = sectionFigures(drawn(section, random));
    low = Math.min(low, strengthLoss);
    high = Math.max(high, strengthLoss);
  }
  return interval(low, high);
}

/** 2 % of the quantity, and what the coarse rays of a search leave where there is hardly a loss. */
const ALLOWED = 0.02;
const RAY_ERROR = 5e-4;

function expectTight(section: UncertainSection, samples: number, seed: number): void {
  const { strengthLoss: bound } = uncertainFigures(section);
  const hull = sampledHull(section, samples, seed);
  // Rounding may make a stem stronger than sound.
  expect(bound.low).toBeLessThanOrEqual(Math.max(0, hull.low) + 1e-9);
  expect(bound.high).toBeGreaterThanOrEqual(hull.high - 1e-9);
  expect(hull.low - bound.low).toBeLessThanOrEqual(ALLOWED * hull.high + RAY_ERROR);
  expect(bound.high - hull.high).toBeLessThanOrEqual(ALLOWED * hull.high + RAY_ERROR);
}

const inch = 0.0254;

describe('bounds on the loss', () => {
  it.each<[string, UncertainSection]>([
    [
      'a wall of 2..4 in all round, but for 5 in across from an opening of about 9 in',
      {
        outer: { diameter: exact(26 * inch) },
        cavities: [
          {
            bearing: 225,
            opening: interval(8 * inch, 10 * inch),
            allRound: interval(2 * inch, 4 * inch),
            walls: [{ bearing: 45, wall: interval(4.5 * inch, 5.5 * inch) }],
          },
        ],
      },
    ],
    [
      'a depth of more than 11 in, estimated diameter, opening and bark',
      {
        outer: { diameter: interval(23.4 * inch, 28.6 * inch), bark: interval(0.3 * inch, 0.6 * inch) },
        cavities: [
          {
            bearing: 225,
            depth: interval(11 * inch, 22 * inch),
            opening: interval(8 * inch, 10 * inch),
          },
        ],
      },
    ],
    [
      'a narrow opening before a deep void: its horns are extreme fibres',
      {
        outer: { diameter: exact(1) },
        cavities: [{ bearing: 0, depth: interval(0.6, 0.7), opening: interval(0.01, 0.4) }],
      },
    ],
    [
      'two cavities of uncertain depth',
      {
        outer: { diameter: exact(0.65) },
        cavities: [
          { bearing: 225, depth: interval(0.28, 0.65), opening: exact(0.23) },
          { bearing: 200, depth: interval(0, 0.65), opening: exact(0.15) },
        ],
      },
    ],
  ])('hold 10,000 draws: %s', (_, section) => expectTight(section, 10_000, 1));

  it('hold every draw from any section with up to four uncertain readings', () => {
    const widths = fc.array(fc.double({ min: 0, max: 0.6, noNaN: true }), { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(toldSectionOf(2), widths, fc.nat(), (section, shares, seed) => {
        // The last readings (of the cavities) are the uncertain ones.
        let readings = 0;
        mapped(section, () => readings++);
        let left = readings;
        const uncertain: UncertainSection = mapped(section, value => {
          const share = shares[--left] ?? 0;
          return interval(value, value * (1 + share));
        });
        expectTight(uncertain, 300, seed);
      }),
      { numRuns: 60, seed: 20260601 },
    );
  });

  it('of walls that were read all round, exactly, are exact', () => {
    const ringed = toldSectionOf(2).filter(({ cavities }) => cavities.every(({ allRound }) => allRound));
    fc.assert(
      fc.property(ringed, section => {
        const { strengthLoss, worstBearing } = uncertainFigures(mapped(section, exact));
        expect(strengthLoss).toEqual(exact(Math.max(0, sectionFigures(section).strengthLoss)));
        expect(worstBearing).toBe(sectionFigures(section).worstBearing);
      }),
      { numRuns: 30 },
    );
  });
});

describe('a depth', () => {
  const outer = { diameter: exact(0.65) };

  it('that was not seen is anything from nothing to the far bark', () => {
    const unseen = uncertainFigures({ outer, cavities: [{ bearing: 90, opening: exact(0) }] }).strengthLoss;
    expect(unseen.low).toBeLessThanOrEqual(0);
    expect(unseen.low).toBeGreaterThan(-0.01);
    expect(unseen.high).toBe(1);
  });

  it('without an upper end reaches to the far bark', () => {
    const cavity = { bearing: 90, depth: interval(0.28, Infinity) };
    const { strengthLoss } = uncertainFigures({ outer, cavities: [cavity] });
    expect(strengthLoss.high).toBe(1);
    // What lies beside a probe through a closed surface nobody saw.
    expect(strengthLoss.low).toBe(0);
    const open = uncertainFigures({ outer, cavities: [{ ...cavity, opening: exact(0.2) }] });
    const least = sectionFigures({
      outer: { diameter: 0.65 },
      cavities: [{ bearing: 90, depth: 0.28, opening: 0.2, smallest: true }],
    });
    expect(open.strengthLoss.low).toBeLessThanOrEqual(least.strengthLoss);
    expect(open.strengthLoss.low).toBeGreaterThan(least.strengthLoss - 0.005);
  });

  it('only checks the void where the wall was read all round', () => {
    const allRound = exact(0.1);
    const byWalls = uncertainFigures({ outer, cavities: [{ bearing: 90, allRound }] });
    const both = uncertainFigures({ outer, cavities: [{ bearing: 90, allRound, depth: exact(0.5) }] });
    expect(both).toEqual(byWalls);
    expect(both.contradictions).toEqual([]);
  });

  it('deeper than the void of the walls contradicts them, and the worse of both is used', () => {
    const allRound = exact(0.2);
    const figures = uncertainFigures({ outer, cavities: [{ bearing: 90, allRound, depth: exact(0.6) }] });
    const byDepth = uncertainFigures({ outer, cavities: [{ bearing: 90, depth: exact(0.6) }] });
    expect(figures.contradictions).toMatchObject([
      { cavity: 0, kind: 'depth beyond the void of the walls', read: exact(0.6) },
    ]);
    // Across from 90° the far edge of the void lies 0.65 − 0.2 in.
    expect(figures.contradictions[0]!.possible.high).toBeCloseTo(0.45, 9);
    expect(figures.strengthLoss).toEqual(byDepth.strengthLoss);
  });
});
