/**
 * How long a section takes, beside the plain way: the polygon library's rings, Green's theorem over them, and
 * the stress at every vertex for every bearing.
 */

import { exact, type Interval, interval } from '../base/interval.ts';
import { type Ring, sectionOutlines } from '../mechanics/outlines.ts';
import { sectionFigures } from '../mechanics/section.ts';
import type { CrossSection, UncertainSection } from '../mechanics/section-types.ts';
import { uncertainFigures } from '../mechanics/uncertain-section.ts';

export interface MechanicsTiming {
  readonly name: string;
  /** µs for one. */
  readonly time: number;
  /** µs for one the plain way, where there is one, and the greatest difference of the two losses. */
  readonly plain?: number;
  readonly difference?: number;
}

const walls = [
  { bearing: 225, wall: 0.07 },
  { bearing: 45, wall: 0.13 },
];
const oneVoid: CrossSection = {
  outer: { diameter: 0.66 },
  cavities: [{ bearing: 225, walls, opening: 0.22 }],
};
const threeVoids: CrossSection = {
  outer: oneVoid.outer,
  cavities: [
    ...oneVoid.cavities,
    { bearing: 200, depth: 0.3, opening: 0.15 },
    { bearing: 90, depth: 0.2, opening: 0.05 },
  ],
};
const fourReadings = (depth: Interval): UncertainSection => ({
  outer: { diameter: interval(0.6, 0.7) },
  cavities: [
    {
      bearing: 225,
      allRound: interval(0.05, 0.1),
      walls: [{ bearing: 45, wall: interval(0.11, 0.14) }],
      opening: exact(0.22),
    },
    { bearing: 200, depth, opening: exact(0.15) },
  ],
});

/** Four more, of a stem where the wood between two openings may be there or not. */
const meetingOpenings: UncertainSection = {
  outer: { diameter: interval(0.6, 0.7) },
  cavities: [
    { bearing: 225, allRound: interval(0.05, 0.1), opening: interval(0.15, 0.25) },
    { bearing: 190, depth: interval(0.28, 0.4), opening: exact(0.15) },
  ],
};

/** Area, first and second moments of rings about the pith (Green's theorem); a hole counts against. */
function moments(rings: readonly { readonly ring: Ring; readonly sign: 1 | -1 }[]) {
  const sums = { area: 0, x: 0, y: 0, xx: 0, yy: 0, xy: 0 };
  for (const { ring, sign } of rings) {
    const one = { area: 0, x: 0, y: 0, xx: 0, yy: 0, xy: 0 };
    for (let i = 0; i < ring.length; i++) {
      const [ax, ay] = ring[i]!;
      const [bx, by] = ring[(i + 1) % ring.length]!;
      const cross = ax * by - bx * ay;
      one.area += cross / 2;
      one.x += ((ax + bx) * cross) / 6;
      one.y += ((ay + by) * cross) / 6;
      one.xx += ((ax * ax + ax * bx + bx * bx) * cross) / 12;
      one.yy += ((ay * ay + ay * by + by * by) * cross) / 12;
      one.xy += ((ax * by + 2 * ax * ay + 2 * bx * by + bx * ay) * cross) / 24;
    }
    const turn = Math.sign(one.area) * sign;
    for (const key of Object.keys(sums) as (keyof typeof sums)[]) sums[key] += turn * one[key];
  }
  return sums;
}

/** Strength loss of a round section, the plain way. */
function plainLoss(section: CrossSection): number {
  const rings = sectionOutlines(section).sound.flatMap(({ outline, holes }) => [
    { ring: outline, sign: 1 as const },
    ...holes.map(ring => ({ ring, sign: -1 as const })),
  ]);
  const { area, x, y, xx, yy, xy } = moments(rings);
  const [east, north] = [x / area, y / area];
  const [ee, nn, en] = [xx - x * east, yy - y * north, xy - x * north];
  const determinant = ee * nn - en * en;
  const radius = section.outer.diameter / 2 - (section.outer.bark ?? 0);
  const soundModulus = (Math.PI * radius ** 3) / 4;
  let worst = 0;
  for (let degree = 0; degree < 360; degree++) {
    const [sin, cos] = [Math.sin((degree * Math.PI) / 180), Math.cos((degree * Math.PI) / 180)];
    const [gx, gy] = [(nn * sin - en * cos) / determinant, (ee * cos - en * sin) / determinant];
    for (const { ring } of rings)
      for (const [px, py] of ring) worst = Math.max(worst, Math.abs(gx * (px - east) + gy * (py - north)));
  }
  return 1 - 1 / (worst * soundModulus);
}

/** Many and short: the first ones are slow until the engine has compiled what they call. */
const ROUNDS = 25;

/** µs for one call, the least of all rounds: whatever else the machine does only ever adds. */
function microseconds(work: () => unknown, calls: number): number {
  let least = Infinity;
  for (let round = 0; round < ROUNDS; round++) {
    const start = performance.now();
    for (let i = 0; i < calls; i++) work();
    least = Math.min(least, (1000 * (performance.now() - start)) / calls);
  }
  return least;
}

const besidePlain = (name: string, section: CrossSection): MechanicsTiming => ({
  name,
  time: microseconds(() => sectionFigures(section), 200),
  plain: microseconds(() => plainLoss(section), 5),
  difference: Math.abs(sectionFigures(section).strengthLoss - plainLoss(section)),
});

const mechanicsTimings = (): readonly MechanicsTiming[] => [
  besidePlain('section with one void', oneVoid),
  besidePlain('section with three voids', threeVoids),
  {
    name: 'range over four uncertain readings, one without an upper end',
    time: microseconds(() => uncertainFigures(fourReadings(interval(0.28, Infinity))), 100),
  },
  {
    name: 'range over four uncertain readings, all with two ends',
    time: microseconds(() => uncertainFigures(fourReadings(interval(0.28, 0.4))), 100),
  },
  {
    name: 'range over four uncertain readings, two openings may meet',
    time: microseconds(() => uncertainFigures(meetingOpenings), 100),
  },
];

/** One line for each timing. */
export const mechanicsReport = (timings = mechanicsTimings()): readonly string[] =>
  timings.map(({ name, time, plain, difference }) =>
    plain === undefined
      ? `${name}: ${time.toFixed(0)} µs`
      : `${name}: ${time.toFixed(0)} µs, plain way ${plain.toFixed(0)} µs (${(plain / time).toFixed(0)} times), ` +
        `losses differ by ${difference!.toFixed(5)}`,
  );
