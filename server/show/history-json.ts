/**
 * The output of `history --format json`; schema in history.schema.json. A breaking change increases `version`. Rates in
 * m a year, lengths in m.
 */

import { formatDate } from '../base/dates.ts';
import { changeWords } from './comparison-text.ts';
import { dayOrNull, decayJson } from './decay-json.ts';
import { HISTORY_CAUTION, type History } from './history.ts';
import { ends } from './mill-json.ts';
import { jsonText } from './sanitize.ts';

const HISTORY_VERSION = 1;

export interface HistoryReport {
  /** Day number. */
  readonly on: number;
  readonly trees: readonly History[];
  /** What could not be read or computed, and why. */
  readonly unread: readonly { readonly file: string; readonly message: string }[];
}

export const historyJson = ({ on, trees, unread }: HistoryReport): string =>
  `${jsonText(
    {
      version: HISTORY_VERSION,
      on: formatDate(on),
      caution: HISTORY_CAUTION,
      trees: trees.map(treeJson),
      unread,
    },
    2,
  )}\n`;

function treeJson({
  tree,
  file,
  today,
  events,
  growth,
  contradicted,
  changes,
  courses,
  promises,
  edits,
}: History) {
  return {
    tag: tree.tag.value,
    file,
    hasLater: tree.hasLater,
    events: events.map(({ day, kind, what, says }) => ({ on: formatDate(day), kind, what, says })),
    growth: growth.map(({ size, from, to, rate, error }) => ({
      size,
      from: { on: formatDate(from.day), value: ends(from.value) },
      to: { on: formatDate(to.day), value: ends(to.value) },
      rate: ends(rate),
      error: error.value,
    })),
    contradicted: contradicted.map(({ size }) => size),
    changes: changes.map(({ subject, from, to, rate, judged, limitDays, look }) => ({
      of: subject,
      from: { on: formatDate(from.day), value: ends(from.value) },
      to: { on: formatDate(to.day), value: ends(to.value) },
      rate: rate ? ends(rate) : null,
      limit: judged.setting.value,
      unit: judged.setting.unit,
      limitFrom: dayOrNull(limitDays.low),
      limitTo: dayOrNull(limitDays.high),
      readAgainBy: dayOrNull(look),
    })),
    decay: courses.map(decayJson),
    promised: promises.map(({ what, due, left }) => ({
      what,
      due: due === undefined ? null : dayOrNull(due),
      overdue: due !== undefined && due < today,
      left: left ?? null,
    })),
    edits: edits
      ? edits.map(({ commit, author, day, state, changes }) => ({
          on: day,
          by: author,
          commit,
          state,
          changes: changes.map(changeWords),
        }))
      : null,
  };
}
