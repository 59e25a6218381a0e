import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exact, type Interval, interval } from '../../server/base/interval.ts';
import { jumpyReadings } from '../../server/mechanics/openings.ts';
import { quickLoss } from '../../server/mechanics/section.ts';
import { possible, sampler } from '../../server/mechanics/section-readings.ts';
import type { CrossSection, UncertainSection } from '../../server/mechanics/section-types.ts';
import { mapped, sectionOf } from './arbitrary-section.ts';

const RAYS = 180;
const LOOKS = 64;
const HALVINGS = 16;
/** A jump that matters; the coarse section's own roughness is a tenth of it. */
const JUMP = 0.002;

/** The greatest jump of the loss along one reading, the others as they are at `places`. */
function greatestJump(section: UncertainSection, places: readonly number[], reading: number): number {
  const { reused } = sampler(section);
  const lossAt = (place: number) => quickLoss(reused(places.with(reading, place)), RAYS);
  // At the very ends a wall of nothing is none: that is no jump between two readings.
  const stops = Array.from({ length: LOOKS + 1 }, (_, i) => 1e-6 + ((1 - 2e-6) * i) / LOOKS);
  const losses = stops.map(lossAt);
  let steepest = 1;
  for (let i = 2; i <= LOOKS; i++)
    if (Math.abs(losses[i]! - losses[i - 1]!) > Math.abs(losses[steepest]! - losses[steepest - 1]!))
      steepest = i;
  let [from, to] = [stops[steepest - 1]!, stops[steepest]!];
  let [before, after] = [losses[steepest - 1]!, losses[steepest]!];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (from + to) / 2;
    const loss = lossAt(middle);
    if (Math.abs(loss - before) > Math.abs(after - loss)) [to, after] = [middle, loss];
    else [from, before] = [middle, loss];
  }
  return Math.abs(after - before);
}

const open = (bearing: number, opening: Interval) => ({
  bearing,
  opening,
  walls: [{ bearing, wall: interval(0.05, 0.1) }],
});
const stem = { diameter: exact(0.6) };

describe('readings along which the loss may jump', () => {
  it('are those of two openings that may meet, and the diameter', () => {
    // Half-angles of 9.6 to 30° and 19.5°, 40° apart.
    const section = { outer: stem, cavities: [open(0, interval(0.1, 0.3)), open(40, exact(0.2))] };
    const jumpy = jumpyReadings(section);
    expect(jumpy).toContain('cavity 0 opening');
    expect(jumpy).toContain('diameter');
    expect(jumpy).not.toContain('cavity 0 wall 0');
    expect(greatestJump(section, [0.5, 0.5, 0.5], 1)).toBeGreaterThan(JUMP);
  });

  it('are none where the openings stay apart, stay joined, or there is only one', () => {
    const apart = { outer: stem, cavities: [open(0, interval(0.1, 0.3)), open(90, exact(0.2))] };
    const joined = { outer: stem, cavities: [open(0, interval(0.25, 0.3)), open(20, exact(0.2))] };
    const alone = { outer: stem, cavities: [open(0, interval(0.1, 0.3))] };
    for (const section of [apart, joined, alone]) expect(jumpyReadings(section)).toEqual(new Set());
  });

  it('count on the far side of the stem, too', () => {
    const [wide, wider] = [open(0, exact(0.6)), open(181, interval(0.58, 0.6))];
    expect(jumpyReadings({ outer: stem, cavities: [wide, wider] })).toContain('cavity 1 opening');
  });

  it('are all openings of an oval stem that a probe was put into', () => {
    const section: UncertainSection = {
      outer: { diameter: exact(0.6), crossDiameter: exact(0.5) },
      cavities: [open(0, interval(0.1, 0.3)), { bearing: 180, depth: interval(0.3, 0.5) }],
    };
    expect(jumpyReadings(section)).toContain('cavity 0 opening');
    expect(jumpyReadings(section)).toContain('cavity 1 depth');
  });

  it('are named whenever it does', () => {
    const around = (value: number, share: number) => interval(value * (1 - share), value * (1 + share));
    const uncertain = (
      { outer, cavities }: CrossSection,
      isOval: boolean,
      share: number,
    ): UncertainSection => {
      const { diameter, crossDiameter, bearing, bark } = outer;
      const edge: CrossSection['outer'] = isOval ? outer : { diameter, bark };
      const section = mapped({ outer: edge, cavities }, value => around(value, share));
      const narrow = {
        diameter: around(diameter, share / 4),
        ...(isOval && { crossDiameter: around(crossDiameter!, share / 4), bearing }),
      };
      return { ...section, outer: { ...section.outer, ...narrow } };
    };
    let tried = 0;
    fc.assert(
      fc.property(
        sectionOf(3),
        fc.boolean(),
        fc.double({ min: 0.05, max: 0.6, noNaN: true }),
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 24, maxLength: 24 }),
        (drawn, isOval, share, draws) => {
          const section = possible(uncertain(drawn, isOval, share));
          const { names } = sampler(section);
          const jumpy = jumpyReadings(section);
          const places = names.map((_, i) => draws[i]!);
          names.forEach((name, reading) => {
            if (jumpy.has(name)) return;
            tried++;
            expect(greatestJump(section, places, reading), name).toBeLessThan(JUMP);
          });
        },
      ),
      { numRuns: 300, seed: 20260601 },
    );
    expect(tried).toBeGreaterThan(500);
  });
});
