/** The page that leads to the pages of a report of very many trees. */

import { formatDate } from '../base/dates.ts';
import { NOT_CHECKED } from '../show/summary.ts';
import type { Unread } from './data.ts';
import { constant, html, render } from './html.ts';
import { hashOf } from './page.ts';
import { notRead, table } from './parts.ts';
import { STYLE } from './style.ts';

/** A page of the report. */
export interface AreaPage {
  /** Name of its file, beside the index. */
  readonly page: string;
  readonly site: string;
  /** Path of the inventory as shown to the reader. */
  readonly file: string;
  /** First and last tag. */
  readonly tags: readonly [first: string, last: string];
  readonly trees: number;
  /** Those that need something now. */
  readonly urgent: number;
  /** Of open findings. */
  readonly errors: number;
  readonly warnings: number;
}

export async function indexPage(
  areas: readonly AreaPage[],
  unread: readonly Unread[],
  on: number,
): Promise<string> {
  const policy = `default-src 'none'; style-src ${await hashOf(STYLE)}; base-uri 'none'; form-action 'none'`;
  const day = formatDate(on);
  const byNeed = areas.toSorted((a, b) => b.urgent - a.urgent);
  const count = areas.reduce((sum, { trees }) => sum + trees, 0);
  const page = html`<html lang="en">
    <head>
      <meta charset="utf-8" />
      <meta http-equiv="Content-Security-Policy" content=${policy} />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="referrer" content="no-referrer" />
      <title>${`Trees as of ${day}: all areas`}</title>
      ${constant('style', STYLE)}
    </head>
    <body>
      <header><h1>All areas</h1><p class="lead">${count} trees as of ${day}, on ${areas.length} pages, those with most trees that need something now first.</p></header>
      <main id="content">
        ${notRead(unread)}
        ${table(
          'All areas',
          ['Trees', 'Now', 'Site', 'Inventory', 'Number of trees', 'Errors', 'Warnings'],
          byNeed.map(({ page: link, site, file, tags: [first, last], trees, urgent, errors, warnings }) => [
            html`<a href=${link}>${first === last ? first : `${first} to ${last}`}</a>`,
            String(urgent),
            site,
            file,
            String(trees),
            String(errors),
            String(warnings),
          ]),
        )}
      </main>
      <footer><p>${NOT_CHECKED} A qualified person on site decides.</p></footer>
    </body>
  </html>`;
  return `<!DOCTYPE html>\n${render(page)}\n`;
}
