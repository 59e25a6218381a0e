/** What a heading says: its words, the meaning that they name, and the unit. */

import { FILLERS, HEADINGS, IN_WORDS, type Language, QUALIFIERS, TRUNK } from './headings.ts';
import { isSize, type Kind, type LengthUnit, unitOfWord, WRITTEN_MEANINGS } from './meanings.ts';
import { memoized } from './text.ts';

/** Letters without marks, in small ones; `Höhe`, `HOEHE` and `hohe` are the same. */
export const folded = (text: string): string =>
  text
    .toLowerCase()
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replaceAll('ß', 'ss')
    .replaceAll('ø', 'o')
    .replace(/([aou])e(?=[b-df-hj-np-tv-z])/g, '$1');

/** Units of length in words that the notation does not know. */
const UNIT_WORDS: ReadonlyMap<string, LengthUnit> = new Map(
  (
    [
      ['m', 'metros metri meters metre metres meter mts mtr'],
      ['cm', 'centimetres centimetre centimeters centimeter centimetros centimetri zentimeter cms'],
      ['mm', 'millimetres millimetre millimeters millimeter millimetros millimetri'],
      ['in', 'inches inch pulgadas pollici pouces zoll duim polegadas'],
      ['ft', 'feet foot pies piedi pieds fuss voet pes'],
    ] as const
  ).flatMap(([unit, words]) => words.split(' ').map(word => [folded(word), unit] as const)),
);

const unitWord = (word: string): LengthUnit | undefined => UNIT_WORDS.get(word) ?? unitOfWord(word);

interface Phrase {
  readonly kind: Kind;
  readonly words: readonly string[];
  readonly language: Language;
}

const phrases: readonly Phrase[] = [
  ...Object.entries(HEADINGS).flatMap(([kind, byLanguage]) =>
    Object.entries(byLanguage).flatMap(([language, all]) =>
      all.split(',').map(phrase => ({
        kind: kind as Kind,
        words: folded(phrase).trim().split(' '),
        language: language as Language,
      })),
    ),
  ),
  // Fields of the notation are headed by their own word.
  ...WRITTEN_MEANINGS.map((kind): Phrase => ({ kind, words: kind.split('-'), language: 'en' })),
];

const setOf = (words: readonly string[]): ReadonlySet<string> => new Set(words.map(folded));
const fillers = setOf(FILLERS);
const trunk = setOf(TRUNK);
const qualifiers = setOf(QUALIFIERS);
const inWords = setOf(IN_WORDS);
const written: ReadonlySet<Kind> = new Set(WRITTEN_MEANINGS);

/** Of tags and keys, so that glued words of them are split as well. */
const OF_KEYS = 'id no nr num number code class tag key name nummer numero numer object'.split(' ');
const vocabulary: ReadonlySet<string> = new Set([
  ...phrases.flatMap(({ words }) => words),
  ...fillers,
  ...trunk,
  ...inWords,
  ...qualifiers,
  ...UNIT_WORDS.keys(),
  ...OF_KEYS,
]);
const prefixed = [...vocabulary].filter(word => word.length > 5);

/** Words that may stand in a glued heading although they are short. */
const SHORT = new Set(['id', 'en', 'in', 'cm', 'mm', 'm', 'ft', 'no', 'nr', 'de', 'ht', 'ou']);

/** `CIRCONFERENCEENCM` → circonference, en, cm; undefined if not all of it are known words. */
function unglued(word: string): readonly string[] | undefined {
  if (word === '' || vocabulary.has(word)) return word === '' ? [] : [word];
  for (let end = word.length - 1; end > 1; end--) {
    const first = word.slice(0, end);
    if (!(SHORT.has(first) || (first.length > 2 && vocabulary.has(first)))) continue;
    const rest = word.slice(end);
    if (rest.length < 3 && !SHORT.has(rest)) continue;
    const others = unglued(rest);
    if (others) return [first, ...others];
  }
  return undefined;
}

