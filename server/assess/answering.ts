/**
 * What answers a sign, and whether it comes in time: work that acts on it, a look that measures it, a decision to keep
 * the tree by a qualified person. What is only planned for later than rating and priority allow answers nothing yet.
 */

import type { Span } from '../../grammar/text.ts';
import { formatDate } from '../base/dates.ts';
import { isDamaged } from '../facts/damage.ts';
import { UNREAD } from '../facts/lines.ts';
import type { FollowUp, Person, Prescription, Risk, Tree } from '../facts/types.ts';
import type { LimitName } from '../practice/limits.ts';
import {
  PRIORITIES,
  type Priority,
  priorityDeadline,
  priorityFor,
  type RiskRating,
} from '../practice/risk.ts';
import { lastLook, openFollowUps } from './evidence.ts';
import { alternativesTo, stagesLeft, standingPrescriptions } from './jobs.ts';
import { judge } from './judge.ts';
import { loadUnder } from './load.ts';
import { fellsTree, jobName } from './prescriptions.ts';
import { qualifiedOn } from './qualifications.ts';
import { isClosedThrough, reachOf, targetsInReach } from './reach.ts';
import { currentRisks, ratingToActOn } from './risks.ts';
import type { Sign } from './signs.ts';
import type { SignContext } from './standing.ts';
import { strengthOf } from './strength.ts';

export interface AnswerContext extends SignContext {
  readonly person: (id: string) => Person | undefined;
  /** Day number. */
  readonly today: number;
}

export interface Answer {
  readonly by: 'work' | 'done' | 'follow-up' | 'keeping';
  /** For the middle of a sentence: `fell R1`. */
  readonly name: string;
  readonly at: Span;
  readonly prescription?: Prescription;
  /** Day number of its last day; undefined where none is set. */
  readonly last: number | undefined;
  readonly inTime: boolean;
}

/** Day by which something has to be done, and what says so. */
export interface Deadline {
  readonly day: number;
  readonly limit: LimitName;
  readonly because: string;
  readonly risk?: Risk;
  /** Whether a day has to be set for the work at once. */
  readonly isUrgent: boolean;
  /** The prescription's own priority, which no rating has to bear out. */
  readonly isOwn?: true;
}

const NO_ANSWERS: readonly Answer[] = [];

/** All that acts on a sign, in time or not. */
export function answersTo(sign: Sign, context: AnswerContext): readonly Answer[] {
  const { tree } = context;
  if (tree.prescriptions.length === 0 && tree.followUps.length === 0) return NO_ANSWERS;
  const deadline = deadlineOf(sign, context);
  return [
    ...whateverIsChosen(tree, one => workOn(sign, one, deadline, context)),
    ...openFollowUps(tree).flatMap(one => lookAt(sign, one, deadline, context)),
  ];
}

/** Of alternatives only one is done: none of them answers what another leaves open, or comes to later. */
function whateverIsChosen(
  tree: Tree,
  workOf: (prescription: Prescription) => readonly Answer[],
): readonly Answer[] {
  const standing = standingPrescriptions(tree);
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
 * Answered in time, or by work still to come that is too late, which mitigation-late reports. A window that is past and
 * a look that is overdue answer nothing.
 */
export const isAnsweredOrLate = (sign: Sign, context: AnswerContext): boolean =>
  answersTo(sign, context).some(
    ({ inTime, by, last }) => inTime || (by === 'work' && (last === undefined || last >= context.today)),
  );

function workOn(
  sign: Sign,
  prescription: Prescription,
  deadline: Deadline | undefined,
  context: AnswerContext,
): readonly Answer[] {
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
    // What was investigated shows in readings, and if it does not, it answered nothing.
    return kind === 'investigate' ? NO_ANSWERS : [{ ...base, by: 'done', last: undefined, inTime: true }];
  }
  const by = kind === 'investigate' ? 'follow-up' : 'work';
  return [{ ...base, by, last: between?.to, inTime: comesInTime(prescription, deadline, context, today) }];
}

