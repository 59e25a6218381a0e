/** Names of the mistakes of the notation: they read like rules in a finding, but are none. */

import type { MistakeCode } from '../../grammar/syntax.ts';

/** The compiler holds this list complete. */
const codes: Readonly<Record<MistakeCode, true>> = {
  'unclosed-quote': true,
  'stray-mark': true,
  'bad-date': true,
  'bad-range': true,
  'unknown-unit': true,
  'missing-unit': true,
  'wrong-unit': true,
  'unknown-word': true,
  unexpected: true,
  incomplete: true,
  'out-of-place': true,
  'merge-conflict': true,
  'not-text': true,
  'line-too-long': true,
};

export const isMistakeCode = (name: string): boolean => Object.hasOwn(codes, name);
