/** How soon a tree needs somebody: the order of a report. It ranks what other files judged and judges nothing itself. */

import type { Prescription } from '../facts/types.ts';
import {
  type AnswerContext,
  bridged,
  type Deadline,
  isAnsweredOrLate,
  isForRisk,
  ownDeadline,
  ratingDeadline,
  unansweredRatings,
} from './answering.ts';
import { isEmergency } from './emergency.ts';
import { missedStorm, openDefects, openFollowUps } from './evidence.ts';
import { imminentParts } from './likelihood.ts';
import { nextLookOf, readingsOverdue } from './next-look.ts';
import { openPrescriptionsOfAnyKind, openWork } from './prescriptions.ts';
import { reachOf } from './reach.ts';
import { currentRisks } from './risks.ts';
import { signsOf } from './signs.ts';
import { isBeyond } from './standing.ts';
import { inspectionDue, isSoundCable, serviceEnd, supportsInPlace } from './supports.ts';

export const URGENCIES = ['now', 'this season', 'watch'] as const;
export type Urgency = (typeof URGENCIES)[number];

/** In days; half a year, which is common practice. */
export const SEASON = 183;

/**
 * `now`: a part is failing or its failure is imminent, a sign beyond its limit or a high rating has no response and a target may be in reach, work is
 * of immediate priority, or a day has passed. `this season`: something is due within half a year or has no day, a
 * sign is not answered, a support is not certain to hold, or the next inspection of a tree with a defect, a rating
 * or anything prescribed is overdue, was never made, was not made since a storm or left a
 * reading out. Else `watch`.
 */
export function urgencyOf(context: AnswerContext): Urgency {
  const { tree, site, settings, today } = context;
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
  due.push(...missedDeadlines(context).map(day => ({ from: day, to: day })));
  const waiting = signsOf(context).filter(
    sign => sign.standing !== 'within' && !isAnsweredOrLate(sign, context),
  );
  const isReached = reachOf(tree, settings, today).targets !== 'out of reach';
  if (
    isEmergency(context) ||
    (isReached && (waiting.some(isBeyond) || imminentParts(context).length > 0)) ||
    unansweredRatings(tree).length > 0 ||
    work.some(({ priority }) => priority?.value === 'immediate') ||
    due.some(({ to }) => to < today)
  )
    return 'now';
  const isDateless = work.some(({ between }) => !between) || openFollowUps(tree).some(({ due: day }) => !day);
  const isWeak = supportsInPlace(tree).some(
    one =>
      (one.kind.value === 'cable' && !isSoundCable(one, context, today)) ||
      inspectionDue(one, settings, today) === undefined ||
      (serviceEnd(one, settings) ?? today) < today,
  );
  const isSoon = due.some(({ from }) => from <= today + SEASON);
  if (waiting.length > 0 || isDateless || isWeak || isSoon || missedStorm(tree, site, today))
    return 'this season';
  const isOnRecord =
    openDefects(tree).length + currentRisks(tree).length + work.length + openFollowUps(tree).length > 0;
  if (!isOnRecord && signsOf(context).every(({ standing }) => standing === 'within')) return 'watch';
  const next = nextLookOf(context);
  return !next || next.day < today || readingsOverdue(context).length > 0 ? 'this season' : 'watch';
}

/** Days by which a rating or its own priority wants work that is planned for later. */
function missedDeadlines(context: AnswerContext): readonly number[] {
  const { tree, today } = context;
  const work = openWork(tree);
  const isLate = ({ between }: Prescription, { day }: Deadline) =>
    between === undefined || (between.to > day && !bridged(today, between.to, context));
  return [
    ...work.flatMap(one => {
      const own = ownDeadline(one, context);
      return own && isLate(one, own) ? [own.day] : [];
    }),
    ...currentRisks(tree).flatMap(risk => {
      const deadline = ratingDeadline(risk, context);
      const answers = work.filter(one => isForRisk(one, risk));
      return deadline && answers.length > 0 && answers.every(one => isLate(one, deadline))
        ? [deadline.day]
        : [];
    }),
  ];
}
