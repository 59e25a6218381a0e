/** Small words for people: counts, lists, capitals and quotation marks. */

/** How many of what: `1 tree`, `3 trees`. */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** `A`, `A and B`, `A, B and C`. */
export const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** The text with a capital first letter, for the start of a sentence; symbols (`d³/D³`, `t/R`) stay as they are. */
export const capital = (text: string): string =>
  /^\p{L}[/²³⁴]/u.test(text) ? text : text.charAt(0).toUpperCase() + text.slice(1);

/** The text in quotation marks, nothing escaped. */
export const quoted = (text: string): string => `"${text}"`;
