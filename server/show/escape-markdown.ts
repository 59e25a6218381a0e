/** Text of users and files inside Markdown: shown as written, never read as mark-up. */

import { sanitize } from './sanitize.ts';

/** Marks that mean something anywhere in a line. */
const MARKS = /[\\`*_[\]<>#!|~&$@]/g;
const ENTITIES: Readonly<Record<string, string>> = { '<': '&lt;', '>': '&gt;', '&': '&amp;' };
/** What makes a list or a heading of a line when it stands at its start. */
const LIST = /^(\s*)(?:([-+=])|(\d+)([.)])(?=\s|$))/;
/** Addresses that some readers turn into links by themselves. */
const ADDRESS = /(:)(?=\/\/)|(\bwww)\./gi;

/** A text of users and files as Markdown that shows it as written, on one line: no mark-up, no HTML, no link. */
export const escapeMarkdown = (text: string): string =>
  sanitize(text.replace(/\s+/g, ' '))
    .replace(MARKS, mark => ENTITIES[mark] ?? `\\${mark}`)
    .replace(ADDRESS, (_, colon, www) => (colon ? '\\:' : `${www}\\.`))
    .replace(LIST, (_, space, bullet, number, mark) =>
      bullet ? `${space}\\${bullet}` : `${space}${number}\\${mark}`,
    );

/**
 * The same for the comment of a review, whose readers look for people, teams, issues, milestones and addresses of
 * mail in the text that is shown: a word joiner keeps the mark and the name apart.
 */
export const escapeReview = (text: string): string =>
  escapeMarkdown(text).replace(/(?<=[@#!$~%^]|&amp;|\bGH-)(?=[\p{L}\p{N}_])/giu, '\u2060');
