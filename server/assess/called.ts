/** Names for people. */

import { UNREAD } from '../facts/placed.ts';

/** A name as it was written, `"Pavement"`; where its line is damaged, `the target here`. */
export const called = (what: string, { value }: { readonly value: string }): string =>
  value === UNREAD ? `the ${what} here` : `"${value}"`;
