/**
 * Characters that no output for people may hold: control characters, with which a terminal does anything; marks that
 * turn the direction of what follows, so that a line reads otherwise than it is; separators that some readers take
 * for the end of a line. Unicode 16, Bidirectional Algorithm (UAX #9), explicit formatting.
 */

const UNSEEN = /[\0-\x08\x0B-\x1F\x7F-\x9F\u2028\u2029\u202A-\u202E\u2066-\u2069]/g;

/** Each of them becomes a mark that is seen; tabs and line ends stay. */
export const visible = (text: string): string => text.replace(UNSEEN, '\uFFFD');

/** The same for names that have to stay on their line. */
export const onOneLine = (text: string): string => visible(text).replace(/[\t\n]/g, '\uFFFD');
