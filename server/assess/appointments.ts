/** Calendar entries of a tree: upcoming and overdue days. */

import { formatDate } from '../base/dates.ts';
import { capital, listed } from '../base/words.ts';
import type { DaySpan } from '../base/yearly-window.ts';
import type { Placed, Prescription, Site } from '../facts/types.ts';
import type { AppointmentKind } from './appointment-kinds.ts';
import type { DayContext } from './clear-days.ts';
import { showCount, showDays } from './days.ts';
import { openFollowUps } from './evidence.ts';
import { openPrescriptions } from './jobs.ts';
import { lastCheckBy, NESTING_CAUTION, nestingDays, nestingSeasons } from './nesting.ts';
import { nextLookOf, soonerWords } from './next-look.ts';
import { daysLeft, jobName, openPrescriptionsOfAnyKind, openWork } from './prescriptions.ts';
import { signsOf } from './signs.ts';
import { isMoving } from './standing.ts';
import { upkeepOf } from './upkeep.ts';
import { workDays } from './work-days.ts';

export interface Appointment extends DaySpan {
  readonly kind: AppointmentKind;
  /** Stable identifier within its tree: `R1`, `TR-2291`. */
  readonly subject: string;
  /** Title without the tree: `reduce R1`. */
  readonly title: string;
  /** Sentences. */
  readonly notes: readonly string[];
  /** Short names of those who are to do it; empty where nobody is named. */
  readonly who: readonly string[];
}

export interface AppointmentContext extends DayContext {
  readonly site: Site | undefined;
}

/**
 * Empty for a felled tree. Past days are omitted, except those of looks not yet taken and of supports still in place.
 */
export function appointmentsOf(context: AppointmentContext): readonly Appointment[] {
  const { tree } = context;
  if (tree.felled) return [];
  const now = { ...context, tree };
  return [
    ...openWork(tree).flatMap(prescription => workOf(prescription, now)),
    ...openPrescriptions(tree).flatMap(prescription => checksOf(prescription, now)),
    ...openFollowUps(tree).flatMap(({ id, kind, of, due, by }): Appointment[] => {
      if (!due) return [];
      const what = of.length > 0 ? ` of ${of.map(({ value }) => value).join(', ')}` : '';
      const title = `${kind.value} ${id.value}${what}${by ? ` (${by.value})` : ''} is due`;
      return [{ kind: 'follow-up', subject: id.value, title, notes: [], who: named(by), ...on(due.value) }];
    }),
    ...inspectionOf(now),
    ...upkeepOf(now).map(
      ({ kind, subject, day, what }): Appointment => ({
        kind,
        subject,
        title: what,
        notes: [],
        who: [],
        ...on(day),
      }),
    ),
    ...endsOf(now),
  ];
}

const named = (...names: readonly (Placed<string> | undefined)[]): readonly string[] =>
  names.flatMap(name => (name ? [name.value] : []));

const on = (day: number): DaySpan => ({ from: day, to: day });

function workOf(prescription: Prescription, context: AppointmentContext): readonly Appointment[] {
  const { between, id, by, because } = prescription;
  if (!between || !daysLeft(prescription, context.today)) return [];
  const { open, because: closures } = workDays(context, prescription);
  const closed = closures.map(({ why }) => why);
  const notes = [
    ...(because ? [`Why: ${because.value}`] : []),
    ...(by ? [`Prescribed by ${by.value}.`] : []),
    ...closed,
  ];
  const last = open.at(-1)?.to;
  const name = jobName(prescription);
  const who = named(prescription.crew);
  return [
    { kind: 'window', subject: id.value, title: name, notes, who, from: between.from, to: between.to },
    ...(last === undefined
      ? []
      : [
          {
            kind: 'last day for work' as const,
            subject: id.value,
            title: `last day for ${name}`,
            notes: [
              'The last day of the work window on which no recorded closure applies. Local law and the person on site decide.',
              ...closed,
            ],
            who,
            ...on(last),
          },
        ]),
  ];
}

