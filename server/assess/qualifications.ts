/** Who may do what on a day: qualifications, and the certificates that say until when. */

import type { Person } from '../facts/types.ts';

/** How the text of a certificate tells which qualification it is for; the first that fits decides. */
const ON_CERTIFICATES: readonly (readonly [qualification: string, RegExp])[] = [
  ['remote pilot', /\bremote pilot\b|\bdrones?\b/i],
  ['line clearance', /\bline[- ]clearance\b/i],
  ['climbing arborist', /\bclimb(?:ing|ers?)\b/i],
  ['crane operator', /\bcranes?\b/i],
  ['bat worker', /\bbats?\b/i],
  ['wildlife biologist', /\bwildlife\b|\bbiologist\b/i],
  ['ground worker', /\bground work(?:er)?\b/i],
  ['consulting arborist', /\barborist\b|\btree risk\b/i],
];

type Certificate = Person['certificates'][number];

const qualificationOn = (text: string): string | undefined =>
  ON_CERTIFICATES.find(([, pattern]) => pattern.test(text))?.[0];

export const isQualified = ({ qualifications }: Person, qualification: string): boolean =>
  qualifications.some(({ value }) => value === qualification);

/**
 * The certificate for a qualification that had run out by the day, the last one of them; undefined where one
 * still held, its end is not stated, or none is on record for it.
 */
export function expiredCertificate(
  { certificates }: Person,
  qualification: string,
  day: number,
): Certificate | undefined {
  const fitting = certificates.filter(({ number }) => qualificationOn(number) === qualification);
  if (fitting.some(({ until }) => until === undefined || until >= day)) return undefined;
  return fitting.reduce<Certificate | undefined>(
    (last, next) => (last && last.until! >= next.until! ? last : next),
    undefined,
  );
}

/** Qualified, and no certificate for it has run out by the day. */
export const qualifiedOn = (person: Person, qualification: string, day: number): boolean =>
  isQualified(person, qualification) && expiredCertificate(person, qualification, day) === undefined;
