import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LeanSafety, leanSafety } from '../../server/assess/lean-safety.ts';
import { signsOf } from '../../server/assess/signs.ts';
import type { Interval } from '../../server/base/interval.ts';
import { readFile } from '../../server/facts/file.ts';
import { latestState } from '../../server/facts/state.ts';
import { buildWorkspace, settingsFor, siteOf } from '../../server/facts/workspace.ts';

const PATH = 'a.wood';
const SAMPLES = Number(process.env.SAMPLES ?? 60);

interface Written {
  readonly lean?: string;
  readonly species?: string;
  readonly dbh?: string;
  readonly height?: string;
  readonly crown?: string;
  readonly wind?: string;
  readonly more?: string;
}

function context({
  lean = '20 deg, steady',
  species = 'Quercus alba',
  dbh = '80 cm',
  height = '18 m',
  crown = 'from 4 m, 10 m wide',
  wind = 'wind 40 m/s, exposure C',
  more = '',
}: Written) {
  const file = readFile(
    PATH,
    `site "Court"\n  ${wind}\n\ntree 1\n  species ${species}\n  dbh ${dbh}\n  height ${height}\n  crown ${crown}\n  lean ${lean}\n${more}`,
  );
  const workspace = buildWorkspace([file]);
  return {
    tree: latestState(file.trees[0]!.fact),
    site: siteOf(workspace, PATH),
    settings: settingsFor(workspace, PATH),
  };
}

const found = (written: Written = {}) => {
  const { tree, site, settings } = context(written);
  return leanSafety(tree, site, settings);
};
const figures = (written: Written = {}): LeanSafety => {
  const safety = found(written);
  if (typeof safety !== 'object') throw new Error(safety ?? 'no lean');
  return safety;
};
const sign = (written: Written) => signsOf(context(written)).find(({ kind }) => kind === 'lean')!;

const contains = (outer: Interval, inner: Interval) =>
  outer.low <= inner.low * (1 + 1e-6) && outer.high >= inner.high * (1 - 1e-6);

