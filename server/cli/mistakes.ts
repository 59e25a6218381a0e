/** Explanations of the mistakes of the notation, for `explain`. */

import type { MistakeCode } from '../../grammar/syntax.ts';

export const MISTAKES: Readonly<Record<MistakeCode, string>> = {
  'unclosed-quote':
    'Text begins and ends with a quotation mark on the same line. A quotation mark inside it is doubled.',
  'stray-mark': 'A character outside quoted text that the notation does not use.',
  'bad-date':
    'A date is written as 2026-03-14, and a day of every year as 03-14. It must exist, and a window starts with the earlier date.',
  'bad-range':
    'A range is written with two dots, the smaller value first and both in the same kind of unit: 2..4 in.',
  'unknown-unit':
    'The word after a number is not a unit of the notation. Each unit has one spelling (in, not inches).',
  'missing-unit': 'A size, mass, share, angle, speed, voltage or duration needs a unit.',
  'wrong-unit': 'The unit is of a different kind from the one expected here.',
  'unknown-word': 'The word is not part of the notation, or is not allowed here.',
  unexpected: 'Something else is expected here; the message says what.',
  incomplete: 'The line ends before its required parts are complete.',
  'out-of-place': 'A field or head is under a head that it does not belong to.',
  'merge-conflict': 'Git left both versions of a change in the file, with its conflict markers.',
  'not-text': 'The file contains a character that is not text. It is damaged, or not an inventory.',
  'line-too-long': 'The line is longer than any record needs. The file is damaged, or not an inventory.',
};
