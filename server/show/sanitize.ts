/**
 * Characters that no output for people may hold as they are: control characters, with which a terminal does anything;
 * marks that turn the direction of what follows, so that a line reads otherwise than it is; separators that some
 * readers take for the end of a line; and what takes no room and so makes two names look like one. Unicode 16:
 * Bidirectional Algorithm (UAX #9), explicit formatting; Default_Ignorable_Code_Point (UAX #44).
 *
 * Left as text is what scripts and emoji are written with: joiners behind letters beyond ASCII, marks of direction
 * without scope, variation selectors, breaks between words of scripts that put no blanks there, and the letters of a
 * flag behind the flag.
 */
const NEVER = '\\0-\\x08\\x0B-\\x1F\\x7F-\\x9F\\u2028\\u2029\\u202A-\\u202E\\u2066-\\u2069\\uFFF9-\\uFFFB';
const UNSAFE = new RegExp(
  [
    `[${NEVER}]`,
    '(?<![^\\0-\\x7F])[\\u200C\\u200D]',
    '(?<![\\p{Script=Thai}\\p{Script=Lao}\\p{Script=Khmer}\\p{Script=Myanmar}])\\u200B',
    '(?<!\\u{1F3F4}[\\u{E0020}-\\u{E007E}]*)[\\u{E0020}-\\u{E007F}]',
    '(?![\\u061C\\u180B-\\u180D\\u180F\\u200B-\\u200F\\uFE00-\\uFE0F\\u{E0020}-\\u{E007F}\\u{E0100}-\\u{E01EF}])\\p{DI}',
  ].join('|'),
  'gu',
);
/** Most texts hold nothing that would have to be looked at more closely, which is found out in one pass. */
const SUSPECT = new RegExp(`[${NEVER}\\p{DI}]`, 'u');

/** Each of them becomes a mark that is seen; tabs and line ends stay. */
export const sanitize = (text: string): string =>
  SUSPECT.test(text) ? text.replace(UNSAFE, '\uFFFD') : text;

/**
 * The same for a page or a picture, which besides can't hold halves of surrogate pairs and what Unicode will never
 * make a character of.
 */
export const sanitizeForPage = (text: string): string =>
  sanitize(text).replace(
    /[\uFFFE\uFFFF]|[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g,
    '\uFFFD',
  );

/**
 * The same for a terminal or the log of a build server: what such servers would take for an order to them, wherever
 * it stands in a line (`##vso[`, `##[`, `##teamcity[`), is torn apart.
 */
export const sanitizeForLog = (text: string): string => sanitize(text).replace(BUILD_COMMAND, '# #');

const BUILD_COMMAND = /##(?=\w*\[)/g;

/**
 * The same for names that have to stay on their line. At the start of a line two colons are an order to a build
 * server, too; as a path the name stays what it is.
 */
export const sanitizeLine = (text: string): string =>
  ORDINARY.test(text)
    ? text
    : sanitizeForLog(text)
        .replace(/[\t\n]/g, '\uFFFD')
        .replace(/^(?=\s*::)/, './');

/** As most are: nothing but what can be seen, no number sign, and neither a blank nor a colon to begin with. */
const ORDINARY = /^[!"$-9;-~][ -"$-~]*$/;

/** JSON that shows all it holds: such characters are written as escapes, which say the same to whoever reads it. */
export const jsonText = (value: unknown, indent?: number): string =>
  sanitizeJson(JSON.stringify(value, null, indent));

/** The same of JSON that is a text already. */
export const sanitizeJson = (json: string): string =>
  (SUSPECT.test(json) ? json.replace(UNSAFE, escaped) : json).replace(BUILD_COMMAND, '#\\u0023');

/** The same of XML, in which they become references. */
export const sanitizeXml = (xml: string): string =>
  SUSPECT.test(xml) ? xml.replace(UNSAFE, character => `&#${character.codePointAt(0)};`) : xml;

const escaped = (character: string): string =>
  character.replace(/[\s\S]/g, unit => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`);
