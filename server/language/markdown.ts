/** Markdown for editors: code, tables, pictures; and its conversion to plain text. */

import { svgUri } from '../base/data-uri.ts';
import { escapeMarkdown } from '../show/escape-markdown.ts';
import { sanitize } from '../show/sanitize.ts';

export { escapeMarkdown };

/** A code span of any text; its fence is longer than any run of backticks inside. */
export function code(text: string): string {
  const line = sanitize(text.replace(/\s+/g, ' '));
  const longest = Math.max(0, ...[...line.matchAll(/`+/g)].map(([run]) => run.length));
  const fence = '`'.repeat(longest + 1);
  const padding = line.startsWith('`') || line.endsWith('`') ? ' ' : '';
  return line === '' ? '` `' : `${fence}${padding}${line}${padding}${fence}`;
}

/** A table of unescaped texts; head cells may be empty. Numbers and percent signs do not wrap. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const row = (cells: readonly string[]) => `| ${head.map((_, i) => cells[i] ?? '').join(' | ')} |`;
  const shown = (cells: readonly string[]) =>
    row(cells.map(cell => escapeMarkdown(cell).replaceAll(' %', '\u00A0%')));
  return [shown(head), row(head.map(() => '---')), ...rows.map(shown)].join('\n');
}

/** A picture embedded as a data URI. */
export const image = (svg: string, description: string): string =>
  `![${escapeMarkdown(description)}](${svgUri(svg)})`;

/** Markdown made by this folder as plain text, without pictures, for clients that do not render Markdown. */
export const plainText = (markdown: string): string =>
  markdown
    .replace(/!\[[^\n]*\]\((?:data|file):[^)]*\)\n*/g, '')
    .replace(/(?<!\\)(?:\*\*|[_`])/g, '')
    .replace(/\\([\\`*_[\]#!|~$@:.+=)-])/g, '$1')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&');

export const paragraphs = (...parts: readonly (string | undefined)[]): string =>
  parts.filter(part => part !== undefined && part !== '').join('\n\n');
