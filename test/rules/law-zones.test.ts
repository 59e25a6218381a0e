/** The zone around a felling by the rows of each place: a narrower one is found, one as wide is not. */

import { describe, expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';

interface Felling {
  readonly exclusion?: string;
  readonly target?: string;
  readonly piece?: string;
  /** Lines of a practice block, if any. */
  readonly office?: string;
}

function said(region: string, { exclusion, target = '20 m', piece, office }: Felling, of: RegExp) {
  const practice = office
    ? `practice "Office limits"\n  limit exclusion-ratio ${office}\n    because "walled yards"\n\n`
    : '';
  const stated = [exclusion && `exclusion ${exclusion}`, piece && `piece ${piece}`].filter(Boolean);
  const text = `site "Place"\n${region ? `  region ${region}\n` : ''}\n${practice}tree 1
  height 20 m
  crown from 4 m, 8 m wide
  target "Path"
    distance ${target}
    kind people
    occupied frequent
  prescription R1 fell\n${stated.map(line => `    ${line}\n`).join('')}`;
  return checkWorkspace(buildWorkspace([readFile('place.wood', text)]), parseDate('2026-11-30')!).filter(
    ({ rule }) => of.test(rule),
  );
}

const ZONE = /^work-over-target-without-exclusion$/;

describe('A2, A3: everybody but the feller is two tree heights away', () => {
  test.each<readonly [string, string]>([
    ['US', 'law for logging, partly from memory'],
    ['US-WA', 'WAC 296-54-539(1) and (3), law for logging'],
    ['US-MI', 'R 408.15336(2), law'],
    ['DE', 'VSG 4.3 § 5(2), law'],
    ['DE-BY', 'VSG 4.3 § 5(2), law'],
    ['GB', 'guidance, from memory'],
    ['GB-SCT', 'guidance, from memory'],
    ...[
      'CA-BC',
      'CA-ON',
      'CA-QC',
      'AU-NSW',
      'AU-QLD',
      'AU-VIC',
      'NZ',
      'FR',
      'ES',
      'IT',
      'PL',
      'SE',
      'DK',
      'NL',
      'BE',
      'AT',
      'CH',
      'IE',
      'ZA',
      'SG',
      'HK',
      'BR',
      '',
    ].map((region): readonly [string, string] => [region, 'common practice']),
  ])('in %s (%s)', (region, source) => {
    const [finding, ...more] = said(region, { exclusion: '39 m' }, ZONE);
    expect(more).toEqual([]);
    expect(finding).toMatchObject({ level: 'error' });
    expect(finding!.message).toContain(`the height times 2, `);
    expect(finding!.message).toContain(source);
    expect(said(region, { exclusion: '40 m' }, ZONE)).toEqual([]);
  });

  test('a path farther away than the tree is tall is inside the zone', () => {
    expect(said('DE', { target: '39 m' }, ZONE)).toHaveLength(1);
    expect(said('DE', { target: '41 m' }, ZONE)).toEqual([]);
  });

  test('the office may narrow it with a reason, no further than the tree is tall, but not what is law', () => {
    for (const region of ['US', 'GB', 'NZ', 'FR', '']) {
      expect(said(region, { exclusion: '30 m', office: '1.5' }, ZONE), region).toEqual([]);
      expect(said(region, { exclusion: '29 m', office: '1.5' }, ZONE), region).toHaveLength(1);
      expect(said(region, { exclusion: '30 m', office: '0.9' }, ZONE), region).toHaveLength(1);
    }
    for (const region of ['US-MI', 'DE']) {
      expect(said(region, { exclusion: '30 m', office: '1.5' }, ZONE), region).toHaveLength(1);
      expect(said(region, { office: '1.5' }, /^limit-loosened$/)[0], region).toMatchObject({
        level: 'error',
      });
    }
  });

  test('in pieces the crown and the longest piece count; guidance on what is beyond is told', () => {
    expect(said('US', { exclusion: '4 m', piece: '2 m' }, ZONE)).toEqual([]);
    const [finding] = said('US', { exclusion: '3 m', piece: '2 m', target: '2 m' }, ZONE);
    expect(finding!.remedy).toMatch(/6\.1 m beyond it \(.*guidance/);
    expect(said('DE', { exclusion: '3 m', piece: '2 m', target: '2 m' }, ZONE)[0]!.remedy).not.toContain(
      'beyond it',
    );
  });
});
