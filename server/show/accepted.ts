/** An accepted finding in one sentence: who accepted it, until when, and why. */

import { formatDate } from '../base/dates.ts';
import type { Finding } from '../rules/check.ts';

export const acceptedWords = ({ by, until, because }: NonNullable<Finding['accepted']>): string =>
  `Accepted by ${by} until ${formatDate(until)}: ${because}`;
