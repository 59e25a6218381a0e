/** What the rules on electric lines say of having a line off. */

import { showDays } from '../../assess/days.ts';
import type { Conductor, Prescription } from '../../facts/types.ts';
import type { DaySpan } from '../../practice/index.ts';
import { type Advice, ifRead } from '../rule.ts';

/** As the end of a remedy; the days are written once the line's owner has agreed to them. */
export const lineOff = (
  { between }: Prescription,
  { at }: Conductor,
  days: DaySpan | undefined,
): { readonly words: string; readonly advice: readonly Advice[] } => ({
  words: `have the line’s owner de-energize and ground it on all days of the work${days ? '' : ' once they are set'}, and write those days under the line: ${days ? `dead ${showDays(days)}` : 'dead, with the first and the last day'}`,
  advice: between && days ? [ifRead(at, `dead ${showDays(days)}`)] : [],
});
