/** Distances to electric lines by the rows of each place: beyond a row is found, within it is not. */

import { describe, expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';

const PEOPLE = `
person DO "Dell Okafor"
  qualified line clearance

person LS "Lena Sand"
  qualified line clearance

person PS "Pia Santoro"
  qualified trainee

crew ROPE "Rope crew"
  members DO, PS
  qualified climbing arborist

crew LINE "Line crew"
  members DO, LS
  qualified line clearance

crew ONE "One trimmer"
  members DO
  qualified line clearance

crew LEARN "Trimmer and trainee"
  members DO, PS
  qualified line clearance

crew SAFE "Instructed crew"
  members DO, LS
  qualified electrically instructed

crew CRANE "Crane crew"
  members DO, LS
  qualified line clearance, crane operator
  crane 6000 lb at 60 ft
`;

interface Case {
  readonly line: string;
  readonly crew?: string;
  readonly work?: string;
  readonly site?: string;
  readonly tree?: string;
}

/** What the rules about lines say of one tree. */
function said(
  region: string,
  { line, crew = 'ROPE', work = 'reduce', site = '', tree = 'height 12 m' }: Case,
): readonly { readonly rule: string; readonly level: string; readonly message: string }[] {
  const list = (text: string, by: string) =>
    text
      .split(';')
      .filter(Boolean)
      .map(one => `${by}${one.trim()}\n`)
      .join('');
  const [kind, ...rest] = work.split(';');
  const text = `site "Place"\n${region ? `  region ${region}\n` : ''}${list(site, '  ')}${PEOPLE}
tree 1\n${list(tree, '  ')}  conductor "Line"\n${list(line, '    ')}  prescription R1 ${kind}\n    with ${crew}\n${list(rest.join(';'), '    ')}`;
  const file = readFile('place.wood', text);
  return checkWorkspace(buildWorkspace([file]), parseDate('2026-11-30')!)
    .filter(({ rule }) => /conductor|crane/.test(rule))
    .map(({ rule, level, message }) => ({ rule, level, message }));
}

const levels = (region: string, given: Case, rule: string): readonly string[] =>
  said(region, given)
    .filter(one => one.rule === rule)
    .map(({ level }) => level);

describe('people without a qualification', () => {
  // Region, line, a distance that is too near and one that is not; the force that the finding prints.
  test.each([
    ['US', '12.5 kV', '9.9 ft', '10 ft', 'law'],
    ['US-OR', '115 kV to ground', '12.3 ft', '12.4 ft', 'law'],
    ['US-TX', '12.5 kV', '9.9 ft', '10 ft', 'law'],
    ['CA-BC', '138 kV between phases', '4.4 m', '4.5 m', 'partly from memory'],
    ['CA-AB', '69 kV between phases', '3.4 m', '3.5 m', 'law'],
    ['CA-AB', '25 kV between phases', '2.9 m', '3 m', 'law'],
    ['CA-QC', '120 kV between phases', '2.9 m', '3 m', 'law'],
    ['CA-QC', '735 kV between phases', '11.9 m', '12 m', 'law'],
    ['CA-ON', '230 kV between phases', '4.4 m', '4.5 m', 'second-hand'],
    ['GB', '11 kV between phases', '9.9 m', '10 m', 'guidance'],
    ['GB-SCT', '11 kV between phases', '9.9 m', '10 m', 'guidance'],
    ['DE', '400 V between phases', '0.9 m', '1 m', 'law'],
    ['DE-BY', '20 kV between phases', '2.9 m', '3 m', 'law'],
    ['AT', '20 kV between phases', '2.9 m', '3 m', 'guidance'],
    ['BE', '70 kV between phases', '3.1 m', '3.2 m', 'law'],
    ['FR', '20 kV between phases', '2.9 m', '3 m', 'law'],
    ['FR', '63 kV between phases', '4.9 m', '5 m', 'law'],
    ['ES', '88 kV between phases', '3.9 m', '4 m', 'law'],
    ['IT', '15 kV between phases', '3.4 m', '3.5 m', 'law'],
    ['IT', '400 V between phases', '2.9 m', '3 m', 'law'],
    ['AU-SA', '132 kV between phases', '4.9 m', '5 m', 'law'],
    ['AU-NSW', '220 kV between phases', '5.9 m', '6 m', 'from memory'],
    ['AU-QLD', '11 kV between phases', '2.9 m', '3 m', 'partly from memory'],
    ['NZ', '11 kV between phases', '3.9 m', '4 m', 'law'],
    ['ZA', '11 kV between phases', '3.9 m', '4 m', 'stand-in'],
    ['BR', '66 kV between phases', '5.9 m', '6 m', 'stand-in'],
    ['', '11 kV between phases', '3.9 m', '4 m', 'stand-in'],
  ])('%s at %s: %s is found, %s is not', (region, voltage, near, far, force) => {
    const at = (distance: string) =>
      said(region, { line: `voltage ${voltage}; distance ${distance}` }).filter(
        ({ rule }) => rule === 'conductor-distance',
      );
    expect(at(near).map(({ level }) => level)).toEqual(['error']);
    expect(at(near)[0]!.message).toContain(force);
    expect(at(far)).toEqual([]);
  });

  test.each([
    ['AU-WA', '3 m'],
    ['AU-VIC', '3 m'],
    ['PL', '5 m'],
  ])('in %s the distance to the side counts, and nothing above the line is far enough', (region, aside) => {
    const at = (line: string, tree = 'height 12 m') =>
      levels(region, { line: `voltage 11 kV between phases; ${line}`, tree }, 'conductor-distance');
    // The crown rises above the line: 8 m away may be straight above it.
    expect(at('distance 8 m; height 10 m', 'height 20 m')).toEqual(['warning']);
    expect(at(`distance 8 m; height 10 m; aside ${aside}`, 'height 20 m')).toEqual([]);
    expect(at('distance 8 m; height 10 m; aside 2.9 m', 'height 20 m')).toEqual(['error']);
    expect(at('distance 30 m; height 10 m', 'height 20 m')).toEqual([]);
  });

  test('under the line: free in Western Australia, not in Victoria and Poland', () => {
    const below = {
      line: 'voltage 11 kV between phases; distance 6 m; aside 1 m; height 9 m',
      tree: 'height 2 m',
    };
    expect(levels('AU-WA', below, 'conductor-distance')).toEqual([]);
    expect(levels('AU-VIC', below, 'conductor-distance')).toEqual(['error']);
    expect(levels('PL', below, 'conductor-distance')).toEqual(['error']);
  });

  test('an unknown voltage takes the worst of the pack', () => {
    for (const [region, worst] of [
      ['DE', '5 m'],
      ['CA-AB', '7 m'],
      ['FR', '5 m'],
      ['IT', '7 m'],
      ['NZ', '4 m'],
      ['GB', '10 m'],
      ['AU-WA', '6 m'],
      ['CA-QC', '12 m'],
      ['US', '34 ft'],
    ] as const) {
      const near = `${Number.parseFloat(worst) - 0.1} ${worst.split(' ')[1]}`;
      const tree = 'height 1 m';
      const at = (distance: string) =>
        levels(region, { line: `distance ${distance}; aside ${distance}`, tree }, 'conductor-distance');
      expect(at(near), region).toEqual(['error']);
      expect(at(worst), region).toEqual([]);
    }
  });

  test('what voltage is between counts, and not stated the stricter', () => {
    const at = (voltage: string) =>
      levels('US', { line: `voltage ${voltage}; distance 10.1 ft` }, 'conductor-distance');
    expect(at('69 kV to ground')).toEqual(['error']);
    expect(at('69 kV')).toEqual(['error']);
    expect(at('69 kV between phases')).toEqual([]);
    // 23 kV to ground are 40 kV between phases.
    const italy = (voltage: string) =>
      levels('IT', { line: `voltage ${voltage}; distance 4 m` }, 'conductor-distance');
    expect(italy('23 kV to ground')).toEqual(['error']);
    expect(italy('23 kV between phases')).toEqual([]);
    expect(italy('23 kV')).toEqual(['warning']);
  });

  test('a piece counts as well as the person, in full where the law says so', () => {
    const felling = (region: string, piece: string) =>
      levels(
        region,
        {
          line: 'voltage 11 kV between phases; distance 5 m',
          work: `fell; piece ${piece}`,
        },
        'conductor-distance',
      );
    expect(felling('DE', '1.5 m')).toEqual([]);
    expect(felling('DE', '2.5 m')).toEqual(['warning']);
    expect(felling('AU-QLD', '1.5 m')).toEqual([]);
    expect(felling('AU-QLD', '2.5 m')).toEqual(['error']);
  });

  test('the written leave of the owner counts where the law leaves it to the owner, and nowhere else', () => {
    const line = 'voltage 11 kV between phases; distance 3.5 m; agreed 3 m "letter of the owner"';
    expect(levels('NZ', { line }, 'conductor-distance')).toEqual([]);
    expect(levels('ZA', { line }, 'conductor-distance')).toEqual([]);
    expect(levels('AU-WA', { line: line.replace('3.5', '2') }, 'conductor-distance')).toEqual(['error']);
    expect(levels('US', { line: line.replace('3.5', '2.9') }, 'conductor-distance')).toEqual(['error']);
  });
});

describe('qualified crews', () => {
  const RULE = 'conductor-minimum-distance';
  const crew = 'LINE';

  test('A1: a line clearance crew at 1 ft from 12.5 kV is an error', () => {
    const line = (distance: string) => `voltage 12.5 kV between phases; phases one; distance ${distance}`;
    const site = 'altitude 200 m';
    expect(levels('US', { line: line('1 ft'), crew, site }, RULE)).toEqual(['error']);
    expect(levels('US-OR', { line: line('0.64 m'), crew, site }, RULE)).toEqual(['error']);
    expect(levels('US-WA', { line: line('0.65 m'), crew, site }, RULE)).toEqual([]);
    expect(
      said('US', { line: line('1 ft'), crew, site }).find(({ rule }) => rule === RULE)!.message,
    ).toContain('table R-6, law');
  });

  test('several phases, thin air and what is not stated ask for more', () => {
    const at = (line: string, site: string) =>
      levels('US', { line: `voltage 12.5 kV between phases; ${line}`, crew, site }, RULE);
    expect(at('phases one; distance 0.66 m', 'altitude 200 m')).toEqual([]);
    expect(at('phases several; distance 0.66 m', 'altitude 200 m')).toEqual(['error']);
    expect(at('distance 0.66 m', 'altitude 200 m')).toEqual(['warning']);
    expect(at('phases one; distance 0.66 m', 'altitude 1500 m')).toEqual(['error']);
    expect(at('phases one; distance 0.66 m', '')).toEqual(['warning']);
  });

  test('a class counts where the place has it; an unknown class is anyone', () => {
    const at = (region: string, by: string, distance: string) =>
      levels(region, { line: `voltage 20 kV between phases; distance ${distance}`, crew: by }, RULE);
    expect(at('DE', 'SAFE', '1.4 m')).toEqual(['error']);
    expect(at('DE', 'SAFE', '1.5 m')).toEqual([]);
    expect(at('ES', 'SAFE', '1.2 m')).toEqual(['error']);
    expect(at('ES', 'SAFE', '1.3 m')).toEqual([]);
    for (const region of ['DE', 'FR', 'IT', 'CA-AB', 'AU-SA'])
      expect(at(region, 'LINE', '2 m'), region).toEqual(['error']);
    // Guidance for everybody, and the stand-in, warn.
    for (const region of ['GB', 'AT', 'BR']) expect(at(region, 'LINE', '2 m'), region).toEqual(['warning']);
    expect(at('DE', 'LINE', '3 m')).toEqual([]);
  });

  test('utility clearances are no working distance', () => {
    // Trees may stand 4 ft from a line of 12 kV in California, and 1.6 m from 11 kV in New Zealand.
    expect(levels('US-CA', { line: 'voltage 12 kV; distance 4 ft' }, 'conductor-distance')).toEqual([
      'error',
    ]);
    expect(levels('NZ', { line: 'voltage 11 kV between phases; distance 1.6 m', crew }, RULE)).toEqual([
      'error',
    ]);
  });
});

describe('B1: a second worker', () => {
  const RULE = 'conductor-second-worker';
  test.each([
    ['US', '700 V', '6 ft', []],
    ['US', '800 V', '6 ft', ['error']],
    ['US', '800 V', '10 ft', []],
    ['US-OR', '700 V', '6 ft', ['error']],
    ['US-WA', '700 V', '6 ft', ['error']],
    ['US-WA', '600 V', '6 ft', []],
    ['US-CA', '12 kV', '20 ft', ['error']],
    ['DE', '20 kV', '4 m', []],
  ])('in %s at %s and %s', (region, voltage, distance, found) => {
    const given = { line: `voltage ${voltage}; distance ${distance}`, crew: 'ONE' };
    expect(levels(region, given, RULE)).toEqual(found);
    expect(levels(region, { ...given, crew: 'LINE' }, RULE)).toEqual([]);
  });

  test('a trainee will do in California alone', () => {
    const given = { line: 'voltage 12 kV; distance 6 ft', crew: 'LEARN' };
    expect(levels('US-OR', given, RULE)).toEqual(['error']);
    // The federal row binds in California as well.
    expect(levels('US-CA', { ...given, line: 'voltage 12 kV; distance 20 ft' }, RULE)).toEqual([]);
  });

  test('B4: in Virginia above 12 ft, near lines or not', () => {
    const given = { line: 'voltage 240 V; distance 30 m', crew: 'ONE' };
    expect(levels('US-VA', { ...given, tree: 'height 13 ft' }, RULE)).toEqual(['warning']);
    expect(levels('US-VA', { ...given, tree: 'height 12 ft' }, RULE)).toEqual([]);
    expect(levels('US-MD', { ...given, tree: 'height 13 ft' }, RULE)).toEqual([]);
  });
});

describe('B2: a crane near a line', () => {
  const at = (region: string, voltage: string, distance: string) =>
    said(region, {
      line: `voltage ${voltage}; distance ${distance}`,
      crew: 'CRANE',
      work: 'fell; takedown by crane',
    }).filter(({ rule }) => rule === 'crane-near-conductor');

  test('29 CFR 1910.333 binds, table A is the safer practice', () => {
    expect(at('US', '12.5 kV', '9 ft').map(({ level }) => level)).toEqual(['error']);
    expect(at('US', '12.5 kV', '9 ft')[0]!.message).toContain('1910.333(c)(3)(iii)');
    const wider = at('US', '115 kV between phases', '14 ft');
    expect(wider.map(({ level }) => level)).toEqual(['warning']);
    expect(wider[0]!.message).toMatch(/1926\.1408.*guidance.*safer practice/);
    expect(at('US', '115 kV between phases', '15 ft')).toEqual([]);
  });

  test('elsewhere a machine keeps the distance of everybody', () => {
    expect(at('CA-QC', '25 kV between phases', '2.9 m').map(({ level }) => level)).toEqual(['error']);
    expect(at('CA-QC', '25 kV between phases', '3 m')).toEqual([]);
  });
});
