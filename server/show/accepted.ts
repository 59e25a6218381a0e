/** An accepted finding in one sentence: who accepted it, until when, and why. */

import { formatDate } from '../base/dates.ts';
import type { Finding } from '../rules/check.ts';
import { longDate, type RegionCode } from './long-date.ts';

/** @param region of the reader; for programs none */
export const acceptedWords = (
  { by, until, because }: NonNullable<Finding['accepted']>,
  region?: RegionCode,
): string => `Accepted by ${by} until ${region ? longDate(until, region) : formatDate(until)}: ${because}`;