/** Nest checks before cuts in the nesting season, and the validity of the last one. */
function checksOf(
  prescription: Prescription,
  { tree, settings, today }: AppointmentContext,
): readonly Appointment[] {
  const days = daysLeft(prescription, today);
  const closed = days ? nestingDays(days, nestingSeasons(tree, settings)) : [];
  if (closed.length === 0) return [];
  const validity = Math.floor(settings.limit('nest-check-validity', days!.to).value);
  const name = jobName(prescription);
  const subject = prescription.id.value;
  const check = lastCheckBy(tree, today);
  const clear =
    check && check.found.length > 0 && check.found.every(({ use }) => use === 'none' || use === 'old');
  const holds = clear ? check.date.value + validity : undefined;
  const unchecked = closed
    .map(({ from, to }) => ({ from: Math.max(from, (holds ?? from - 1) + 1), to }))
    .find(({ from, to }) => from <= to);
  const found: Appointment[] = [];
  if (holds !== undefined && holds >= today) {
    found.push({
      kind: 'nest check ends',
      subject,
      title: `last day on which the nest check for ${name} is valid`,
      notes: [
        `It was made on ${formatDate(check!.date.value)} and is valid for ${showCount(validity)}.`,
        NESTING_CAUTION,
      ],
      who: named(prescription.crew),
      ...on(holds),
    });
  }
  if (unchecked) {
    found.push({
      kind: 'nest check',
      subject,
      title: `check for nests before ${name}`,
      notes: [
        `Days in the nesting season: ${closed.map(showDays).join(', ')}. A check is valid for ${showCount(validity)}; a later start needs a later check.`,
        NESTING_CAUTION,
      ],
      who: [],
      from: Math.max(today, unchecked.from - validity),
      to: unchecked.from,
    });
  }
  return found;
}

/** Due day of the next inspection; today for a failing tree. */
function inspectionOf({ tree, site, settings, today }: AppointmentContext): readonly Appointment[] {
  const signs = signsOf({ tree, site, settings }).filter(({ standing }) => standing !== 'within');
  const moving = signs.filter(isMoving);
  if (moving.length > 0) {
    return [
      {
        kind: 're-inspection',
        subject: 'tree',
        title: 'keep people out and have it assessed today',
        notes: [
          `${capital(listed(moving.map(({ name, why }) => `${name} (${why})`)))}: it may fail at any time.`,
        ],
        who: [],
        ...on(today),
      },
    ];
  }
  const next = nextLookOf({ tree, site, settings, today });
  if (!next) return [];
  const seen = next.with.length > 0 ? `, with ${next.with.join(', ')},` : '';
  return [
    {
      kind: 're-inspection',
      subject: 'tree',
      title: 're-inspection is due',
      notes: [
        `The tree${seen} was last inspected on ${formatDate(next.last.day)}.`,
        ...(next.sooner ? [`Sooner than the regular interval: ${soonerWords(next.sooner)}.`] : []),
      ],
      who: [],
      ...on(next.day),
    },
  ];
}

/** Expiry of permits and accepted findings. */
function endsOf({ tree, today }: AppointmentContext): readonly Appointment[] {
  const permits = new Map<string, number>();
  const { protection } = tree;
  if (protection?.permit && protection.until !== undefined)
    permits.set(protection.permit.value, protection.until);
  for (const { permit } of openPrescriptionsOfAnyKind(tree))
    if (permit?.until !== undefined)
      // Two days for one permit: the earlier applies.
      permits.set(
        permit.number.value,
        Math.min(permit.until, permits.get(permit.number.value) ?? permit.until),
      );
  const ends = [...permits].map(
    ([number, day]): Appointment => ({
      kind: 'permit ends',
      subject: number,
      title: `last day of permit ${number}`,
      notes: [],
      who: [],
      ...on(day),
    }),
  );
  const exceptions = tree.accepts.flatMap(({ rule, subject, until, by, because }): Appointment[] => {
    if (!until) return [];
    const what = `${rule.value}${subject ? ` for ${subject.value}` : ''}`;
    const notes = [
      ...(by ? [`Accepted by ${by.value}.`] : []),
      ...(because ? [`Why: ${because.value}`] : []),
    ];
    return [
      {
        kind: 'exception ends',
        subject: what,
        title: `last day of the exception to ${what}`,
        notes,
        who: named(by),
        ...on(until.value),
      },
    ];
  });
  return [...ends, ...exceptions].filter(({ to }) => to >= today);
}
