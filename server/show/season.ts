/** What was done at trees in a period, what changed and what is due: for people, as text or Markdown. */

import { type Change, isEventful, type Season, seasonCounts } from '../assess/season.ts';
import { formatDate } from '../base/dates.ts';
import { capital } from '../base/words.ts';
import { escapeReview } from './escape-markdown.ts';
import { promiseText } from './history.ts';
import { inRegion, readInRegion } from './in-region.ts';
import { wrap } from './layout.ts';
import type { RegionCode } from './long-date.ts';
import { sanitizeForLog, sanitizeLine } from './sanitize.ts';
import type { Paint } from './terminal.ts';

export interface PlacedSeason extends Season {
  /** Path as shown to the reader. */
  readonly file: string;
  readonly region: RegionCode;
}

export const SEASON_CAUTION =
  'From dated records only: undated work, and work that was not recorded, is not included.';

/** `Height: 60 ft → 47 ft.` */
const changeText = ({ what, before, after }: Change): string =>
  before === undefined
    ? `${capital(what)}: ${after}.`
    : after === undefined
      ? `${capital(what)}: was ${before}; no longer on record.`
      : `${capital(what)}: ${before} → ${after}.`;

export const seasonSections = ({
  done,
  changed,
  due,
  isNew,
  to,
}: Season): readonly { readonly heading: string; readonly lines: readonly string[] }[] =>
  [
    { heading: 'Done', lines: done.map(({ day, what }) => `${formatDate(day)}: ${what}.`) },
    { heading: 'Changed', lines: isNew ? ['New on record.'] : changed.map(changeText) },
    { heading: 'Due', lines: due.map(one => promiseText(one, to)) },
  ].filter(({ lines }) => lines.length > 0);

const treeTitle = ({ tree }: Season): string =>
  `Tree ${tree.tag.value}${tree.name ? ` "${tree.name.value}"` : ''}`;

export const periodWords = (from: number, to: number): string => `${formatDate(from)} to ${formatDate(to)}`;

/** The period in words of the first region, and the sections of a tree in those of its own. */
const periodOf = (seasons: readonly PlacedSeason[], from: number, to: number): string =>
  inRegion(periodWords(from, to), seasons[0]?.region ?? { code: '' });
const sectionsOf = (season: PlacedSeason) =>
  seasonSections(season).map(({ heading, lines }) => ({
    heading,
    lines: lines.map(line => readInRegion(line, season.region)),
  }));

export function showSeasons(
  seasons: readonly PlacedSeason[],
  from: number,
  to: number,
  paint: Paint,
): string {
  const trees = seasons.filter(isEventful).map(season => {
    const sections = sectionsOf(season).map(
      ({ heading, lines }) =>
        `${paint('bold', `  ${heading}`)}\n${lines.map(line => `${wrap(sanitizeForLog(line), 4, 6)}\n`).join('')}`,
    );
    return `${paint('bold', sanitizeForLog(treeTitle(season)))} (${sanitizeForLog(sanitizeLine(season.file))})\n${sections.join('')}`;
  });
  const head = `${paint('bold', periodOf(seasons, from, to))}\n${wrap(`${seasonCounts(seasons)}.`, 0)}\n`;
  return `${[head, ...trees, `${wrap(SEASON_CAUTION, 0)}\n`].join('\n')}`;
}

export function showSeasonsMarkdown(seasons: readonly PlacedSeason[], from: number, to: number): string {
  const trees = seasons.filter(isEventful).map(
    season =>
      `**${escapeReview(treeTitle(season))}** (${escapeReview(sanitizeLine(season.file))})\n\n${sectionsOf(
        season,
      )
        .flatMap(({ heading, lines }) =>
          lines.map(line => `- ${heading.toLowerCase()}: ${escapeReview(line)}\n`),
        )
        .join('')}`,
  );
  return [
    `### ${escapeReview(periodOf(seasons, from, to))}\n\n${escapeReview(seasonCounts(seasons))}.\n`,
    ...trees,
    `${escapeReview(SEASON_CAUTION)}\n`,
  ].join('\n');
}
