/**
 * Responses to a sign, and whether they are in time: work that acts on it, an investigation that measures it, or a
 * qualified person's decision to retain the tree. A plan later than rating and priority allow is not a response yet.
 *
 * Long because what counts as a response to each part of a tree is read side by side.
 */

import type { Span } from '../../grammar/text.ts';
import { formatDate } from '../base/dates.ts';
import { isDamaged } from '../facts/damage.ts';
import { UNREAD } from '../facts/placed.ts';
import { stagesLeft } from '../facts/stages.ts';
import type { FollowUp, Person, Prescription, Risk, Support, Tree } from '../facts/types.ts';
import type { LimitName } from '../practice/limits.ts';
import {
  PRIORITIES,
  type Priority,
  priorityDeadline,
  priorityFor,
  type RiskRating,
} from '../practice/risk.ts';
import { lastLook, openFollowUps } from './evidence.ts';
import { alternativesTo, prescriptionsInForce } from './jobs.ts';
import { judge } from './judge.ts';
import { fallsShort } from './limb-safety.ts';
import { easedUnder, loadUnder } from './load.ts';
import { fellsTree, jobName, openWork } from './prescriptions.ts';
import { partsBehind } from './pull-tests.ts';
import { qualifiedOn } from './qualifications.ts';
import { firstClosureEnd, isClosedThrough, reachOf, targetsInReach } from './reach.ts';
import { currentRisks, ratingToActOn } from './risks.ts';
import type { Sign } from './signs.ts';
import type { SignContext } from './standing.ts';
import { strengthOf } from './strength.ts';
import { isSoundCable, supportName, supportsInPlace } from './supports.ts';

export interface AnswerContext extends SignContext {
  readonly person: (id: string) => Person | undefined;
  /** Day number. */
  readonly today: number;
}

export interface SignAnswer {
  readonly by: 'work' | 'done' | 'follow-up' | 'keeping';
  /** For the middle of a sentence: `fell R1`. */
  readonly name: string;
  readonly at: Span;
  readonly prescription?: Prescription;
  /** Day number of its last day, if set. */
  readonly last: number | undefined;
  readonly inTime: boolean;
}

/** Day by which something is due, and why. */
export interface Deadline {
  readonly day: number;
  readonly limit: LimitName;
  readonly because: string;
  readonly risk?: Risk;
  /** Whether a day for the work has to be set now. */
  readonly isUrgent: boolean;
  /** It follows from the prescription's own priority, not from a rating. */
  readonly isOwn?: true;
}

const NO_ANSWERS: readonly SignAnswer[] = [];

/** All responses to a sign, in time or not. */
export function answersTo(sign: Sign, context: AnswerContext): readonly SignAnswer[] {
  const { tree } = context;
  if (tree.prescriptions.length + tree.followUps.length + tree.supports.length === 0) return NO_ANSWERS;
  const deadline = deadlineOf(sign, context);
  return [
    ...supportsInPlace(tree).flatMap(one => held(sign, one, context)),
    ...whateverIsChosen(tree, one => workOn(sign, one, deadline, context)),
    ...openFollowUps(tree).flatMap(one => lookAt(sign, one, deadline, context)),
  ];
}

/** A sound cable in place between its stems holds a union; nothing in place answers one that is coming apart. */
function held(sign: Sign, support: Support, context: AnswerContext): readonly SignAnswer[] {
  const holds =
    sign.part === 'union' &&
    sign.standing !== 'moving' &&
    sign.members.every(member => support.holds.some(({ value }) => value === member));
  return holds && isSoundCable(support, context, context.today)
    ? [{ by: 'done', name: supportName(support), at: support.at, last: undefined, inTime: true }]
    : NO_ANSWERS;
}

/** Of alternatives only one will be done, so each of them has to respond, in time. */
function whateverIsChosen(
  tree: Tree,
  workOf: (prescription: Prescription) => readonly SignAnswer[],
): readonly SignAnswer[] {
  const standing = prescriptionsInForce(tree);
  return standing.flatMap(one => {
    const others = alternativesTo(tree, one)
      .filter(other => standing.includes(other))
      .map(workOf);
    if (others.some(answers => answers.length === 0)) return NO_ANSWERS;
    const isLate = others.some(answers => !answers.some(({ inTime }) => inTime));
    return isLate ? workOf(one).map(answer => ({ ...answer, inTime: false })) : workOf(one);
  });
}

/**
 * Whether there is a response in time, or future work that is too late, which mitigation-late reports. A past window or
 * an overdue investigation does not count.
 */
export const isAnsweredOrLate = (sign: Sign, context: AnswerContext): boolean =>
  answersTo(sign, context).some(
    ({ inTime, by, last }) => inTime || (by === 'work' && (last === undefined || last >= context.today)),
  );

