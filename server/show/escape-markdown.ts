/** Escapes text of users and files for Markdown: shown as written, never interpreted. */

import { sanitize } from './sanitize.ts';

/** Characters with a meaning anywhere in a line. */
const MARKS = /[\\`*_[\]<>#!|~&$@]/g;
const ENTITIES: Readonly<Record<string, string>> = { '<': '&lt;', '>': '&gt;', '&': '&amp;' };
/** Starts of lists and headings. */
const LIST = /^(\s*)(?:([-+=])|(\d+)([.)])(?=\s|$))/;
/** Addresses that some renderers link automatically. */
const ADDRESS = /(:)(?=\/\/)|(\bwww)\./gi;

/** The text on one line, with no markup, HTML or link. */
export const escapeMarkdown = (text: string): string =>
  sanitize(text.replace(/\s+/g, ' '))
    .replace(MARKS, mark => ENTITIES[mark] ?? `\\${mark}`)
    .replace(ADDRESS, (_, colon, www) => (colon ? '\\:' : `${www}\\.`))
    .replace(LIST, (_, space, bullet, number, mark) =>
      bullet ? `${space}\\${bullet}` : `${space}${number}\\${mark}`,
    );

/**
 * Also for review comments, whose renderers look in the visible text for mentions of people, teams, issues and
 * milestones and for email addresses: a word joiner separates the mark from the name.
 */
export const escapeReview = (text: string): string =>
  escapeMarkdown(text).replace(/(?<=[@#!$~%^]|&amp;|\bGH-)(?=[\p{L}\p{N}_])/giu, '\u2060');
