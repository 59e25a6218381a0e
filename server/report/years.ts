/** A page for each tree that was visited or photographed on more than one day: its life by date, and how it changed. */

import { grouped } from '../base/grouped.ts';
import { capital } from '../base/words.ts';
import { HISTORY_CAUTION, historySections } from '../show/history.ts';
import { readInRegion } from '../show/in-region.ts';
import type { ReportData, ReportHistory, ReportTree } from './data.ts';
import { html, imageOf, type Markup } from './html.ts';
import { dayOf, hasChapter, list, table, yearsLink } from './parts.ts';
import { photoOf, photosApart, seriesOf, seriesOfWork } from './photographs.ts';
import { sizeWords, speciesOf, treeTitle } from './words.ts';

export const YEARS = 'years';

/** Whether there is such a tree. */
export const hasYears = ({ trees }: ReportData): boolean => trees.some(({ history }) => history);

export function yearsPart(data: ReportData): Markup {
  const pages = data.trees.flatMap(entry => (entry.history ? [pageOf(entry, entry.history, data)] : []));
  return html`<section id=${YEARS} aria-labelledby="years-title">
    <h2 id="years-title">Over the years</h2>
    <p class="quiet">${HISTORY_CAUTION}</p>
    ${pages}
  </section>`;
}

function pageOf(entry: ReportTree, history: ReportHistory, data: ReportData): Markup {
  const { tree } = entry;
  const { region } = entry.settings;
  const isToldBefore = data.readers.includes('client') && hasChapter(entry);
  const apart = isToldBefore ? [] : photosApart(entry);
  const told = isToldBefore ? seriesOfWork(entry) : [];
  return html`<article class="years" id=${yearsLink(entry, data)}>
    <h3>${treeTitle(tree)}</h3>
    <p class="size"><i>${speciesOf(tree)}</i>; ${sizeWords(tree)}.</p>
    <div class="pictures">${imageOf(history.timeline)}</div>
    ${historySections(history).map(
      ({ heading, lines }) =>
        html`<div><h4>${heading}</h4>${list(lines.map(line => readInRegion(line, region)))}</div>`,
    )}
    ${history.series.filter(one => !told.includes(one)).map(one => seriesOf(one, entry))}
    ${apart.map(one => photoOf(one, entry))}
    <h4>By date</h4>
    ${table(
      `Tree ${tree.tag.value} over the years`,
      ['Day', 'On record'],
      [...grouped(history.events, ({ day }) => day)].map(([day, events]) => [
        dayOf(day, region),
        list(
          events.map(({ what, says }) => [
            html`<strong>${capital(what)}</strong>`,
            says === '' ? '' : `: ${readInRegion(says, region)}`,
          ]),
        ),
      ]),
    )}
  </article>`;
}