export const NOTHING_OPEN = 'nothing is prescribed for it';

/** What the record has for a sign without a response, for the middle of a sentence: nothing, or work whose window ended. */
export function nothingOpenFor(sign: Sign, context: AnswerContext): string {
  const lapsed = answersTo(sign, context).find(
    ({ by, last }) => by === 'work' && last !== undefined && last < context.today,
  );
  return lapsed
    ? `${lapsed.name} was prescribed for it; its work window ended on ${formatDate(lapsed.last!)}, and no work is on record`
    : NOTHING_OPEN;
}

function workOn(
  sign: Sign,
  prescription: Prescription,
  deadline: Deadline | undefined,
  context: AnswerContext,
): readonly SignAnswer[] {
  const { tree, today } = context;
  const { at, between } = prescription;
  const kind = prescription.kind.value;
  const name = jobName(prescription);
  const base = { name, at, prescription };
  if (kind === 'keep' || kind === 'watch')
    return keeps(sign, prescription, context)
      ? [{ ...base, by: 'keeping', last: between?.to, inTime: true }]
      : NO_ANSWERS;
  if (!actsOn(sign, prescription, context)) return NO_ANSWERS;
  if (stagesLeft(tree, prescription) === 0) {
    // Results of an investigation are in the readings; without any it was no response.
    return kind === 'investigate' || wasFoundAfter(sign, prescription, tree)
      ? NO_ANSWERS
      : [{ ...base, by: 'done', last: undefined, inTime: true }];
  }
  const by = kind === 'investigate' ? 'follow-up' : 'work';
  return [{ ...base, by, last: between?.to, inTime: comesInTime(prescription, deadline, context, today) }];
}

/** Whether a defect was first seen after the work was done, which did not know of it. */
function wasFoundAfter({ defect }: Sign, { id }: Prescription, { works }: Tree): boolean {
  if (!defect) return false;
  const seen = Math.min(...[defect, ...defect.earlier].map(one => one.seen ?? Number.NEGATIVE_INFINITY));
  const done = works
    .filter(({ prescription }) => prescription.value === id.value)
    .map(({ date }) => date.value);
  return done.length > 0 && seen > Math.max(...done);
}

function comesInTime(
  prescription: Prescription,
  deadline: Deadline | undefined,
  context: AnswerContext,
  today: number,
): boolean {
  const { between } = prescription;
  // Do not blame the work for a damaged line.
  if (isDamaged(context.tree, prescription, 'between', 'priority')) return true;
  const own = ownDeadline(prescription, context);
  if (!between) {
    if (own)
      return own.day >= today && (!deadline || own.day <= deadline.day || bridged(today, own.day, context));
    return !deadline?.isUrgent && (!deadline || deadline.day >= today);
  }
  if (between.to < today) return false;
  const day = Math.min(deadline?.day ?? Number.POSITIVE_INFINITY, own?.day ?? Number.POSITIVE_INFINITY);
  return between.to <= day || bridged(today, between.to, context);
}

/** Whether people are kept out of all targets in reach until the work is done. */
export function bridged(today: number, to: number, { tree, settings }: AnswerContext): boolean {
  const near = targetsInReach(tree, settings);
  return near.length > 0 && near.every(target => isClosedThrough(target, today, to));
}

const NAMED_PARTS: ReadonlySet<string> = new Set(['limb', 'union']);

/** Whether the work mitigates a sign, by common practice or by its figures. */
function actsOn(sign: Sign, prescription: Prescription, context: AnswerContext): boolean {
  const { kind, remove, height } = prescription;
  // The kind of a damaged head is unknown, and its error is reported anyway.
  if (kind.value === UNREAD || fellsTree(prescription)) return true;
  if (kind.value === 'monolith') return height !== undefined && sign.part !== 'roots and ground';
  if (remove.some(({ value }) => sign.members.includes(value))) return true;
  if (!names(prescription, sign)) return false;
  if (kind.value === 'investigate') return sign.standing !== 'moving';
  switch (sign.part) {
    case 'limb':
      return (
        LIMB_WORK.has(kind.value) &&
        !(sign.kind === 'limb load' && fallsShort(sign.members, prescription, context))
      );
    case 'union':
      return UNION_WORK.has(kind.value);
    case 'stem':
      return (
        STEM_SUPPORT.has(kind.value) || (kind.value === 'reduce' && bringsWithin(sign, prescription, context))
      );
    case 'roots and ground':
      return (
        kind.value === 'guy' || (kind.value === 'reduce' && bearsWhatIsLeft(sign, prescription, context))
      );
    case 'whole tree':
      return false;
  }
}