/** Length to which a common file format cuts headings. */
const CUT = 10;

/** The words of a heading: `TreeHeight_ft` → tree, height, ft; `DIAMETERinCENTIMETRES` → diameter, in, centimetres. */
const headingWords = memoized((heading: string): readonly string[] => {
  const words = folded(
    heading
      .replace(/(\p{Lu}{3})(in|en|of|de)(\p{Lu}{2})/gu, '$1 $2 $3')
      .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
      .replace(/(\p{Lu}{2})(\p{Lu}\p{Ll})/gu, '$1 $2'),
  )
    .split(/[^\p{L}\p{N}"']+/u)
    .filter(Boolean)
    .flatMap(word => unglued(word) ?? [word]);
  const last = words[words.length - 1];
  if (heading.length === CUT && last !== undefined && last.length > 2 && !vocabulary.has(last)) {
    const whole = prefixed.filter(word => word.startsWith(last));
    const shortest = whole.reduce((best, word) => (word.length < best.length ? word : best), whole[0] ?? '');
    if (whole.length > 0 && whole.every(word => word.startsWith(shortest)))
      return [...words.slice(0, -1), shortest];
  }
  return words;
});

const BRACKETS = /[([{]([^)\]}]*)[)\]}]?/g;

/** The unit that a heading names: in brackets, as its last word, or spelled out anywhere. */
export function unitIn(heading: string): LengthUnit | undefined {
  for (const [, inside] of heading.matchAll(BRACKETS)) {
    const word = inside!
      .trim()
      .split(/[\s,;/]+/)[0]!
      .replace(/\.$/, '');
    const unit = word === '' ? undefined : unitWord(folded(word));
    if (unit !== undefined) return unit;
  }
  const words = headingWords(heading.replace(BRACKETS, ' '));
  const last = words.length > 1 ? words[words.length - 1]! : undefined;
  const found = last === undefined ? undefined : unitWord(last);
  if (found !== undefined) return found;
  return words.slice(1).flatMap(word => (word.length > 1 && word !== 'in' ? (unitWord(word) ?? []) : []))[0];
}

export interface HeadingMatch {
  readonly kind: Kind;
  /** Whether all words of the heading are about it; otherwise somebody has to say. */
  readonly whole: boolean;
  /** Number of words that name the meaning. */
  readonly words: number;
  readonly language: Language;
  /** Whether it says in words what another column may say as a code. */
  readonly isInWords: boolean;
}

/** The meaning that the words of a heading name; the longest name wins, and one without words beside it. */
export const matchHeading = memoized((heading: string): HeadingMatch | undefined => {
  const words = headingWords(heading.replace(BRACKETS, ' '));
  const inside = [...heading.matchAll(BRACKETS)].flatMap(([, text]) => headingWords(text!));
  if (inside.some(word => qualifiers.has(word))) return undefined;
  let best: (HeadingMatch & { readonly score: number }) | undefined;
  for (const phrase of phrases) {
    if (!phrase.words.every(word => words.includes(word))) continue;
    const isDiameter = phrase.kind === 'dbh' || phrase.kind === 'girth';
    const left = words.filter(
      word =>
        !phrase.words.includes(word) &&
        !fillers.has(word) &&
        !inWords.has(word) &&
        !(isSize(phrase.kind) && unitWord(word) !== undefined) &&
        !(isDiameter && (trunk.has(word) || word === '130' || word === '1m')),
    );
    if (left.some(word => qualifiers.has(word)) || left.length > phrase.words.length) continue;
    if (left.length > 0 && written.has(phrase.kind)) continue;
    const score = phrase.words.length * 10 - left.length * 4;
    if (best && score <= best.score) continue;
    best = {
      kind: phrase.kind,
      whole: left.length === 0,
      words: phrase.words.length,
      language: phrase.language,
      isInWords: words.some(word => inWords.has(word)),
      score,
    };
  }
  return best;
});
