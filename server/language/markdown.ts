/** Pieces of Markdown for editors: code, tables, pictures; and the same as plain text. */

import { svgUri } from '../base/data-uri.ts';
import { escapeMarkdown } from '../show/escape-markdown.ts';
import { sanitize } from '../show/sanitize.ts';

export { escapeMarkdown };

/** A code span of any text: its fence is longer than any run of backticks inside. */
export function code(text: string): string {
  const line = sanitize(text.replace(/\s+/g, ' '));
  const longest = Math.max(0, ...[...line.matchAll(/`+/g)].map(([run]) => run.length));
  const fence = '`'.repeat(longest + 1);
  const padding = line.startsWith('`') || line.endsWith('`') ? ' ' : '';
  return line === '' ? '` `' : `${fence}${padding}${line}${padding}${fence}`;
}

/** Cells of any text below a head, whose cells may be empty; a figure keeps its per cent sign on its line. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const row = (cells: readonly string[]) => `| ${head.map((_, i) => cells[i] ?? '').join(' | ')} |`;
  const shown = (cells: readonly string[]) =>
    row(cells.map(cell => escapeMarkdown(cell).replaceAll(' %', '\u00A0%')));
  return [shown(head), row(head.map(() => '---')), ...rows.map(shown)].join('\n');
}

/** A picture within the text: no file, no address. */
export const image = (svg: string, description: string): string =>
  `![${escapeMarkdown(description)}](${svgUri(svg)})`;

/** Markdown of this folder for readers that show text as it is: no pictures, no marks. */
export const plainText = (markdown: string): string =>
  markdown
    .replace(/!\[[^\n]*\]\(data:[^)]*\)\n*/g, '')
    .replace(/(?<!\\)(?:\*\*|[_`])/g, '')
    .replace(/\\([\\`*_[\]#!|~$@:.+=)-])/g, '$1')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&');

export const paragraphs = (...parts: readonly (string | undefined)[]): string =>
  parts.filter(part => part !== undefined && part !== '').join('\n\n');
