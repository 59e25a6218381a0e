/** Explanations of the mistakes of the notation, for `explain`. */

import type { MistakeCode } from '../../grammar/syntax.ts';

export const MISTAKES: Readonly<Record<MistakeCode, string>> = {
  'unclosed-quote':
    'A text begins with a quotation mark and has to end with one on the same line; a quotation mark inside it is written twice.',
  'stray-mark': 'A mark stands outside a text that the notation has no use for.',
  'bad-date':
    'A date is written as 2026-03-14, a day of any year as 03-14, and has to be a day of the calendar; of a window the earlier end stands first.',
  'bad-range':
    'A range is written with two dots, the smaller value first and both of the same kind: 2..4 in.',
  'unknown-unit':
    'A number is followed by a word that is no unit of the notation; what people also say (inches) has one form here (in).',
  'missing-unit': 'A size, weight, share, angle, speed, voltage or time has no meaning without its unit.',
  'wrong-unit': 'The unit belongs to another kind of quantity than the one that is asked for here.',
  'unknown-word': 'A line begins with a word, or has one in a place, that the notation does not know there.',
  unexpected: 'Something else should stand at this place; the message says what.',
  incomplete: 'The line ends before everything is said that it needs.',
  'out-of-place': 'A field or a head stands under a head that it does not belong to.',
  'merge-conflict': 'Git left both versions of a change in the file, with its marker lines.',
  'not-text': 'The file holds a character that is not text: it was damaged, or is no inventory.',
  'line-too-long': 'A line is longer than any record needs; the file is damaged, or is no inventory.',
};