function comesInTime(
  prescription: Prescription,
  deadline: Deadline | undefined,
  context: AnswerContext,
  today: number,
): boolean {
  const { between } = prescription;
  // What a damaged line would have said is not held against the work.
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

/** Whether people are kept out of everything in reach until the work is done. */
export function bridged(today: number, to: number, { tree, settings }: AnswerContext): boolean {
  const near = targetsInReach(tree, settings);
  return near.length > 0 && near.every(target => isClosedThrough(target, today, to));
}

const NAMED_PARTS: ReadonlySet<string> = new Set(['limb', 'union']);

/** Whether the work does something about a sign, as far as the trade, or a figure, can say. */
function actsOn(sign: Sign, prescription: Prescription, context: AnswerContext): boolean {
  const { kind, remove, height } = prescription;
  // What a damaged head asks for is not known, and its mistake is told.
  if (kind.value === UNREAD || fellsTree(prescription)) return true;
  if (kind.value === 'monolith') return height !== undefined && sign.part !== 'roots and ground';
  if (remove.some(({ value }) => sign.members.includes(value))) return true;
  if (!names(prescription, sign)) return false;
  if (kind.value === 'investigate') return sign.standing !== 'moving';
  switch (sign.part) {
    case 'limb':
      return LIMB_WORK.has(kind.value);
    case 'union':
      return UNION_WORK.has(kind.value);
    case 'stem':
      return (
        STEM_SUPPORT.has(kind.value) || (kind.value === 'reduce' && bringsWithin(sign, prescription, context))
      );
    case 'roots and ground':
      return kind.value === 'guy';
    case 'whole tree':
      return false;
  }
}

const LIMB_WORK: ReadonlySet<string> = new Set([
  'clean',
  'reduce',
  'restore',
  'pollard',
  'thin',
  'cable',
  'prop',
]);
const UNION_WORK: ReadonlySet<string> = new Set(['cable', 'brace', 'prop', 'guy', 'reduce']);
const STEM_SUPPORT: ReadonlySet<string> = new Set(['cable', 'brace', 'prop', 'guy']);

/** A prescription that does not say what it is for is for all that it can act on. */
const names = ({ for: named }: Prescription, sign: Sign): boolean =>
  named.length === 0 ||
  named.some(
    ({ value }) => value === sign.subject || (NAMED_PARTS.has(sign.part) && sign.members.includes(value)),
  );

/** Whether a reduction leaves no more stress at the hollow than the limit allows, whatever the readings are. */
function bringsWithin(
  sign: Sign,
  prescription: Prescription,
  { tree, site, settings }: AnswerContext,
): boolean {
  // Of a canker or a crack no figure says what a lighter crown does; only for what nobody judged is it a plan.
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

/** To keep or watch takes a reason, a day of the next look, and a rating by a qualified person or targets out of reach. */
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

const STEM_LOOKS: ReadonlySet<string> = new Set([
  'tomogram',
  'resistance drilling',
  'probe',
  'climbing inspection',
]);
const ROOT_LOOKS: ReadonlySet<string> = new Set(['root inspection', 'pull test', 'tomogram']);
const HIGH_LOOKS: ReadonlySet<string> = new Set(['climbing inspection', 'tomogram', 'pull test', 'probe']);

/** Follow-ups that measure a sign; any look will do for one that nobody could judge or that only may exceed. */
function lookAt(
  sign: Sign,
  { id, kind, of, due, at }: FollowUp,
  deadline: Deadline | undefined,
  context: AnswerContext,
): readonly Answer[] {
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

/** Who rated a risk: whom it names, else whoever made the inspection of that day. */
function assessorOf({ by, seen }: Risk, { inspections }: Tree): string | undefined {
  return (by ?? inspections.findLast(({ date }) => date.value === seen)?.by)?.value;
}

/** A rating by somebody whose business it is, on the day that it was made. */
function isQualifiedRating(risk: Risk, { tree, person, today }: AnswerContext): boolean {
  const id = assessorOf(risk, tree);
  const assessor = id === undefined ? undefined : person(id);
  return assessor !== undefined && qualifiedOn(assessor, 'consulting arborist', risk.seen ?? today);
}

const risksOf = (sign: Sign, tree: Tree): readonly Risk[] =>
  currentRisks(tree).filter(({ defect }) => defect === undefined || defect.value === sign.subject);

const BELOW_HIGH: ReadonlySet<RiskRating | undefined> = new Set(['low', 'moderate']);

/** A qualified person rated the risk from it low or moderate, for every target that it could reach. */
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

/** By when a rating that applies to the sign asks for the work; for what moves, at once. */
export function deadlineOf(sign: Sign, context: AnswerContext): Deadline | undefined {
  const { tree, settings, today } = context;
  const deadlines = risksOf(sign, tree).flatMap(risk => ratingDeadline(risk, context) ?? []);
  if (sign.standing === 'moving') {
    const limit = reachOf(tree, settings, today).targets === 'open' ? 'deadline-immediate' : 'deadline-high';
    deadlines.push({
      day: today + Math.floor(settings.limit(limit).value),
      limit,
      because: `${sign.name} is moving`,
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

/** By when a prescription's own priority asks for it. */
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

/** Work that is for the defect that was rated, or for none in particular. */
export const isForRisk = ({ for: named, kind }: Prescription, { defect }: Risk): boolean =>
  kind.value === UNREAD ||
  named.length === 0 ||
  defect === undefined ||
  named.some(({ value }) => value === defect.value);
