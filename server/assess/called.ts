/** Names in sentences. */

import { UNREAD } from '../facts/placed.ts';

/** `"Pavement"`, or `the target here` if its line is damaged. */
export const called = (what: string, { value }: { readonly value: string }): string =>
  value === UNREAD ? `the ${what} here` : `"${value}"`;
