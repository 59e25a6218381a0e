/**
 * Days closed to a piece of work by any rule, and days clear of all of them. Every suggestion of a day comes from here,
 * so that following one rule does not violate another.
 */

import { formatDate } from '../base/dates.ts';
import { listed } from '../base/words.ts';
import { type DaySpan, overlap } from '../base/yearly-window.ts';
import type { NestTreesNear } from '../facts/nest-index.ts';
import type { Settings } from '../facts/settings.ts';
import { stagesOf } from '../facts/stages.ts';
import type { Crew, Person, Prescription, Site, Tree } from '../facts/types.ts';
import { type Priority, priorityDeadline, priorityFor } from '../practice/risk.ts';
import { activeNests, nestDays } from './active-nests.ts';
import { answersRisk, areAbout } from './causes.ts';
import { clearanceEnds, lineOffFor } from './conductors.ts';
import { banDays, cuttingBans, showBan } from './cutting-bans.ts';
import { showCount, showDays, without } from './days.ts';
import { isDead, takesFoliage } from './doses.ts';
import { openDefects, openFollowUps } from './evidence.ts';
import { areAlternatives } from './jobs.ts';
import { meetingOf, nestsNear } from './near-nests.ts';
import { lastCheckBy, nestingDays, nestingSeasons, showSeason } from './nesting.ts';
import { permitNeeds } from './permit-needs.ts';
import { permitFor } from './permits.ts';
import { pruningWeeks, showWeeks } from './pest-windows.ts';
import {
  areApart,
  areReduceAndThin,
  asksTheSame,
  endsTree,
  jobName,
  openPrescriptionsOfAnyKind,
} from './prescriptions.ts';
import { currentRisks, ratingToActOn } from './risks.ts';
import {
  batSeasons,
  lastBatCheckBy,
  meetsRoosts,
  roostFeatures,
  roostsMet,
  showBatSeason,
} from './roosts.ts';

/** The part of a rule's context that determines closed days. */
export interface DayContext {
  readonly tree: Tree;
  readonly site: Site | undefined;
  readonly settings: Settings;
  /** Day number. */
  readonly today: number;
  readonly person: (id: string) => Person | undefined;
  readonly crew: (id: string) => Crew | undefined;
  /** Other trees with nests. */
  readonly nestTreesNear: NestTreesNear;
}

/** Days closed for one reason. */
export interface Closure {
  /** In order; at least one. */
  readonly days: readonly DaySpan[];
  /** A clause: `permit TR-2291 ends on 2026-08-31`. */
  readonly why: string;
}

type Closes = (context: DayContext, prescription: Prescription, span: DaySpan) => readonly Closure[];

const closed = (days: readonly DaySpan[], why: string): readonly Closure[] =>
  days.length > 0 ? [{ days, why }] : [];

function overlapOf(a: DaySpan, b: DaySpan): readonly DaySpan[] {
  const shared = { from: Math.max(a.from, b.from), to: Math.min(a.to, b.to) };
  return shared.from <= shared.to ? [shared] : [];
}

const from = (day: number, span: DaySpan): readonly DaySpan[] => overlapOf(span, { from: day, to: span.to });

/** A check that found no active nest opens the days for which it is valid. */
const nestingSeason: Closes = ({ tree, settings }, _, span) => {
  const seasons = nestingSeasons(tree, settings);
  const days = nestingDays(span, seasons);
  if (days.length === 0) return [];
  const validity = Math.floor(settings.limit('nest-check-validity').value);
  const check = lastCheckBy(tree, span.to);
  const free =
    check && check.found.length > 0 && check.found.every(({ use }) => use === 'none' || use === 'old');
  const left = free ? without(days, [{ from: check.date.value, to: check.date.value + validity }]) : days;
  return closed(
    left,
    `days in ${showSeason(days, seasons)} need a nest check at most ${showCount(validity)} old`,
  );
};

/** Whatever a nest check finds. A ban that may hold keeps its days closed. */
const bans: Closes = (context, prescription, span) =>
  cuttingBans(context, prescription).flatMap(ban =>
    closed(banDays(ban, prescription, span), `${showBan(ban)} are excluded`),
  );

