/** Decay in time, as `weigh` and `history` write it in JSON. */

import type { DecayCourse } from '../assess/decay-time.ts';
import { formatDate } from '../base/dates.ts';
import { ends } from './mill-json.ts';

export const dayOrNull = (day: number) => (Number.isFinite(day) ? formatDate(day) : null);

export const decayJson = ({ defect, wall, read, change, limitDays, look, weak }: DecayCourse) => ({
  defect: defect.id.value,
  on: formatDate(read),
  wall: ends(wall),
  change: ends(change),
  limitFrom: dayOrNull(limitDays.low),
  limitTo: dayOrNull(limitDays.high),
  readAgainBy: formatDate(look),
  weak,
});
