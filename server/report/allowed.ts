/** What a work order allows: who climbs, on which days, within which figures. */

import { type ClimbingBan, unsafeToClimb } from '../assess/climbing.ts';
import { deadOn, lineOffFor } from '../assess/conductors.ts';
import { isRatedExtreme } from '../assess/emergency.ts';
import { isUninspected } from '../assess/evidence.ts';
import { clearRadius, comesDownWhole, isRead, readingOf } from '../assess/fall-zone.ts';
import { openPrescriptions } from '../assess/jobs.ts';
import { imminentParts } from '../assess/likelihood.ts';
import { meetingOf, nestsNear } from '../assess/near-nests.ts';
import { daysLeft, lengthUp } from '../assess/prescriptions.ts';
import { expiredCertificate, qualifiedOn } from '../assess/qualifications.ts';
import { currentRisks } from '../assess/risks.ts';
import type { Sign } from '../assess/signs.ts';
import { isMoving } from '../assess/standing.ts';
import { type WorkDays, workDays } from '../assess/work-days.ts';
import type { Crew } from '../facts/types.ts';
import type { Finding } from '../rules/check.ts';
import type { Bounds } from './checklist.ts';
import type { ReportData, ReportTree, WorkOrder } from './data.ts';
import { EN_STOPS } from './languages/en-findings.ts';
import type { Speech } from './languages/language.ts';
import { byGravity } from './parts.ts';

/** The group of a job briefing that a finding belongs to. */
export const groupOf = ({ level, rule }: Finding): Finding['level'] => (rule in EN_STOPS ? 'error' : level);

/** Whether nobody climbs and no day counts until it is settled. Lateness does not: waiting makes it worse. */
export const isStop = (finding: Finding): boolean =>
  groupOf(finding) === 'error' && finding.rule !== 'mitigation-late';

/** Of the tree as a whole, what the crew has to know however grave it is. */
const OF_TREE: ReadonlySet<string> = new Set([
  'conductor-voltage-missing',
  'ground-only',
  'included-bark-union',
  'inspection-before-storm',
  'inspection-old',
  'nest-check-coarse',
  'pull-test-inclination',
  'readings-contradict',
  'strength-loss',
  'target-without-distance',
  'unqualified-person',
]);

/** Findings about another prescription belong to its own work order. */
function concerns({ entry, prescription: { id } }: WorkOrder, finding: Finding): boolean {
  const about = entry.prescriptionsOf(finding);
  return about.length > 0 ? about.includes(id.value) : finding.level === 'error' || OF_TREE.has(finding.rule);
}

/** Whether an exception covers it on all days of the work. */
const isCovered = ({ prescription: { between } }: WorkOrder, { accepted }: Finding): boolean =>
  accepted !== undefined && accepted.until >= (between?.to ?? accepted.until);

export const ownFindings = (order: WorkOrder): readonly Finding[] =>
  byGravity([
    ...order.entry.mistakesBeside(order.prescription),
    ...order.entry.findings.filter(one => concerns(order, one) && !isCovered(order, one)),
  ]);

/** What somebody accepted for this work. */
export const acceptedFindings = (order: WorkOrder): readonly Finding[] =>
  order.entry.findings.filter(one => concerns(order, one) && isCovered(order, one));

/** The crew of the work, where one is named and on record. */
export const crewOf = ({ prescription: { crew } }: WorkOrder, data: ReportData): Crew | undefined =>
  crew && data.crew(crew.value);

/** What no figure judges at the roots or the stem, and a crown that is dying: wood that may break under a climber. */
const isDoubtful = ({ standing, part, kind }: Sign): boolean =>
  (standing === 'not judged' && (part === 'roots and ground' || part === 'stem')) ||
  (kind === 'dieback' && standing !== 'within');

/**
 * Whose limit a sign may exceed, what is not judged, and, where the briefing does not say so already, what is failing
 * now.
 */
export function bansOf(
  { entry: { tree, site, settings, assessment } }: WorkOrder,
  own: readonly Finding[],
): readonly ClimbingBan[] {
  const bans = unsafeToClimb({ tree, site, settings });
  const isBriefed = own.some(({ rule }) => rule === 'movement');
  const isBan = ({ kind, subject }: Sign) =>
    bans.some(({ sign }) => sign.kind === kind && sign.subject === subject);
  const doubtful = assessment.signs.filter(
    sign => (isMoving(sign) ? !isBriefed : isDoubtful(sign)) && !isBan(sign),
  );
  return [
    ...bans,
    ...doubtful.map(sign => ({
      sign,
      reason: `${sign.name} (${sign.why})`,
      isWhole: true,
      isSure: false,
    })),
  ];
}

/** The figure that the check advises to write instead of that of the prescription. */
const advised = (own: readonly Finding[], rule: string, field: RegExp): string | undefined =>
  own
    .filter(finding => finding.rule === rule)
    .flatMap(({ advice = [] }) => advice.flatMap(({ lines }) => lines))
    .flatMap(line => field.exec(line)?.[1] ?? [])[0];

export const isZoneShort = ({ rule }: Finding): boolean => rule === 'work-over-target-without-exclusion';

