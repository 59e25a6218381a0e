import { describe, expect, it } from 'vitest';
import { expiredCertificate, qualifiedOn } from '../../server/assess/qualifications.ts';
import { parseDate } from '../../server/base/dates.ts';
import { dayContext } from './inventory.ts';

const day = (text: string): number => parseDate(text)!;

const personWith = (...lines: readonly string[]) =>
  dayContext(`person DO "Dell Okafor"\n${lines.map(line => `  ${line}\n`).join('')}\ntree 1\n`).person('DO')!;

describe('a qualification', () => {
  const dell = personWith(
    'qualified line clearance, crane operator',
    'certificate "line clearance 0452", until 2026-12-31',
    'certificate "crane 7731", until 2026-03-31',
  );

  it('is valid up to the last day of the certificate that names it', () => {
    expect(qualifiedOn(dell, 'line clearance', day('2026-12-31'))).toBe(true);
    expect(qualifiedOn(dell, 'line clearance', day('2027-01-01'))).toBe(false);
    expect(qualifiedOn(dell, 'crane operator', day('2026-03-31'))).toBe(true);
    expect(expiredCertificate(dell, 'crane operator', day('2026-04-01'))?.number).toBe('crane 7731');
  });

  it('that nobody stated is none, whatever the certificates say', () => {
    expect(qualifiedOn(dell, 'remote pilot', day('2026-06-01'))).toBe(false);
    const pilot = personWith('qualified trainee', 'certificate "remote pilot 4417", until 2027-05-31');
    expect(qualifiedOn(pilot, 'remote pilot', day('2026-06-01'))).toBe(false);
  });

  it('without a certificate, or with one that has no end, does not expire', () => {
    for (const more of [[], ['certificate "line clearance 0452"']])
      expect(
        qualifiedOn(personWith('qualified line clearance', ...more), 'line clearance', day('2099-01-01')),
      ).toBe(true);
  });

  it('is valid by any of its certificates; of expired ones the last counts', () => {
    const twice = personWith(
      'qualified line clearance',
      'certificate "line clearance 1", until 2025-12-31',
      'certificate "line clearance 2", until 2026-12-31',
    );
    expect(qualifiedOn(twice, 'line clearance', day('2026-06-01'))).toBe(true);
    expect(expiredCertificate(twice, 'line clearance', day('2027-01-01'))?.number).toBe('line clearance 2');
  });
});