describe('a leaning tree', () => {
  it('has no figure where one is missing, and says which', () => {
    expect(found({ species: 'Washingtonia robusta' })).toMatch(/species, dbh, height and crown/);
    expect(found({ crown: 'from 4 m' })).toMatch(/crown/);
    expect(found({ dbh: '80 cm, 60 cm' })).toMatch(/forked/);
    expect(found({ lean: '61 deg, steady' })).toMatch(/60 degrees/);
    expect(found({ more: '  vigor dead\n' })).toMatch(/dead/);
  });

  it('that moves is moving whatever the figures', () => {
    for (const course of ['new', 'increasing'])
      expect(sign({ lean: `1 deg, ${course}`, height: '8 m', crown: 'from 3 m, 4 m wide' }).standing).toBe(
        'moving',
      );
  });

  it('is blamed only for what the lean changes', () => {
    // Stout, so that upright it bears the wind at any value.
    const stout = { dbh: '85 cm', height: '16 m' };
    expect(sign({ ...stout, lean: '6 deg, steady' }).standing).toBe('within');
    const steep = sign({ ...stout, lean: '34 deg, steady' });
    expect(steep.standing).toBe('may exceed');
    expect(steep.why).toContain('toward the lean');
    expect(steep.why).toContain('gusts');
    // Slender: upright nobody could be sure of it either.
    const slender = sign({ dbh: '60 cm', lean: '12 deg, steady' });
    expect(slender.standing).toBe('within');
    expect(slender.why).toContain('an upright stem would be uncertain too');
    // So slender that it would not stand upright: a figure is wrong.
    const wrong = sign({ dbh: '15 cm', height: '24 m', lean: '12 deg, steady' });
    expect(wrong.standing).toBe('not judged');
    expect(wrong.why).toContain('may be wrong');
  });

  it('is judged by its weight where no wind is on record', () => {
    const { wind, weight, part } = figures({ wind: 'region US-OR' });
    expect(wind).toBeUndefined();
    expect(weight.value.high).toBeGreaterThan(weight.value.low);
    expect(part.judgedBy).toBe('its own weight');
    // An upper end beyond the limit: the mass of the crown decides.
    const heavy = figures({ lean: '39 deg, steady', dbh: '50 cm', wind: 'region US-OR' });
    expect(heavy.weight.standing).toBe('may exceed');
    expect(heavy.part.weak).toContain('sustained strength');
  });

  it('bears less over a hill, in more wind, and in an exposure nobody stated', () => {
    const flat = figures().wind!.judged.value;
    const low = (written: Written) => figures(written).wind!.judged.value.low;
    expect(low({ more: '  hill ridge, 30 m high, half-length 100 m, at crest\n' })).toBeLessThan(flat.low);
    expect(low({ more: '  wind-factor 1.2 "edge"\n' })).toBeLessThan(flat.low);
    // Shelter is not credited.
    expect(low({ more: '  wind-factor 0.7 "behind the barn"\n' })).toBe(flat.low);
    expect(contains(figures({ wind: 'wind 40 m/s' }).wind!.judged.value, flat)).toBe(true);
    expect(
      contains(
        figures({ more: '  hill ridge, 30 m high, half-length unseen, at crest\n' }).wind!.judged.value,
        figures({ more: '  hill ridge, 30 m high, half-length 100 m, at crest\n' }).wind!.judged.value,
      ),
    ).toBe(true);
    // On flat ground below the hill of its site.
    const site = 'wind 40 m/s, exposure C\n  hill ridge, 30 m high, half-length 100 m, at crest';
    expect(low({ wind: site })).toBeLessThan(flat.low);
    expect(low({ wind: site, more: '  hill flat ground\n' })).toBe(flat.low);
  });

  it('names a computed gust and a hill as weak ground', () => {
    const { part } = figures({
      wind: 'wind 26 m/s, exposure C, ten-minute mean\n  hill ridge, 30 m high, half-length 100 m, at crest',
    });
    expect(part.weak).toEqual(expect.arrayContaining(['mean wind', 'hill']));
  });

  it('gets worse the more it leans, whatever the tree', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 20, max: 150 }),
        fc.integer({ min: 8, max: 30 }),
        fc.integer({ min: 0, max: 50 }),
        fc.integer({ min: 1, max: 10 }),
        (dbh, height, lean, more) => {
          const size = { dbh: `${dbh} cm`, height: `${height} m`, crown: 'from 3 m, 6 m wide' };
          const one = figures({ ...size, lean: `${lean} deg, steady` });
          const other = figures({ ...size, lean: `${lean + more} deg, steady` });
          expect(other.weight.value.high).toBeGreaterThan(one.weight.value.high);
          expect(other.wind!.judged.value.low).toBeLessThanOrEqual(one.wind!.judged.value.low);
          expect(other.wind!.against.high).toBeGreaterThan(one.wind!.against.high);
          expect(one.wind!.judged.value.high).toBeLessThanOrEqual(one.wind!.against.high);
        },
      ),
      { numRuns: SAMPLES },
    );
  });

  it('has bounds that contain every value of its readings', () => {
    const between = (low: number, high: number) =>
      fc.tuple(fc.integer({ min: low, max: high }), fc.integer({ min: 0, max: 6 }));
    fc.assert(
      fc.property(
        between(40, 120),
        between(10, 25),
        between(5, 35),
        between(6, 12),
        fc.tuple(fc.nat({ max: 6 }), fc.nat({ max: 6 }), fc.nat({ max: 6 }), fc.nat({ max: 6 })),
        (dbh, height, lean, spread, at) => {
          const range = ([low, width]: readonly [number, number]) => `${low}..${low + width}`;
          const one = ([low, width]: readonly [number, number], i: number) =>
            `${low + Math.min(width, at[i]!)}`;
          const written = (of: (reading: readonly [number, number], i: number) => string) => ({
            dbh: `${of(dbh, 0)} cm`,
            height: `${of(height, 1)} m`,
            lean: `${of(lean, 2)} deg, steady`,
            crown: `from 3 m, ${of(spread, 3)} m wide`,
          });
          const wide = figures(written(range));
          const narrow = figures(written(one));
          expect(contains(wide.weight.value, narrow.weight.value)).toBe(true);
          expect(contains(wide.wind!.judged.value, narrow.wind!.judged.value)).toBe(true);
          expect(contains(wide.wind!.against, narrow.wind!.against)).toBe(true);
        },
      ),
      { numRuns: SAMPLES },
    );
  });

  it('is the same in other units', () => {
    const metric = figures({ dbh: '50 cm', height: '18 m', crown: 'from 3 m, 9 m wide' });
    const feet = (metres: number) => `${metres / 0.3048} ft`;
    const imperial = figures({
      dbh: `${50 / 2.54} in`,
      height: feet(18),
      crown: `from ${feet(3)}, ${feet(9)} wide`,
      wind: `wind ${40 / 0.44704} mph, exposure C`,
    });
    for (const end of ['low', 'high'] as const) {
      expect(imperial.weight.value[end]).toBeCloseTo(metric.weight.value[end], 6);
      expect(imperial.wind!.judged.value[end]).toBeCloseTo(metric.wind!.judged.value[end], 6);
    }
  });
});
