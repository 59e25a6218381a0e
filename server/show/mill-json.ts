/** Logs for a mill as JSON, for `weigh` and the export. Lengths in m, volumes in m³. */

import type { Mill } from '../assess/mill.ts';
import type { Interval } from '../base/interval.ts';

/** `[low, high]`; null is an infinite end. */
export const ends = ({ low, high }: Interval) => [low, high].map(end => (Number.isFinite(end) ? end : null));
export const endsOrNull = (value: Interval | undefined) => (value ? ends(value) : null);

/** Nobody would mill it, why nothing is known, or the logs from the butt up. */
export function millJson(mill: Mill | string | undefined) {
  if (mill === undefined) return null;
  if (typeof mill === 'string') return { doubt: mill, form: null, first: null, logs: [] };
  return {
    doubt: null,
    form: mill.form,
    first: mill.first ?? null,
    logs: mill.logs.map(({ number, length, smallEnd, volume, boards, off, isLengthAssumed, notJudged }) => ({
      number,
      length,
      smallEnd: ends(smallEnd),
      volume: endsOrNull(volume),
      boardFeet: boards
        ? {
            doyle: ends(boards.Doyle),
            scribner: ends(boards.Scribner),
            international: ends(boards['International 1/4-inch']),
          }
        : null,
      off,
      isLengthAssumed,
      doubt: notJudged ?? null,
    })),
  };
}
