/** Remedies that suggest other days for work. */

import { type DayContext, otherDays } from '../assess/clear-days.ts';
import { showDays } from '../assess/days.ts';
import { ASK_NOW, isEmergency } from '../assess/emergency.ts';
import { formatDate } from '../base/dates.ts';
import { capital } from '../base/words.ts';
import type { DaySpan } from '../base/yearly-window.ts';
import type { Prescription } from '../facts/types.ts';
import { type Advice, plan, type Remedy } from './rule.ts';

/** The window as a quick fix. */
export const onDays = (verb: 'Keep' | 'Move', { at }: Prescription, days: DaySpan): Advice => ({
  ...plan(at, `between ${formatDate(days.from)}..${formatDate(days.to)}`),
  title: `${verb} the work to ${showDays(days)}, clear of the closed seasons`,
});

/** Clear days in words and as advice; `words` is undefined where there are none. */
export function clearDaysFor(
  context: DayContext,
  prescription: Prescription,
  days: DaySpan,
): { readonly words: string | undefined; readonly none: string; readonly advice: readonly Advice[] } {
  const { keep, move, words, none } = otherDays(context, prescription, days);
  const advice = [
    ...keep.map(one => onDays('Keep', prescription, one)),
    ...(move && move.from > days.from ? [onDays('Move', prescription, move)] : []),
  ];
  return { words, none, advice: prescription.between ? advice : [] };
}

/**
 * Other days, or what else allows the work on these; never a later day for a tree that is failing now.
 * @param orElse what else allows it, as `check for nests`; undefined where only other days do
 * @param also the record of it, to fill in
 */
export function otherDaysOr(
  context: DayContext,
  prescription: Prescription,
  days: DaySpan,
  orElse: string | undefined,
  also: readonly Advice[] = [],
): Required<Remedy> {
  if (isEmergency(context)) return { remedy: ASK_NOW, advice: also };
  const { words, none, advice } = clearDaysFor(context, prescription, days);
  const parts = words === undefined ? [orElse && capital(orElse), none] : [words, orElse];
  const joint = words === undefined ? '. ' : ', or ';
  return { remedy: `${parts.filter(Boolean).join(joint)}.`, advice: [...advice, ...also] };
}

/**
 * A check for bats, or days clear of the closed seasons; never a later day for a tree that is failing now.
 * @param days undefined where the work may be done on any day
 * @param record the check, as a record to fill in
 */
export function checkOrOtherDays(
  context: DayContext,
  prescription: Prescription,
  days: DaySpan | undefined,
  check: string,
  record: readonly Advice[],
): Required<Remedy> {
  if (isEmergency(context)) return { remedy: ASK_NOW, advice: record };
  const clear = days && clearDaysFor(context, prescription, days);
  return {
    remedy: clear?.words === undefined ? check : `${check} ${clear.words} where it can wait.`,
    advice: [...(clear?.advice ?? []), ...record],
  };
}
