/** Names in sentences. */

import { UNREAD } from '../facts/placed.ts';
import type { Crew } from '../facts/types.ts';

/** `"Pavement"`, or `the target here` if its line is damaged. */
export const called = (what: string, { value }: { readonly value: string }): string =>
  value === UNREAD ? `the ${what} here` : `"${value}"`;

/** `Climbing gang (CLIMB)`; `crew CLIMB` without a record that names it. */
export const crewCalled = (id: string, crew: Crew | undefined): string =>
  crew && crew.name.value !== UNREAD ? `${crew.name.value} (${id})` : `crew ${id}`;
