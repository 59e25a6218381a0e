/** Numbers and units as they are dictated: `forty one inch` → `41 in`. */

import { UNITS, unitMeant, unitOf } from '../base/quantity.ts';

const ONES = [
  'zero',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
  'thirteen',
  'fourteen',
  'fifteen',
  'sixteen',
  'seventeen',
  'eighteen',
  'nineteen',
] as const;
const TENS = ['twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'] as const;

const wordValue = (word: string): number | undefined => {
  const one = (ONES as readonly string[]).indexOf(word);
  if (one >= 0) return one;
  const ten = (TENS as readonly string[]).indexOf(word);
  return ten >= 0 ? (ten + 2) * 10 : undefined;
};

const WORD = `(?:${[...TENS, ...ONES].sort((a, b) => b.length - a.length).join('|')})`;
const SPOKEN = new RegExp(
  `\\b(?:(?:a|${WORD})[\\s-]+hundred(?:[\\s-]+(?:and[\\s-]+)?${WORD}(?:[\\s-]+${WORD})?)?|${WORD}(?:[\\s-]+${WORD})?)(?:[\\s-]+and[\\s-]+a[\\s-]+(half|quarter)|[\\s-]+point[\\s-]+(${WORD}))?\\b`,
  'giu',
);

/** What is said in twos is one number only as tens and ones: `eighteen six` is two numbers. */
function numberOf(text: string): number | undefined {
  const words = text
    .toLowerCase()
    .split(/[\s-]+/)
    .filter(word => word !== 'and');
  const hundred = words.indexOf('hundred');
  if (hundred >= 0) {
    const hundreds = words[0] === 'a' ? 1 : wordValue(words[0]!)!;
    const rest = words.slice(hundred + 1);
    const more = rest.length === 0 ? 0 : numberOf(rest.join(' '));
    return more === undefined || hundreds > 9 ? undefined : hundreds * 100 + more;
  }
  const [first = 0, second] = words.map(word => wordValue(word)!);
  if (second === undefined) return first;
  return first >= 20 && second > 0 && second < 10 ? first + second : undefined;
}

const UNIT = UNITS.flatMap(({ symbol, said }) => [symbol, ...said])
  .filter(word => /^\p{L}{2,}$/u.test(word))
  .sort((a, b) => b.length - a.length)
  .join('|');
/** What makes a number of a word that could be prose: `one limb` stays. */
const BESIDE_NUMBER = new RegExp(`^\\s*(?:${UNIT}|by|x|to|percent|degrees?|%|,|['’"”]|$)(?![\\p{L}])`, 'iu');

/** The text with spoken numbers in figures, and units as the notation has them. */
export function inFigures(text: string): string {
  const figures = text.replace(
    SPOKEN,
    (said: string, part: string | undefined, tenth: string | undefined, at: number) => {
      const whole = numberOf(said.replace(/[\s-]+(?:and[\s-]+a[\s-]+(?:half|quarter)|point[\s-]+\S+)$/i, ''));
      if (whole === undefined) return said;
      const isPlain =
        /^\p{L}+$/u.test(said) &&
        !/\b(?:tree|tag|number|no|foot|feet|ft)\.?\s*$/i.test(text.slice(0, at)) &&
        !BESIDE_NUMBER.test(text.slice(at + said.length));
      if (isPlain) return said;
      const more = part
        ? /half/i.test(part)
          ? 0.5
          : 0.25
        : tenth
          ? (wordValue(tenth.toLowerCase()) ?? 0) / 10
          : 0;
      return String(whole + more);
    },
  );
  return (
    figures
      .replace(/(\d)\s*(?:percent|pct)\b/gi, '$1 %')
      .replace(
        new RegExp(`(\\d)[\\s-]*(${UNIT})(?![\\p{L}])\\.?`, 'giu'),
        (whole, digit: string, word: string) => {
          const unit = unitOf(word.toLowerCase()) ?? unitMeant(word.toLowerCase());
          return unit ? `${digit} ${unit.symbol}` : whole;
        },
      )
      .replace(/(\d)\s*['’′](?!['’′])\s*-?\s*(\d{1,2})\s*(?:["”″]|''|in\b)/g, '$1 ft $2 in')
      .replace(/(\d)\s*(?:["”″]|'')/g, '$1 in')
      .replace(/(\d)\s*['’′]/g, '$1 ft')
      // Five foot six.
      .replace(
        /\b(\d{1,2}) ft (\d{1,2})(?=\s*(?:$|,|up\b|high\b|above\b|off\b))/g,
        (whole, feet: string, inches: string) => (Number(inches) < 12 ? `${feet} ft ${inches} in` : whole),
      )
  );
}
