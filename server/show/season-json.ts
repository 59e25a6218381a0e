/** The output of `compare --since --format json`; schema in season.schema.json. A breaking change increases `version`. */

import { isEventful } from '../assess/season.ts';
import { formatDate } from '../base/dates.ts';
import { jsonText } from './sanitize.ts';
import { type PlacedSeason, SEASON_CAUTION } from './season.ts';

const SEASON_VERSION = 1;

export const showSeasonsJson = (seasons: readonly PlacedSeason[], from: number, to: number): string =>
  `${jsonText(
    {
      version: SEASON_VERSION,
      from: formatDate(from),
      to: formatDate(to),
      caution: SEASON_CAUTION,
      trees: seasons.filter(isEventful).map(({ tree, file, isNew, done, changed, due }) => ({
        tag: tree.tag.value,
        file,
        isNew,
        done: done.map(({ day, kind, what }) => ({ on: formatDate(day), kind, what })),
        changed: changed.map(({ what, before, after }) => ({
          what,
          before: before ?? null,
          after: after ?? null,
        })),
        due: due.map(({ what, due: day, left }) => ({
          what,
          due: day === undefined ? null : formatDate(day),
          overdue: day !== undefined && day < to,
          left: left ?? null,
        })),
      })),
    },
    2,
  )}\n`;