const LIMB_WORK: ReadonlySet<Prescription['kind']['value']> = new Set([
  'clean',
  'reduce',
  'restore',
  'pollard',
  'thin',
  'cable',
  'prop',
]);
const UNION_WORK: ReadonlySet<Prescription['kind']['value']> = new Set([
  'cable',
  'brace',
  'prop',
  'guy',
  'reduce',
]);
const STEM_SUPPORT: ReadonlySet<Prescription['kind']['value']> = new Set(['cable', 'brace', 'prop', 'guy']);

/** A prescription without a stated reason applies to every sign that it can mitigate. */
const names = ({ for: named }: Prescription, sign: Sign): boolean =>
  named.length === 0 ||
  named.some(
    ({ value }) => value === sign.subject || (NAMED_PARTS.has(sign.part) && sign.members.includes(value)),
  );

/** Whether a pull test says that the roots, or the stem, bear the wind that a reduction leaves. */
function bearsWhatIsLeft(
  sign: Sign,
  prescription: Prescription,
  { tree, site, settings }: SignContext,
): boolean {
  const parts = partsBehind(sign, tree, site, settings);
  const eased = parts && easedUnder(parts, prescription, tree, site, settings);
  return eased?.every(({ judged }) => judged.standing === 'within') ?? false;
}

/** Whether a reduction certainly brings the stress at the hollow within the limit. */
function bringsWithin(
  sign: Sign,
  prescription: Prescription,
  { tree, site, settings }: AnswerContext,
): boolean {
  // The effect of a lighter crown on a canker or crack has no figure; it counts only for signs not judged.
  if (sign.kind === 'strain') return bearsWhatIsLeft(sign, prescription, { tree, site, settings });
  if (sign.kind !== 'cavity' && sign.kind !== 'decay' && sign.kind !== 'joined')
    return sign.standing === 'not judged';
  const load = loadUnder(tree, prescription, strengthOf(tree, settings), site, settings);
  const sections = (load?.sections ?? []).filter(
    ({ defect }) => sign.defect === undefined || defect.hollow.defect === sign.defect,
  );
  return (
    sections.length > 0 &&
    sections.every(({ stressRatio }) => judge(stressRatio, 'stress-ratio', settings).standing === 'within')
  );
}

/** `keep` and `watch` need a reason, a day of the next inspection, and a qualified rating or no target in reach. */
function keeps(sign: Sign, prescription: Prescription, context: AnswerContext): boolean {
  const { because, between } = prescription;
  const { site, tree } = context;
  if (sign.standing === 'moving' || !names(prescription, sign)) return false;
  const isLooked =
    between !== undefined ||
    site?.interval !== undefined ||
    openFollowUps(tree).some(({ due }) => due !== undefined);
  if (!because || !isLooked) return false;
  const { targets } = reachOf(tree, context.settings, context.today);
  const isMoved = targets === 'closed' || targets === 'out of reach';
  return isMoved || isRatedBelowHigh(sign, context);
}

const STEM_LOOKS: ReadonlySet<FollowUp['kind']['value']> = new Set([
  'tomogram',
  'resistance drilling',
  'probe',
  'climbing inspection',
]);
const ROOT_LOOKS: ReadonlySet<FollowUp['kind']['value']> = new Set([
  'root inspection',
  'pull test',
  'tomogram',
]);
const HIGH_LOOKS: ReadonlySet<FollowUp['kind']['value']> = new Set([
  'climbing inspection',
  'tomogram',
  'pull test',
  'probe',
]);

/** Follow-ups that measure a sign; any investigation counts for one that is not judged or only may exceed. */
function lookAt(
  sign: Sign,
  { id, kind, of, due, at }: FollowUp,
  deadline: Deadline | undefined,
  context: AnswerContext,
): readonly SignAnswer[] {
  if (of.length > 0 && !of.some(({ value }) => value === sign.subject || sign.members.includes(value)))
    return NO_ANSWERS;
  const looks =
    sign.part === 'roots and ground' ? ROOT_LOOKS : sign.part === 'stem' ? STEM_LOOKS : HIGH_LOOKS;
  const isGrave = sign.standing === 'exceeds' || sign.standing === 'moving';
  const isUnjudged = sign.standing === 'not judged';
  if (kind.value !== UNREAD && !isUnjudged && !looks.has(kind.value)) return NO_ANSWERS;
  const { today } = context;
  const inTime = due
    ? (due.value >= today || !isGrave) &&
      (!deadline || due.value <= deadline.day || bridged(today, due.value, context))
    : isUnjudged && !deadline?.isUrgent;
  return [{ by: 'follow-up', name: `${kind.value} ${id.value}`, at, last: due?.value, inTime }];
}

