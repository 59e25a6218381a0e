/** Flights by the rows of each place: height, people, night, parks; no law of another country. */

import { describe, expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';

function told(region: string, flown: string, rule: string, site = '  grounds private\n') {
  const text = `site "Somewhere"
  region ${region}
${site}
tree 1
  inspection 2026-05-04 from drone
    flown ${flown}
`;
  const found = checkWorkspace(buildWorkspace([readFile('a.wood', text)]), parseDate('2026-06-01')!);
  expect(found.filter(({ grade }) => grade === 'syntax')).toEqual([]);
  return found.filter(finding => finding.rule === rule);
}

const levels = (...of: Parameters<typeof told>) => told(...of).map(({ level }) => level);

describe('height', () => {
  test.each([
    ['US', '400 ft', '401 ft', 'error'],
    ['US-FL', '400 ft', '401 ft', 'error'],
    ['CA', '400 ft', '401 ft', 'error'],
    ['CA-BC', '121 m', '122 m', 'error'],
    ['DE', '120 m', '121 m', 'error'],
    ['FR-67', '120 m', '121 m', 'error'],
    ['IE', '120 m', '121 m', 'error'],
    ['SE', '120 m', '121 m', 'error'],
    ['CH', '120 m', '121 m', 'error'],
    ['NZ', '120 m', '121 m', 'error'],
    ['GB-ENG', '120 m', '121 m', 'warning'],
    ['AU-SA', '120 m', '121 m', 'warning'],
    ['ZA', '121 m', '122 m', 'warning'],
    ['HK', '90 m', '91 m', 'warning'],
  ])('%s: up to %s, not %s', (region, within, beyond, level) => {
    expect(levels(region, `${within}, permission owner`, 'flight-height')).toEqual([]);
    const [finding] = told(region, `${beyond}, permission owner`, 'flight-height');
    expect(finding?.level).toBe(level);
    if (level === 'warning') expect(finding?.message).toContain('memory');
    if (!region.startsWith('US')) expect(finding?.message).not.toContain('14 CFR');
  });

  test('Singapore counts from the sea', () => {
    expect(levels('SG', '62 m, permission owner', 'flight-height')).toEqual(['warning']);
    expect(levels('SG', '50 m, permission owner', 'flight-height')).toEqual(['note']);
  });

  test('without a row there is no height, and no foreign one', () => {
    expect(levels('BR', '300 m, permission owner', 'flight-height')).toEqual([]);
  });
});

test.each([
  ['US', 'error'],
  ['CA', 'error'],
  ['NZ', 'error'],
  ['DE', 'warning'],
  ['GB', 'warning'],
  ['AU', 'warning'],
  ['ZA', 'warning'],
])('over people in %s: %s', (region, level) => {
  expect(levels(region, '20 m, permission owner, over people', 'flight-over-people')).toEqual([level]);
});

test.each([
  ['CA', '30.4 m', '30.5 m', 'error'],
  ['CA-BC', '99 ft', '100 ft', 'error'],
  ['DE', '29 m', '30 m', 'warning'],
  ['FR', '29 m', '30 m', 'warning'],
  ['CH', '29 m', '30 m', 'warning'],
  ['GB-ENG', '49 m', '50 m', 'warning'],
  ['AU-SA', '29 m', '30 m', 'warning'],
  ['ZA', '49 m', '50 m', 'warning'],
])('to the side of people in %s: %s is found, %s is not', (region, near, far, level) => {
  const at = (distance: string) =>
    levels(region, `20 m, permission owner, ${distance} from people`, 'flight-over-people');
  expect([at(near), at(far)]).toEqual([[level], []]);
});

test('to the side of people where no distance is on record', () => {
  for (const region of ['US', 'US-FL', 'NZ', 'HK', 'BR'])
    expect(levels(region, '20 m, permission owner, 1 m from people', 'flight-over-people')).toEqual([]);
});

test.each([
  ['US', 'error'],
  ['DE', 'error'],
  ['NZ', 'error'],
  ['ZA', 'warning'],
  ['BR', undefined],
])('out of sight in %s: %s', (region, level) => {
  const found = levels(region, '20 m, permission owner, out of sight', 'flight-out-of-sight');
  expect(found).toEqual(level ? [level] : []);
});

test('over people where nothing is on record', () => {
  expect(levels('BR', '20 m, permission owner, over people', 'flight-over-people')).toEqual([]);
  expect(levels('HK', '20 m, permission owner, over people', 'flight-over-people')).toEqual([]);
});

test('at night: a light in the United States, by day only in New Zealand, nothing of it elsewhere', () => {
  const night = (region: string) =>
    told(region, '20 m, permission owner, at night', 'flight-at-night').map(({ message }) => message);
  expect(night('US')[0]).toContain('14 CFR 107.29');
  expect(night('NZ')[0]).toContain('by day only (CAR Part 101)');
  expect(night('DE')).toEqual([]);
});

test('national parks are closed by the law of the United States there alone', () => {
  const park = (region: string) =>
    told(region, '20 m, permission owner', 'flight-park', '  grounds national park\n')[0];
  expect(park('US')?.level).toBe('error');
  expect(park('CA')?.level).toBe('warning');
  expect(park('CA')?.message).not.toContain('CFR');
});

test('controlled airspace asks for leave everywhere', () => {
  const sky = (region: string) =>
    told(region, '20 m, permission owner', 'flight-airspace', '  airspace controlled\n')[0];
  expect(sky('US')?.level).toBe('error');
  expect(sky('DE')?.level).toBe('warning');
  expect(sky('DE')?.message).not.toContain('CFR');
});
