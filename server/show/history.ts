/** The output of `history` for people: what happened to a tree by date, how fast it changes, what is owed to it. */

import { type Course, coursesOf, courseWords } from '../assess/courses.ts';
import { type DecayCourse, decayCourses } from '../assess/decay-time.ts';
import { defectName } from '../assess/evidence.ts';
import {
  type Growth,
  growthRates,
  type Shrunk,
  type SizeRecord,
  shrunk,
  sizesOverYears,
} from '../assess/growth.ts';
import { showLimit } from '../assess/judge.ts';
import { type Promised, promisesOf } from '../assess/promises.ts';
import { formatDate } from '../base/dates.ts';
import { numberText } from '../base/figures.ts';
import { METRES_PER_FOOT, unitOf } from '../base/quantity.ts';
import { capital } from '../base/words.ts';
import type { FieldChange } from '../compare/records.ts';
import type { Settings } from '../facts/settings.ts';
import type { Site, Tree } from '../facts/types.ts';
import { changeWords } from './comparison-text.ts';
import { inRegion, readInRegion } from './in-region.ts';
import { wrap } from './layout.ts';
import type { LifeEvent } from './life.ts';
import { longDate, type RegionCode } from './long-date.ts';
import { sanitizeForLog, sanitizeLine } from './sanitize.ts';
import type { Paint } from './terminal.ts';
import { courseText } from './weigh-evidence.ts';
import { sizeItems } from './words.ts';

/** A commit that changed the record of a tree. */
export interface Edit {
  readonly commit: string;
  readonly author: string;
  /** `2026-03-14`, by the author's clock. */
  readonly day: string;
  readonly state: 'added' | 'gone' | 'kept';
  readonly changes: readonly FieldChange[];
}

/** A tree over the years. */
export interface History {
  readonly tree: Tree;
  /** Path as shown to the reader. */
  readonly file: string;
  readonly today: number;
  readonly region: RegionCode;
  readonly events: readonly LifeEvent[];
  readonly growth: readonly Growth[];
  /** Diameters and heights of several days. */
  readonly sizes: readonly { readonly size: Shrunk['size']; readonly records: readonly SizeRecord[] }[];
  /** Sizes that contradict each other, so that no rate follows from them. */
  readonly contradicted: readonly Shrunk[];
  /** Lean, dieback and shares. */
  readonly changes: readonly Course[];
  readonly courses: readonly DecayCourse[];
  readonly promises: readonly Promised[];
  /** The newest first; undefined where git was not asked. */
  readonly edits?: readonly Edit[];
}

export const HISTORY_CAUTION =
  'Rates cover the full range of the readings and of the measurement error between two days. They do not predict what a tree will do next. The day on which a limit may be crossed is the earliest that they allow.';

export const historyOf = (
  context: {
    readonly tree: Tree;
    readonly site: Site | undefined;
    readonly settings: Settings;
    readonly today: number;
  },
  file: string,
  events: readonly LifeEvent[],
): History => {
  const { tree, site, settings, today } = context;
  return {
    tree,
    file,
    today,
    region: settings.region,
    events,
    growth: growthRates(tree, site, settings),
    sizes: sizesOverYears(tree, settings),
    contradicted: tree.felled ? [] : shrunk(tree, site, settings),
    changes: coursesOf(tree, site, settings),
    courses: decayCourses(tree, site, settings),
    promises: promisesOf(context),
  };
};

/** Whether a tree was visited on more than one day, so that there are years to tell of. */
export const isSeenAgain = ({ inspections }: Tree): boolean =>
  new Set(inspections.map(({ date }) => date.value)).size > 1;

/** `defect A cavity: wall 8 in at N`. */
export const eventText = ({ what, says }: LifeEvent, region: RegionCode): string =>
  says === '' ? what : readInRegion(`${what}: ${says}`, region);

/** `0..0.31 in a year`, of heights in the longer unit as written. */
export function rateText({ rate, from }: Growth): string {
  const unit = from.like.unit ?? unitOf('m')!;
  // What is read in feet or meters grows by tenths of them.
  const digits = unit.factor >= METRES_PER_FOOT ? 1 : 2;
  const number = numberText({ low: rate.low / unit.factor, high: rate.high / unit.factor }, digits);
  return `${number} ${unit.symbol} a year`;
}

export const growthText = (growth: Growth): string => {
  const { size, from, to, error } = growth;
  return `${capital(size)}: ${from.words} on ${formatDate(from.day)}, ${to.words} on ${formatDate(to.day)}: ${rateText(growth)}, with ${showLimit({ setting: error })} for measurement error.`;
};

const contradictedText = ({ size, earlier, later }: Shrunk): string =>
  `${capital(size)}: ${later.words} on ${formatDate(later.day)} contradicts ${earlier.words}${Number.isFinite(earlier.day) ? ` on ${formatDate(earlier.day)}` : ', not dated'}; no rate can be computed until this is resolved.`;