const nests: Closes = ({ tree, settings }, _, span) => {
  const seasons = nestingSeasons(tree, settings);
  return activeNests(tree).flatMap(nest => {
    const days = nestDays(nest, span, seasons);
    const state = nest.use === 'active' ? 'active' : 'unclear, perhaps active,';
    return days ? closed([days], `a nest found ${state} on ${formatDate(nest.seen)} closes the work`) : [];
  });
};

/** Nests in other trees that are, or may be, nearer than what is kept from them. */
const nearNests: Closes = (context, prescription, span) =>
  nestsNear(context).flatMap(near => {
    const meeting = meetingOf(near, span, prescription);
    if (!meeting) return [];
    const { nest, where, distance, keeping, days } = meeting;
    const place = `${where}${distance ? '' : ', at an unknown distance,'}`;
    return closed(
      [days],
      `the nest found on ${formatDate(nest.seen)} in ${place} closes ${keeping.seasons ? 'the work' : 'felling of the trees around it'}`,
    );
  });

const pests: Closes = ({ tree, settings }, prescription, span) =>
  pruningWeeks(tree, prescription, settings).flatMap(weeks =>
    closed(overlap(span.from, span.to, weeks.window), `${showWeeks(weeks)} are excluded`),
  );

/** A valid check is required in the maternity season, and always once a check was made. */
const bats: Closes = ({ tree, settings, today }, prescription, span) => {
  const found = roostsMet(tree, prescription).map(({ day, use }) =>
    closed(from(day, span), `the bat check of ${formatDate(day)} found ${use}`),
  );
  // A roost remains protected whatever the next check finds.
  if (found.length > 0 || !meetsRoosts(prescription, roostFeatures(tree))) return found.flat();
  const check = lastBatCheckBy(tree, Math.max(today, span.to));
  const validity = Math.floor(settings.limit('bat-check-validity').value);
  const holds = check && { from: check.date.value, to: check.date.value + validity };
  const seasons = batSeasons(prescription, settings).flatMap(one => {
    const days = overlap(span.from, span.to, one.season.window);
    return closed(holds ? without(days, [holds]) : days, `${showBatSeason(one)} is excluded`);
  });
  return [
    ...seasons,
    ...(holds
      ? closed(
          from(holds.to + 1, span),
          `the bat check of ${formatDate(holds.from)} is valid until ${formatDate(holds.to)}`,
        )
      : []),
  ];
};

const permit: Closes = ({ tree }, prescription, span) => {
  const held = permitFor(tree, prescription);
  if (held?.until === undefined) return [];
  return closed(from(held.until + 1, span), `permit ${held.number.value} ends on ${formatDate(held.until)}`);
};

/** The time of notice that runs before work without a permit; it begins today at best. */
const notices: Closes = (context, prescription, span) =>
  permitNeeds(context, prescription).flatMap(({ row, noticeEnds }) => {
    const ends = noticeEnds ?? context.today + (row.rule.notice ?? 0);
    return row.rule.notice === undefined
      ? []
      : closed(
          overlapOf(span, { from: span.from, to: ends - 1 }),
          `the notice period runs until ${formatDate(ends)} (${row.source})`,
        );
  });

const stress: Closes = ({ tree, settings }, prescription, span) => {
  const { stressed } = tree;
  if (stressed?.since === undefined || isDead(tree) || !takesFoliage(prescription)) return [];
  const free = Math.ceil(stressed.since + settings.limit('stress-recovery').value);
  return closed(
    overlapOf(span, { from: span.from, to: free - 1 }),
    `the tree recovers from ${stressed.cause} until ${formatDate(free)}`,
  );
};

