/** What a work order allows: who climbs, on which days, within which figures. */

import { type ClimbingBan, unsafeToClimb } from '../assess/climbing.ts';
import { deadOn, lineOffFor } from '../assess/conductors.ts';
import { meetingOf, nestsNear } from '../assess/near-nests.ts';
import { daysLeft, lengthUp } from '../assess/prescriptions.ts';
import { qualifiedOn } from '../assess/qualifications.ts';
import type { Sign } from '../assess/signs.ts';
import { isMoving } from '../assess/standing.ts';
import { type WorkDays, workDays } from '../assess/work-days.ts';
import type { Crew } from '../facts/types.ts';
import type { Finding } from '../rules/check.ts';
import type { Bounds } from './checklist.ts';
import type { ReportData, WorkOrder } from './data.ts';
import { EN_STOPS } from './languages/en-findings.ts';
import type { Speech } from './languages/language.ts';
import { byGravity } from './parts.ts';

/** The group of a job briefing that a finding belongs to. */
export const groupOf = ({ level, rule }: Finding): Finding['level'] => (rule in EN_STOPS ? 'error' : level);

/** Whether nobody climbs and no day counts until it is settled. Lateness does not: waiting makes it worse. */
export const isStop = (finding: Finding): boolean =>
  groupOf(finding) === 'error' && finding.rule !== 'mitigation-late';

/** Findings about another prescription belong to its own work order. */
export const ownFindings = ({ entry, prescription: { id } }: WorkOrder): readonly Finding[] =>
  byGravity(entry.findings).filter(finding => {
    const about = entry.prescriptionsOf(finding);
    return !finding.accepted && (about.length > 0 ? about.includes(id.value) : finding.level === 'error');
  });

/** The crew of the work, where one is named and on record. */
export const crewOf = ({ prescription: { crew } }: WorkOrder, data: ReportData): Crew | undefined =>
  crew && data.crew(crew.value);

/** Whose limit a sign may exceed, and, where the briefing does not say so already, what is failing now. */
export function bansOf(
  { entry: { tree, site, settings, assessment } }: WorkOrder,
  own: readonly Finding[],
): readonly ClimbingBan[] {
  const bans = unsafeToClimb({ tree, site, settings });
  if (own.some(({ rule }) => rule === 'movement')) return bans;
  const isBan = ({ kind, subject }: Sign) =>
    bans.some(({ sign }) => sign.kind === kind && sign.subject === subject);
  const failing = assessment.signs.filter(sign => isMoving(sign) && !isBan(sign));
  return [
    ...bans,
    ...failing.map(sign => ({
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

export function boundsIn(
  { prescription: { exclusion, cutDiameter } }: WorkOrder,
  own: readonly Finding[],
  { figure, figures }: Speech,
): Bounds {
  const stricter = (found: string | undefined, written: typeof exclusion) =>
    found === undefined ? written && figure(written) : figures(found);
  return {
    zone: stricter(advised(own, 'work-over-target-without-exclusion', /^exclusion (.+)/), exclusion),
    cuts: stricter(advised(own, 'cut-diameter', /^cuts up to ([^,]+)/), cutDiameter),
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
  { say, listed }: Speech,
): string {
  if (isStopped || bans.some(({ isSure }) => isSure)) return say('climbers none');
  if (bans.length > 0) return say('climbers doubtful');
  if (isLineOpen(order, data)) return say('climbers line');
  const day = daysLeft(order.prescription, data.on)?.from ?? data.on;
  const climbers = (crewOf(order, data)?.members ?? []).flatMap(({ value }) => {
    const person = data.person(value);
    return person && qualifiedOn(person, 'climbing arborist', day) ? [person.name.value] : [];
  });
  return climbers.length > 0 ? say('climbers named', { names: listed(climbers) }) : say('climbers unknown');
}

/** Whether the crew comes too near a line, which is not off on all days of the work. */
function isLineOpen({ entry, prescription }: WorkOrder, { on, person, crew }: ReportData): boolean {
  const { tree, site, settings } = entry;
  const around = { tree, site, settings, today: on, person, crew };
  const days = daysLeft(prescription, on);
  return tree.conductors.some(
    conductor => lineOffFor(around, prescription, conductor) && deadOn(conductor, days) !== 'all',
  );
}

export const plannedDays = (
  { entry: { tree, site, settings, nestTreesNear }, prescription }: WorkOrder,
  { on, person, crew }: ReportData,
): WorkDays => workDays({ tree, site, settings, today: on, person, crew, nestTreesNear }, prescription);

/** Which days the crew may work on; that work is overdue is no reason to put it off further. */
export function daysIn(
  { prescription: { between } }: WorkOrder,
  { window, open, because }: WorkDays,
  own: readonly Finding[],
  { say, days }: Speech,
): string {
  const isLate = own.some(({ rule }) => rule === 'mitigation-late');
  if (own.some(isStop)) return [say('clear days barred'), ...(isLate ? [say('overdue')] : [])].join('; ');
  if (!window) return between ? say('window past', { days: days(between) }) : say('window none');
  if (open.length > 0) return say('clear days on record', { days: open.map(days).join(', ') });
  return say(because.every(({ kind }) => kind === 'deadline') ? 'clear days late' : 'clear days none');
}