/** One sentence: the readings, the rate, and what follows. */
export function changeText(course: Course): string {
  const { name, rate, error, judged, limitDays, look } = course;
  const words = `${capital(name)}: ${courseWords(course)}`;
  if (!rate) return `${words}.`;
  const limit = showLimit(judged);
  const from = Number.isFinite(limitDays.low)
    ? `may reach ${limit} from ${formatDate(limitDays.low)} on${Number.isFinite(limitDays.high) ? '' : ', if at all'}; measure it again by ${formatDate(look)}`
    : `does not reach ${limit} at that rate`;
  return `${words}, with ${showLimit(error)} for measurement error; it ${from}.`;
}

export const promiseText = ({ what, due, left }: Promised, today: number): string => {
  const day = due === undefined ? 'no date' : `${due < today ? 'overdue since' : 'by'} ${formatDate(due)}`;
  return `${capital(what)}, ${day}${left === undefined ? '' : `; left: ${left}`}.`;
};

const editLines = (edits: readonly Edit[] | undefined): readonly string[] => {
  if (!edits) return [];
  if (edits.length === 0) return ['This tree is in no commit.'];
  return edits.map(({ commit, author, day, state, changes }) => {
    const what =
      state === 'kept'
        ? changes.map(changeWords).join('; ')
        : state === 'added'
          ? 'first recorded in this file'
          : 'removed from this file';
    return `${day}, ${author} (${commit.slice(0, 7)}): ${what}.`;
  });
};

/** Headings and sentences that follow the events; none where there is nothing to say. */
export const historySections = ({
  growth,
  contradicted,
  changes,
  courses,
  promises,
  today,
  region,
  edits,
}: History): readonly { readonly heading: string; readonly lines: readonly string[] }[] =>
  [
    { heading: 'Growth', lines: [...growth.map(growthText), ...contradicted.map(contradictedText)] },
    { heading: 'Change', lines: changes.map(changeText) },
    {
      heading: 'Decay',
      lines: courses.map(course => `${capital(defectName(course.defect))}: ${courseText(course)}`),
    },
    {
      heading: 'Outstanding',
      lines: promises
        .filter(({ due }) => due === undefined || due < today)
        .map(one => promiseText(one, today)),
    },
    {
      heading: 'Ahead',
      lines: promises
        .filter(({ due }) => due !== undefined && due >= today)
        .map(one => promiseText(one, today)),
    },
  ]
    .map(({ heading, lines }) => ({ heading, lines: lines.map(line => readInRegion(line, region)) }))
    .concat({ heading: 'Changes to the record, from git', lines: [...editLines(edits)] })
    .filter(({ lines }) => lines.length > 0);

const LATER_LEFT_OUT = 'Later records are left out.';

const INDENT = 2;

export function showHistories(histories: readonly History[], paint: Paint): string {
  return `${[...histories.map(history => showHistory(history, paint)), wrap(HISTORY_CAUTION, 0)].join('\n')}\n`;
}

function showHistory(history: History, paint: Paint): string {
  const { tree, file, events, region } = history;
  const name = tree.name ? ` "${tree.name.value}"` : '';
  const species = tree.species ? `, ${tree.species.value.name}` : '';
  const title = sanitizeForLog(`Tree ${tree.tag.value}${name}`);
  const about = sanitizeForLog(`${species} (${sanitizeLine(file)})`);
  const size = wrap(sanitizeForLog(inRegion(`${sizeItems(tree, ', ').join('; ')}.`, region)), INDENT);
  const days = events.map(({ day }) => longDate(day, region));
  const width = Math.max(...days.map(day => day.length));
  const lines = events.map((event, i) => eventLines(eventText(event, region), days[i]!.padEnd(width)));
  const sections = historySections(history).map(
    ({ heading, lines }) =>
      `\n${paint('bold', `${' '.repeat(INDENT)}${heading}`)}\n${lines.map(line => `${wrap(sanitizeForLog(line), 4, 6)}\n`).join('')}`,
  );
  const none = events.length === 0 ? [wrap('No dated events are on record.', INDENT)] : [];
  const later = tree.hasLater ? [wrap(LATER_LEFT_OUT, INDENT)] : [];
  return `${[`${paint('bold', title)}${about}`, size, '', ...lines, ...none, ...later].join('\n')}\n${sections.join('')}`;
}

/** The day, and beside it what happened. */
function eventLines(happened: string, day: string): string {
  const hanging = INDENT + day.length + 2;
  const text = wrap(sanitizeForLog(happened), hanging);
  return `${' '.repeat(INDENT)}${day}${text.slice(INDENT + day.length)}`;
}