/** Days on which a line that has to be off is not, or certificates for line clearance are not valid. */
const lines: Closes = (context, prescription, span) => {
  const { tree } = context;
  if (tree.conductors.length === 0) return [];
  const off = tree.conductors
    .filter(({ dead }) => dead !== undefined)
    .filter(conductor => lineOffFor(context, prescription, conductor))
    .flatMap(({ name, dead }) =>
      closed(without([span], [dead!]), `line ${name.value} is de-energized only on ${showDays(dead!)}`),
    );
  const ends = clearanceEnds(context, prescription);
  return ends === undefined
    ? off
    : [...off, ...closed(from(ends + 1, span), `line-clearance certificates expire on ${formatDate(ends)}`)];
};

/** The next stage waits for a year from the last one. */
const stages: Closes = ({ tree, settings }, prescription, span) => {
  const done = tree.works.filter(
    ({ prescription: { value }, unfinished }) => !unfinished && value === prescription.id.value,
  );
  if (done.length === 0 || stagesOf(prescription) === 1) return [];
  const last = Math.max(...done.map(({ date }) => date.value));
  const wait = Math.ceil(settings.limit('stage-interval').value);
  return closed(
    overlapOf(span, { from: span.from, to: last + wait - 1 }),
    `the last stage of ${jobName(prescription)} was done on ${formatDate(last)}`,
  );
};

/** Work keeps its order relative to other work; a thinning and a reduction keep their distance. */
const otherWork: Closes = ({ tree, settings }, prescription, span) => {
  const { between } = prescription;
  if (!between) return [];
  const interval = Math.ceil(settings.limit('stage-interval').value);
  return openPrescriptionsOfAnyKind(tree).flatMap(other => {
    const then = other.between;
    if (!then || other === prescription || areAlternatives(tree, other, prescription)) return [];
    const mustPrecede =
      between.to < then.from &&
      ((endsTree(other) && !endsTree(prescription)) || asksTheSame(prescription, other));
    const mustKeepApart = areReduceAndThin(prescription, other) && areApart(prescription, other, interval);
    return [
      ...(mustPrecede
        ? closed(from(then.from, span), `${jobName(other)} begins on ${formatDate(then.from)}`)
        : []),
      ...(mustKeepApart
        ? closed(
            overlapOf(span, { from: then.from - interval + 1, to: then.to + interval - 1 }),
            `${jobName(other)} is planned for ${showDays(then)}`,
          )
        : []),
    ];
  });
};

/** Work for a suspected defect waits for the planned investigation. */
const looks: Closes = ({ tree }, { for: causes, between }, span) => {
  const suspected = openDefects(tree).filter(
    defect => defect.state?.value === 'suspected' && (causes.length === 0 || areAbout(causes, defect)),
  );
  if (suspected.length === 0 || !between) return [];
  return openFollowUps(tree).flatMap(({ id, of, due }) =>
    due && due.value <= between.to && suspected.some(defect => areAbout(of, defect))
      ? closed(
          overlapOf(span, { from: span.from, to: due.value - 1 }),
          `follow-up ${id.value} is to settle the suspicion by ${formatDate(due.value)}`,
        )
      : [],
  );
};

/** Days after the deadline from priority and ratings. */
const deadline: Closes = ({ tree, settings }, prescription, span) => {
  const due = dueBy(tree, prescription, settings);
  if (!due) return [];
  // Late work must not be postponed further if it is urgent; otherwise its date is a separate finding.
  const isLate = prescription.between !== undefined && prescription.between.from > due.day;
  if (isLate && !due.grave) return [];
  return closed(from(due.day + 1, span), `${due.why} requires it by ${formatDate(due.day)}`);
};

interface UrgentDeadline {
  readonly day: number;
  readonly why: string;
  readonly grave: boolean;
}

const GRAVE: ReadonlySet<string> = new Set(['immediate', 'high'] satisfies Priority[]);

