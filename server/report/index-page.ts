/** The page that leads to the pages of a report of very many trees. */

import { counted } from '../base/words.ts';
import { longDate, type RegionCode } from '../show/long-date.ts';
import { NOT_CHECKED } from '../show/summary.ts';
import type { Reader, Unread } from './data.ts';
import { constant, html, render } from './html.ts';
import { group, keptOut, type TreeNeed } from './overview.ts';
import { hashOf } from './page.ts';
import { byOrder, notRead, table } from './parts.ts';
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
  readonly region: RegionCode;
  readonly needsNow: readonly TreeNeed[];
  readonly uninspected: number;
  /** Of open findings. */
  readonly errors: number;
  readonly warnings: number;
}

/** With the trees of all areas that need something now, where the report has a part for the client. */
export async function indexPage(
  areas: readonly AreaPage[],
  unread: readonly Unread[],
  on: number,
  readers: readonly Reader[],
): Promise<string> {
  const policy = `default-src 'none'; style-src ${await hashOf(STYLE)}; base-uri 'none'; form-action 'none'`;
  const day = longDate(on, areas[0]?.region ?? { code: '' });
  const count = areas.reduce((sum, { trees }) => sum + trees, 0);
  const unknown = areas.reduce((sum, { uninspected }) => sum + uninspected, 0);
  const urgent = areas
    .flatMap(({ page, needsNow }) => needsNow.map(need => ({ page, need })))
    .sort((a, b) => byOrder(a.need.order, b.need.order));
  const isForClient = readers.includes('client');
  const needs = isForClient ? urgent.map(({ need }) => need) : [];
  const pageOf = new Map(urgent.map(({ page, need }) => [need, page]));
  const linkTo = (need: TreeNeed) => html`<a href=${`${pageOf.get(need)}#${need.anchor}`}>${need.name}</a>`;
  const hasSites = new Set(areas.map(({ site }) => site)).size > 1;
  const most = needs.slice(0, MOST_ROWS);
  const rank = new Map(urgent.toReversed().map(({ page }, i) => [page, urgent.length - i]));
  const byNeed = areas.toSorted(
    (a, b) => (rank.get(a.page) ?? Number.MAX_VALUE) - (rank.get(b.page) ?? Number.MAX_VALUE),
  );
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
      <header><h1>All areas</h1><p class="lead">${count} trees as of ${day}, on ${areas.length} pages, the one with the most urgent tree first. ${counted(urgent.length, 'tree needs', 'trees need')} something now.${unknown > 0 && ` ${counted(unknown, 'tree has', 'trees have')} no inspection on record: ${unknown === 1 ? 'its' : 'their'} condition is unknown.`}</p></header>
      <main id="content">
        ${notRead(unread)}
        ${keptOut(needs, linkTo, hasSites)}
        ${table(
          'All areas',
          ['Trees', 'Now', 'Site', 'Inventory', 'Number of trees', 'Errors', 'Warnings'],
          byNeed.map(({ page: link, site, file, tags: [first, last], trees, needsNow, errors, warnings }) => [
            html`<a href=${link}>${first === last ? first : `${first} to ${last}`}</a>`,
            String(needsNow.length),
            site,
            file,
            String(trees),
            String(errors),
            String(warnings),
          ]),
        )}
        ${group('now', most, linkTo, hasSites)}
        ${
          needs.length > most.length &&
          html`<p><strong>These are the ${most.length} most urgent of ${needs.length} trees.</strong> The others are on the pages of their areas, under “Now”.</p>`
        }
      </main>
      <footer><p>${NOT_CHECKED} A qualified person on site decides.</p></footer>
    </body>
  </html>`;
  return `<!DOCTYPE html>\n${render(page)}\n`;
}

/** Trees in one table that a person still reads. */
const MOST_ROWS = 500;