/** Assessor of a risk: as stated, else the inspector of that day. */
function assessorOf({ by, seen }: Risk, { inspections }: Tree): string | undefined {
  return (by ?? inspections.findLast(({ date }) => date.value === seen)?.by)?.value;
}

/** Whether the assessor was qualified on the day of the rating. */
function isQualifiedRating(risk: Risk, { tree, person, today }: AnswerContext): boolean {
  const id = assessorOf(risk, tree);
  const assessor = id === undefined ? undefined : person(id);
  return assessor !== undefined && qualifiedOn(assessor, 'consulting arborist', risk.seen ?? today);
}

const risksOf = (sign: Sign, tree: Tree): readonly Risk[] =>
  currentRisks(tree).filter(({ defect }) => defect === undefined || defect.value === sign.subject);

const BELOW_HIGH: ReadonlySet<RiskRating | undefined> = new Set(['low', 'moderate']);

/** Whether a qualified person rated the risk low or moderate for every target in reach. */
export function isRatedBelowHigh(sign: Sign, context: AnswerContext): boolean {
  const { tree, settings, today } = context;
  const rated = risksOf(sign, tree).filter(
    risk => BELOW_HIGH.has(ratingToActOn(risk)) && isQualifiedRating(risk, context),
  );
  if (rated.length === 0) return false;
  return reachOf(tree, settings, today).open.every(({ name }) =>
    rated.some(({ target }) => target.value === name.value),
  );
}

const urgency = (priority: string): number => (PRIORITIES as readonly string[]).indexOf(priority);
const isPriority = (word: string | undefined): word is Priority => word !== undefined && urgency(word) >= 0;

/** Deadline from the ratings that apply to the sign; immediate for a moving sign. */
export function deadlineOf(sign: Sign, context: AnswerContext): Deadline | undefined {
  const { tree, settings, today } = context;
  const deadlines = risksOf(sign, tree).flatMap(risk => ratingDeadline(risk, context) ?? []);
  if (sign.standing === 'moving') {
    const { targets } = reachOf(tree, settings, today);
    const limit = targets === 'open' ? 'deadline-immediate' : 'deadline-high';
    // A closure bears the wait as long as it lasts.
    const end = targets === 'closed' ? firstClosureEnd(targetsInReach(tree, settings)) : Infinity;
    const within = today + Math.floor(settings.limit(limit).value);
    deadlines.push({
      day: Math.min(within, end),
      limit,
      because: `${sign.name} is moving${end < within ? `, and people are kept out until ${formatDate(end)} only` : ''}`,
      isUrgent: true,
    });
  }
  return deadlines.reduce<Deadline | undefined>(
    (first, one) => (first && first.day <= one.day ? first : one),
    undefined,
  );
}

export function ratingDeadline(risk: Risk, { tree, settings, today }: AnswerContext): Deadline | undefined {
  const rating = ratingToActOn(risk);
  if (!rating || rating === 'low') return undefined;
  const limit = priorityDeadline[priorityFor[rating]];
  const from = risk.seen ?? lastLook(tree, today)?.day ?? today;
  return {
    day: from + Math.floor(settings.limit(limit).value),
    limit,
    because: `the risk to "${risk.target.value}" was rated ${rating}${risk.seen === undefined ? '' : ` on ${formatDate(risk.seen)}`}`,
    risk,
    isUrgent: rating !== 'moderate',
  };
}

/** Deadline from the priority of the prescription. */
export function ownDeadline(
  { priority, dated }: Prescription,
  { settings, today }: AnswerContext,
): Deadline | undefined {
  if (!isPriority(priority?.value)) return undefined;
  const limit = priorityDeadline[priority.value];
  return {
    day: (dated ?? today) + Math.floor(settings.limit(limit).value),
    limit,
    because: `its priority is ${priority.value}`,
    isUrgent: priority.value === 'immediate' || priority.value === 'high',
    isOwn: true,
  };
}

/** Whether the work is for the rated defect or states no reason. */
export const isForRisk = ({ for: named, kind }: Prescription, { defect }: Risk): boolean =>
  kind.value === UNREAD ||
  named.length === 0 ||
  defect === undefined ||
  named.some(({ value }) => value === defect.value);

/** Ratings of high or extreme that no work is for; keeping or monitoring the tree does not lower a risk. */
export function unansweredRatings(tree: Tree): readonly Risk[] {
  const work = openWork(tree);
  return currentRisks(tree).filter(
    risk => /high|extreme/.test(ratingToActOn(risk) ?? '') && !work.some(one => isForRisk(one, risk)),
  );
}
