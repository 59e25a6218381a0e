/** Explanations of the mistakes of the notation, for `explain`. */

import type { MistakeCode } from '../../grammar/syntax.ts';

export const MISTAKES: Readonly<Record<MistakeCode, string>> = {
  'unclosed-quote':
    'A text begins and ends with a quotation mark on the same line; a quotation mark inside it is doubled.',
  'stray-mark': 'A character outside a text that the notation does not use.',
  'bad-date':
    'A date is written 2026-03-14, a day of every year 03-14, and it must exist; a window begins with its earlier end.',
  'bad-range':
    'A range is written with two dots, the smaller value first and both in units of the same quantity: 2..4 in.',
  'unknown-unit':
    'A number is followed by a word that is not a unit of the notation; each unit has one spelling (in, not inches).',
  'missing-unit': 'A size, mass, share, angle, speed, voltage or duration needs a unit.',
  'wrong-unit': 'The unit belongs to a different quantity from the one expected here.',
  'unknown-word': 'A word is not part of the notation, or not at this place.',
  unexpected: 'Something else is expected at this place; the message says what.',
  incomplete: 'The line ends before all its required parts.',
  'out-of-place': 'A field or head is under a head that it does not belong to.',
  'merge-conflict': 'Git left both versions of a change in the file, with its conflict markers.',
  'not-text': 'The file contains a character that is not text: it is damaged, or not an inventory.',
  'line-too-long': 'A line is longer than any record needs: the file is damaged, or not an inventory.',
};
