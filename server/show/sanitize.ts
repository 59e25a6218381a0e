/**
 * Characters that no output for people may contain: control characters, which can drive a terminal; explicit
 * directional formatting, which makes a line read differently from its content; separators that some readers treat as
 * line ends; and invisible characters, which make different names look the same. Unicode 16: Bidirectional Algorithm
 * (UAX #9), explicit formatting; Default_Ignorable_Code_Point (UAX #44).
 *
 * Allowed is what scripts and emoji need: joiners after non-ASCII letters, implicit directional marks, variation
 * selectors, word breaks of scripts without spaces, and the tag letters after a flag.
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
/** Fast path: most texts contain no candidate. */
const SUSPECT = new RegExp(`[${NEVER}\\p{DI}]`, 'u');

/** Replaces each of them by U+FFFD; tabs and line ends are kept. */
export const sanitize = (text: string): string =>
  SUSPECT.test(text) ? text.replace(UNSAFE, '\uFFFD') : text;

/** Also for pages and pictures, which cannot contain lone surrogates and noncharacters. */
export const sanitizeForPage = (text: string): string =>
  sanitize(text).replace(
    /[\uFFFE\uFFFF]|[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g,
    '\uFFFD',
  );

/**
 * Also for terminals and logs of build servers: commands that such servers recognize anywhere in a line (`##vso[`,
 * `##[`, `##teamcity[`) are broken up.
 */
export const sanitizeForLog = (text: string): string => sanitize(text).replace(BUILD_COMMAND, '# #');

const BUILD_COMMAND = /##(?=\w*\[)/g;

/**
 * Also for names, which must stay on one line. `::` at the start of a line is a command to some build servers; `./`
 * before it leaves a path valid.
 */
export const sanitizeLine = (text: string): string =>
  ORDINARY.test(text)
    ? text
    : sanitizeForLog(text)
        .replace(/[\t\n]/g, '\uFFFD')
        .replace(/^(?=\s*::)/, './');

/** Fast path: printable ASCII without `#`, not beginning with a space or colon. */
const ORDINARY = /^[!"$-9;-~][ -"$-~]*$/;

/** JSON in which such characters are escaped, so that the value stays the same. */
export const jsonText = (value: unknown, indent?: number): string =>
  sanitizeJson(JSON.stringify(value, null, indent));

/** The members of an object as they stand between its braces, indented by two. */
export const jsonMembers = (value: object): string => jsonText(value, 2).slice(2, -2);

/** The same for serialized JSON. */
export const sanitizeJson = (json: string): string =>
  (SUSPECT.test(json) ? json.replace(UNSAFE, escaped) : json).replace(BUILD_COMMAND, '#\\u0023');

/** XML in which such characters are character references. */
export const sanitizeXml = (xml: string): string =>
  SUSPECT.test(xml) ? xml.replace(UNSAFE, character => `&#${character.codePointAt(0)};`) : xml;

const escaped = (character: string): string =>
  character.replace(/[\s\S]/g, unit => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`);