/** The earliest deadline from its own priority and the ratings that it mitigates. */
function dueBy(tree: Tree, prescription: Prescription, settings: Settings): UrgentDeadline | undefined {
  const { priority, dated } = prescription;
  const within = (name: Priority) => Math.floor(settings.limit(priorityDeadline[name]).value);
  const isPriority = (word: string | undefined): word is Priority =>
    word !== undefined && Object.hasOwn(priorityDeadline, word);
  const own = priority?.value;
  const found: UrgentDeadline[] = [];
  if (isPriority(own) && dated !== undefined)
    found.push({ day: dated + within(own), why: `priority ${own}`, grave: GRAVE.has(own) });
  for (const risk of currentRisks(tree)) {
    const rating = ratingToActOn(risk);
    if (!rating || risk.seen === undefined || !answersRisk(tree, prescription, risk)) continue;
    const name = priorityFor[rating];
    found.push({ day: risk.seen + within(name), why: `the ${rating} rating`, grave: GRAVE.has(name) });
  }
  return found.sort((a, b) => a.day - b.day)[0];
}

const CLOSES = {
  nestingSeason,
  bans,
  nests,
  nearNests,
  pests,
  bats,
  permit,
  notices,
  stress,
  lines,
  stages,
  otherWork,
  looks,
  deadline,
} satisfies Readonly<Record<string, Closes>>;

export type ClosureKind = keyof typeof CLOSES;

export const closuresByKind = (
  context: DayContext,
  prescription: Prescription,
  span: DaySpan,
): readonly (readonly [ClosureKind, readonly Closure[]])[] =>
  (Object.keys(CLOSES) as ClosureKind[]).map(kind => [kind, CLOSES[kind](context, prescription, span)]);

export const closuresOf = (
  context: DayContext,
  prescription: Prescription,
  span: DaySpan,
): readonly Closure[] => closuresByKind(context, prescription, span).flatMap(([, closures]) => closures);

const openDays = (span: DaySpan, closures: readonly Closure[]): readonly DaySpan[] =>
  closures.reduce<readonly DaySpan[]>((left, { days }) => without(left, days), [span]);

/** In order. */
export const clearDays = (
  context: DayContext,
  prescription: Prescription,
  span: DaySpan,
): readonly DaySpan[] => openDays(span, closuresOf(context, prescription, span));

/** Search horizon, days. */
const IN_SIGHT = 730;

export interface OtherDays {
  /** Clear parts of the days themselves. */
  readonly keep: readonly DaySpan[];
  /** The first clear stretch of the same length, else the first of any length within the horizon. */
  readonly move: DaySpan | undefined;
  /**
   * Beginning of a remedy: `Keep the work to 2026-09-01..2026-10-10`, `Move the work to 2026-09-01..2026-09-20`;
   * undefined without a clear day.
   */
  readonly words: string | undefined;
  /** `Moving the work to a clear day is not possible: permit TR-2291 ends on 2026-08-31`. */
  readonly none: string;
}

/** Clear days for work that is scheduled on these days. */
export function otherDays(context: DayContext, prescription: Prescription, days: DaySpan): OtherDays {
  const sight = { from: days.from, to: days.to + IN_SIGHT };
  const closures = closuresOf(context, prescription, sight);
  const open = openDays(sight, closures);
  const keep = open
    .filter(stretch => stretch.from <= days.to)
    .map(stretch => ({ from: stretch.from, to: Math.min(stretch.to, days.to) }));
  const length = days.to - days.from;
  const whole = open.find(stretch => stretch.to - stretch.from >= length);
  const move = whole ? { from: whole.from, to: whole.from + length } : open[0];
  const kept = keep.length > 0 ? `Keep the work to ${keep.map(showDays).join(' or ')}` : undefined;
  const moved = move && move.from > days.from ? showDays(move) : undefined;
  const words = kept
    ? `${kept}${whole && moved ? `, or move it to ${moved}` : ''}`
    : moved && `Move the work to ${moved}`;
  return {
    keep,
    move,
    words,
    none: `Moving the work to a clear day is not possible: ${reasons(closures, sight)}`,
  };
}

/** The closures that each close all days, else all closures. */
function reasons(closures: readonly Closure[], sight: DaySpan): string {
  const lasting = closures.filter(({ days }) => days.at(-1)!.to === sight.to && days.length === 1);
  const told = lasting.length > 0 ? lasting : closures;
  return listed([...new Set(told.map(({ why }) => why))]);
}