/**
 * The drop zone is the stated one or, where wood may reach farther, what that asks for, whoever is about: the crew is
 * under the tree. Unknown where nobody can say how far wood reaches.
 */
export function boundsIn(
  { entry: { tree, settings }, prescription }: WorkOrder,
  own: readonly Finding[],
  { figure, figures }: Speech,
): Bounds {
  const { exclusion, cutDiameter } = prescription;
  const cuts = advised(own, 'cut-diameter', /^cuts up to ([^,]+)/);
  const isStated = isRead(exclusion);
  const zone = (): string | undefined => {
    const isCut = openPrescriptions(tree).includes(prescription);
    const need = isCut ? clearRadius(tree, prescription, settings).high : 0;
    const { low, high } = isStated ? readingOf(exclusion, settings) : { low: 0, high: 0 };
    const isKept = isStated && low >= need;
    if (isKept && exclusion!.value.form === 'exact') return figure(exclusion!);
    const most = lengthUp(Math.max(need, high < Infinity ? high : low), exclusion?.value, tree.height?.value);
    return most && figures(most);
  };
  return {
    zone: isStated || comesDownWhole(prescription) || own.some(isZoneShort) ? zone() : undefined,
    cuts: cuts === undefined ? cutDiameter && figure(cutDiameter) : figures(cuts),
  };
}

/** The widest distance to keep from a nest near the work. */
export function nestDistanceIn(
  { entry: { tree, settings, nestTreesNear }, prescription }: WorkOrder,
  { on }: ReportData,
  { figures }: Speech,
): string | undefined {
  const days = daysLeft(prescription, on);
  if (!days) return undefined;
  const metres = nestsNear({ tree, settings, today: on, nestTreesNear }).flatMap(
    near => meetingOf(near, days, prescription)?.setting.value ?? [],
  );
  const most = lengthUp(Math.max(0, ...metres), tree.height?.value);
  return most && figures(most);
}

/** Nobody where something forbids it or has to be settled first, else those of the crew who are qualified on the day. */
export function climbersIn(
  order: WorkOrder,
  bans: readonly ClimbingBan[],
  isStopped: boolean,
  data: ReportData,
  { say, listed, date }: Speech,
): string {
  if (isStopped || bans.some(({ isSure }) => isSure)) return say('climbers none');
  if (bans.length > 0) return say('climbers doubtful');
  if (isLineOpen(order, data)) return say('climbers line');
  if (isUninspected(order.entry.tree)) return say('climbers unseen');
  if (isFeared(order.entry)) return say('climbers rated');
  const { from, to } = daysLeft(order.prescription, data.on) ?? { from: data.on, to: data.on };
  const climbers = (crewOf(order, data)?.members ?? []).flatMap(({ value }) => {
    const person = data.person(value);
    if (!person || !qualifiedOn(person, 'climbing arborist', from)) return [];
    const name = person.name.value;
    const until = expiredCertificate(person, 'climbing arborist', to)?.until;
    return [until === undefined ? name : say('climber until', { name, date: date(until) })];
  });
  return climbers.length > 0 ? say('climbers named', { names: listed(climbers) }) : say('climbers unknown');
}

/** Whether the failure of a part is imminent, or a risk of the tree is rated extreme. */
const isFeared = ({ tree, site, settings }: ReportTree): boolean =>
  isRatedExtreme(tree) ||
  currentRisks(tree).some(({ failure }) => failure?.value === 'imminent') ||
  imminentParts({ tree, site, settings }).length > 0;

/** Whether the crew comes too near a line, which is not off on all days of the work. */
function isLineOpen({ entry, prescription }: WorkOrder, { on, person, crew }: ReportData): boolean {
  const { tree, site, settings } = entry;
  const around = { tree, site, settings, today: on, person, crew };
  const days = daysLeft(prescription, on);
  return tree.conductors.some(
    conductor => lineOffFor(around, prescription, conductor) && deadOn(conductor, days) !== 'all',
  );
}

/** Whether no day counts: something is to be settled first, or the nesting season of the place is not known. */
export const isBarred = ({ entry: { settings } }: WorkOrder, own: readonly Finding[]): boolean =>
  own.some(isStop) || !settings.nesting;

export const plannedDays = (
  { entry: { tree, site, settings, nestTreesNear }, prescription }: WorkOrder,
  { on, person, crew }: ReportData,
): WorkDays => workDays({ tree, site, settings, today: on, person, crew, nestTreesNear }, prescription);

/** Which days the crew may work on; that work is overdue is no reason to put it off further. */
export function daysIn(
  { prescription: { between }, entry: { settings } }: WorkOrder,
  { window, open, because }: WorkDays,
  own: readonly Finding[],
  { say, days }: Speech,
): string {
  const isLate = own.some(({ rule }) => rule === 'mitigation-late');
  if (own.some(isStop)) return [say('clear days barred'), ...(isLate ? [say('overdue')] : [])].join('; ');
  if (!settings.nesting) return say('clear days unknown');
  if (!window) return between ? say('window past', { days: days(between) }) : say('window none');
  if (open.length > 0) return say('clear days on record', { days: open.map(days).join(', ') });
  return say(because.every(({ kind }) => kind === 'deadline') ? 'clear days late' : 'clear days none');
}
