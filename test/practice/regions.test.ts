import { describe, expect, it } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { inWindow } from '../../server/base/yearly-window.ts';
import type { ClosedSeason, RegionPack } from '../../server/practice/region-pack.ts';
import { regionPack, regionPacks } from '../../server/practice/regions.ts';
import { lookupGenus } from '../../server/practice/species.ts';

/** By the platform's calendar. */
const dayNumber = (year: number, month: number, day: number): number =>
  Date.UTC(year, month - 1, day) / 86_400_000;

const seasonsOf = (pack: RegionPack): readonly ClosedSeason[] =>
  [
    pack.nesting,
    pack.raptorNesting,
    pack.batMaternity,
    pack.eagleNesting,
    pack.batTrees,
    ...pack.pruning,
  ].filter(season => season !== undefined);

describe('region packs', () => {
  it('fall back from the state to the country to what holds everywhere, and say so', () => {
    expect(regionPack('US-OR')).toMatchObject({ applied: 'exact', pack: { code: 'US-OR', name: 'Oregon' } });
    expect(regionPack('us-or').pack.code).toBe('US-OR');
    expect(regionPack('US-NV')).toMatchObject({
      requested: 'US-NV',
      applied: 'country',
      pack: { code: 'US' },
    });
    expect(regionPack('GB-ENG')).toMatchObject({ applied: 'exact', pack: { name: 'England' } });
    expect(regionPack('JP-13')).toMatchObject({ applied: 'none', pack: { code: 'JP-13', statutes: [] } });
    expect(regionPack('JP-13').pack.nesting).toBeUndefined();
    expect(regionPack(undefined)).toMatchObject({ requested: undefined, applied: 'unstated' });
    expect(regionPack('')).toMatchObject({ applied: 'unstated' });
  });

  it('tell Canada from California', () => {
    expect(regionPack('CA').pack.name).toBe('Canada');
    expect(regionPack('CA-NS').pack.name).toBe('Canada');
    expect(regionPack('US-CA').pack.name).toBe('California');
  });

  it('have unique ISO codes and dates that exist', () => {
    expect(new Set(regionPacks.map(({ code }) => code)).size).toBe(regionPacks.length);
    for (const pack of regionPacks) {
      expect(pack.code).toMatch(/^[A-Z]{2}(-[A-Z]{2,3}|-\d+)?$/);
      for (const { window } of seasonsOf(pack)) {
        for (const { month, day } of [window.from, window.to]) {
          const date = new Date(Date.UTC(2000, month - 1, day));
          expect([date.getUTCMonth() + 1, date.getUTCDate()]).toEqual([month, day]);
        }
      }
    }
  });

  it('name only genera that the species table knows', () => {
    for (const pack of regionPacks) {
      for (const { genera, pest } of pack.pruning) {
        for (const genus of genera) {
          const known = lookupGenus(genus);
          if (known) expect(known.hostOf, `${genus}, ${pest}`).toContain(pest);
        }
      }
    }
  });

  it('keep federal law in every state', () => {
    const federal = regionPack('US').pack.statutes.map(({ citation }) => citation.short);
    expect(federal).toContain('Migratory Bird Treaty Act');
    for (const pack of regionPacks.filter(({ code }) => code.startsWith('US-'))) {
      expect(pack.statutes.map(({ citation }) => citation.short)).toEqual(expect.arrayContaining(federal));
    }
  });

  it('open the nesting season on its first day, south of the equator across the year’s end', () => {
    const oregon = regionPack('US-OR').pack.nesting!.window;
    expect(inWindow(dayNumber(2026, 1, 31), oregon)).toBe(false);
    expect(inWindow(dayNumber(2026, 2, 1), oregon)).toBe(true);
    expect(inWindow(dayNumber(2026, 8, 31), oregon)).toBe(true);
    expect(inWindow(dayNumber(2026, 9, 15), oregon)).toBe(false);
    const australia = regionPack('AU-VIC').pack.nesting!.window;
    expect(inWindow(dayNumber(2026, 12, 31), australia)).toBe(true);
    expect(inWindow(dayNumber(2026, 6, 15), australia)).toBe(false);
    const southAfrica = regionPack('ZA').pack.nesting!.window;
    expect(inWindow(dayNumber(2026, 10, 15), southAfrica)).toBe(true);
    expect(inWindow(dayNumber(2026, 5, 15), southAfrica)).toBe(false);
  });

  it('close oaks where oak wilt is, and only oaks', () => {
    const pestsOf = (code: string, genus: string) =>
      regionPack(code)
        .pack.pruning.filter(({ genera }) => genera.includes(genus))
        .map(({ pest }) => pest);
    expect(pestsOf('US-MN', 'Quercus')).toEqual(['oak wilt']);
    expect(pestsOf('US-MN', 'Acer')).toEqual([]);
    expect(pestsOf('US-OR', 'Quercus')).toEqual([]);
    expect(pestsOf('US-OR', 'Ulmus')).toEqual(['Dutch elm disease']);
  });

  it('measure at the height of the place', () => {
    const height = (code: string) => regionPack(code).pack.breastHeight.value;
    expect([height('US-TX'), height('GB'), height('AU'), height('FR')]).toEqual([1.3716, 1.5, 1.4, 1.3]);
    expect(1.3716 / 0.3048).toBeCloseTo(4.5, 12);
  });

  it('has the rows of the day', () => {
    const approachOn = (on: string) => regionPack('FR', parseDate(on)!).pack.approach;
    expect(approachOn('2024-12-18').citation.short).toContain('stand-in');
    expect(approachOn('2024-12-19').citation.short).toContain('R4544');
    expect(regionPack('FR', parseDate('2024-12-19')!).pack).toBe(
      regionPack('FR', parseDate('2025-03-01')!).pack,
    );
    const zones = (on: string) => regionPack('NZ', parseDate(on)!).pack.rows.map(({ id }) => id);
    expect(zones('2024-10-16')).toContain('nz-line-2');
    expect(zones('2024-10-17')).not.toContain('nz-line-2');
  });
});
