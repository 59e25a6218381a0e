/** Remedy for the rules on overhead power lines: having the line de-energized. */

import { deadOn } from '../assess/conductors.ts';
import { formatDate } from '../base/dates.ts';
import type { DaySpan } from '../base/yearly-window.ts';
import type { Conductor } from '../facts/types.ts';
import { type Advice, ifRead } from './rule.ts';

/** As the end of a remedy. The days are a reading: they are recorded once the line's owner has agreed to them. */
export function lineOff(
  conductor: Conductor,
  days: DaySpan | undefined,
): { readonly words: string; readonly advice: readonly Advice[] } {
  const { dead, at } = conductor;
  const off = 'have the line’s owner de-energize and ground it';
  if (!days || (dead && deadOn(conductor, days) === 'none'))
    return {
      words: `${off} on all days of the work (record those days under the line: "dead")`,
      advice: [],
    };
  // Days that other work relies on are kept.
  const from = Math.min(days.from, dead?.from ?? days.from);
  const to = Math.max(days.to, dead?.to ?? days.to);
  const line = `dead ${formatDate(from)}..${formatDate(to)}`;
  return {
    words: `${off} on all days of the work (record them under the line: "${line}")`,
    advice: [ifRead(at, line)],
  };
}
