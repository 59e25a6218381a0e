import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { interval, width } from '../../server/base/interval.ts';
import { lossBetween } from '../../server/mechanics/envelope.ts';
import { extremeSection } from '../../server/mechanics/extreme-sections.ts';
import { sectionFigures } from '../../server/mechanics/section.ts';
import { possible, sampler } from '../../server/mechanics/section-readings.ts';
import type { CrossSection, UncertainSection } from '../../server/mechanics/section-types.ts';
import { mapped, toldSectionOf } from './arbitrary-section.ts';

const ring = (wall: number): CrossSection => ({
  outer: { diameter: 1 },
  cavities: [{ allRound: wall }],
});

describe('the loss of all that lies between two sections', () => {
  it('is that of the section where they are the same', () => {
    const { low, high } = lossBetween(ring(0.1), ring(0.1));
    expect(low).toBeCloseTo(0.8 ** 4, 3);
    expect(high).toBeCloseTo(0.8 ** 4, 3);
  });

  it('widens as they part', () => {
    const ranges = [0.1, 0.12, 0.15, 0.25].map(wall => lossBetween(ring(0.1), ring(wall)));
    ranges.slice(1).forEach((range, i) => {
      expect(width(range)).toBeGreaterThan(width(ranges[i]!));
    });
    // Rings of 0.1 and 0.12 lose 0.41 and 0.334.
    expect(ranges[1]!.low).toBeGreaterThan(0.28);
    expect(ranges[1]!.high).toBeLessThan(0.44);
  });

  it('is anything where no wood is certain, and all where none is possible', () => {
    expect(lossBetween(ring(0), ring(0.2))).toEqual(interval(0, 1));
    expect(lossBetween(ring(0), ring(0))).toEqual(interval(1, 1));
  });

  it('holds every section that the readings allow, of stems of any size and form', () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        toldSectionOf(4),
        fc.double({ min: 0, max: 0.4, noNaN: true }),
        fc.array(share, { minLength: 24, maxLength: 24 }),
        fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }),
        (section, spread, places, smallest) => {
          // The stem a tenth of that, or bark might be all of it.
          const around = mapped(section, value => interval(value * (1 - spread), value * (1 + spread)));
          const { diameter, crossDiameter } = section.outer;
          const near = (value: number) => interval(value * (1 - spread / 10), value * (1 + spread / 10));
          const uncertain: UncertainSection = possible({
            ...around,
            outer: { ...around.outer, diameter: near(diameter), crossDiameter: near(crossDiameter!) },
          });
          const bounds = lossBetween(extremeSection(uncertain, 'least'), extremeSection(uncertain, 'most'));
          const { names, at } = sampler(uncertain);
          const drawn = at(names.map((_, i) => places[i]!));
          const loss = sectionFigures({
            outer: drawn.outer,
            cavities: drawn.cavities.map((cavity, i) =>
              cavity.depth === undefined ? cavity : { ...cavity, smallest: smallest[i] },
            ),
          }).strengthLoss;
          expect(loss).toBeGreaterThanOrEqual(bounds.low - 1e-3);
          expect(loss).toBeLessThanOrEqual(bounds.high + 1e-3);
        },
      ),
      { numRuns: 400 },
    );
  });
});
