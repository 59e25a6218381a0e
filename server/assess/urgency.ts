/** How soon a tree needs somebody: the order of a report. It ranks what other files judged and judges nothing itself. */

import { type AnswerContext, isAnsweredOrLate } from './answering.ts';
import { isEmergency } from './emergency.ts';
import { openFollowUps } from './evidence.ts';
import { imminentParts } from './likelihood.ts';
import { openPrescriptionsOfAnyKind } from './prescriptions.ts';
import { reachOf } from './reach.ts';
import { currentRisks, ratingToActOn } from './risks.ts';
import { signsOf } from './signs.ts';
import { isBeyond } from './standing.ts';
import { inspectionDue, isSoundCable, supportsInPlace } from './supports.ts';

export const URGENCIES = ['now', 'this season', 'watch'] as const;
export type Urgency = (typeof URGENCIES)[number];

/** In days; half a year, which is common practice. */
export const SEASON = 183;

/**
 * `now`: a part is failing or its failure is imminent, a sign beyond its limit or a high rating has no response and a target may be in reach, work is
 * of immediate priority, or a day has passed. `this season`: something is due within half a year or has no day, a
 * sign is not answered, or a cable is not certain to hold. Else `watch`.
 */
export function urgencyOf(context: AnswerContext): Urgency {
  const { tree, settings, today } = context;
  if (tree.felled) return 'watch';
  const work = openPrescriptionsOfAnyKind(tree);
  const due = [
    ...work.flatMap(({ between }) => (between ? [{ from: between.from, to: between.to }] : [])),
    ...openFollowUps(tree).flatMap(({ due: day }) => (day ? [{ from: day.value, to: day.value }] : [])),
    ...supportsInPlace(tree).flatMap(support => {
      const day = inspectionDue(support, settings, today);
      return day === undefined ? [] : [{ from: day, to: day }];
    }),
  ];
  const waiting = signsOf(context).filter(
    sign => sign.standing !== 'within' && !isAnsweredOrLate(sign, context),
  );
  const isReached = reachOf(tree, settings, today).targets !== 'out of reach';
  const isRatedHigh = currentRisks(tree).some(risk => /high|extreme/.test(ratingToActOn(risk) ?? ''));
  if (
    isEmergency(context) ||
    (isReached && (waiting.some(isBeyond) || imminentParts(context).length > 0)) ||
    (isRatedHigh && work.length === 0) ||
    work.some(({ priority }) => priority?.value === 'immediate') ||
    due.some(({ to }) => to < today)
  )
    return 'now';
  const isDateless = work.some(({ between }) => !between) || openFollowUps(tree).some(({ due: day }) => !day);
  const isWeak = supportsInPlace(tree).some(
    one => one.kind.value === 'cable' && !isSoundCable(one, context, today),
  );
  const isSoon = due.some(({ from }) => from <= today + SEASON);
  return waiting.length > 0 || isDateless || isWeak || isSoon ? 'this season' : 'watch';
}
