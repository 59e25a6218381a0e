import { expect, test } from 'vitest';
import { droneLaw, dronesNearCrown, flights, isUnderPart107 } from '../../server/assess/flights.ts';
import { treeIn } from './inventory.ts';

const tree = (lines: string) => treeIn(`tree 1\n${lines}`).tree;

test('an inspection from a drone is a flight, written down or not; one from the ground is none', () => {
  const all = flights(
    tree(`  inspection 2026-03-14 from drone
    flown 120 ft
  inspection 2026-03-15 from drone
  inspection 2026-03-16 from ground
`),
  );
  expect(all.map(({ flown }) => flown !== undefined)).toEqual([true, false]);
});

test('a nest check and an inspection of one day are one flight, with the stand-off that was written', () => {
  const near = (lines: string) =>
    dronesNearCrown(tree(lines)).map(
      ({ standOff }) => standOff && Number((standOff.value.low / 0.3048).toFixed(6)),
    );
  const inspection = (more = '') => `  inspection 2026-03-14 from drone\n    flown 120 ft${more}\n`;
  const check = (on: string, more = '') => `  nest check ${on} from drone\n${more}`;
  expect(near(inspection() + check('2026-03-14', '    stand-off 55 ft\n'))).toEqual([55]);
  expect(near(inspection(', 40 ft stand-off') + check('2026-03-14'))).toEqual([40]);
  expect(near(inspection() + check('2026-03-14'))).toEqual([undefined]);
  expect(near(inspection() + check('2026-03-15', '    stand-off 55 ft\n'))).toEqual([55, undefined]);
  expect(near('  nest check 2026-03-14 from ground\n    stand-off 5 ft\n')).toEqual([]);
});

test('the law of the United States holds there, and where no region is stated; elsewhere that of the place', () => {
  const settings = (region: string) => treeIn(`${region}tree 1\n`).settings;
  const site = (region: string) => settings(`site "Court"\n  region ${region}\n\n`);
  expect(isUnderPart107(site('US-OR'))).toBe(true);
  expect(isUnderPart107(settings(''))).toBe(true);
  expect(isUnderPart107(site('DE'))).toBe(false);
  expect(droneLaw(settings(''), 'over')?.authority).toBe('14 CFR 107.39');
  expect(droneLaw(site('DE'), 'height')).toEqual({
    value: 120,
    authority: 'Regulation (EU) 2019/947, UAS.OPEN.010',
  });
  expect(droneLaw(site('DE'), 'over')).toMatchObject({ value: 'by class', level: 'warning' });
  expect(droneLaw(site('AU-SA'), 'over')).toMatchObject({ value: 'never', level: 'warning' });
  expect(droneLaw(site('AU-SA'), 'over')?.authority).toContain('from memory');
  expect(droneLaw(site('NZ'), 'over')).toEqual({ value: 'consent', authority: 'CAR Part 101' });
  expect(droneLaw(site('BR'), 'over')).toBeUndefined();
});
