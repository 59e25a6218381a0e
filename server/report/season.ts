/** The section for the client on a period: what was done, what changed, what is due. */

import { isEventful, seasonCounts, seasonOf } from '../assess/season.ts';
import { asWritten } from '../facts/state.ts';
import { readInRegion } from '../show/in-region.ts';
import { periodWords, SEASON_CAUTION, seasonSections } from '../show/season.ts';
import type { ReportData } from './data.ts';
import { html, type Markup } from './html.ts';
import { hasChapter, linkTo, list, regionOf, table } from './parts.ts';
import { treeTitle } from './words.ts';

export function seasonPart(data: ReportData): Markup | undefined {
  const { since, on } = data;
  if (since === undefined) return undefined;
  const all = data.trees.map(entry => ({
    entry,
    season: seasonOf(asWritten(entry.tree), since, on, entry),
  }));
  const told = all.filter(({ season }) => isEventful(season));
  const title = readInRegion(`From ${periodWords(since, on)}`, regionOf(data));
  return html`<section>
    <h3>${title}</h3>
    <p>${seasonCounts(all.map(({ season }) => season))}. ${SEASON_CAUTION}</p>
    ${
      told.length > 0 &&
      table(
        title,
        ['Tree', 'Done', 'Changed', 'Due'],
        told.map(({ entry, season }) => {
          const sections = new Map(seasonSections(season).map(({ heading, lines }) => [heading, lines]));
          const lines = (heading: string) => {
            const found = sections.get(heading);
            return found ? list(found.map(line => readInRegion(line, entry.settings.region))) : '–';
          };
          return [
            hasChapter(entry)
              ? html`<a href=${`#${linkTo(entry, data)}`}>${treeTitle(entry.tree)}</a>`
              : treeTitle(entry.tree),
            lines('Done'),
            lines('Changed'),
            lines('Due'),
          ];
        }),
      )
    }
  </section>`;
}
