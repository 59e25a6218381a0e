import { calendarDate, dayNumber, formatDate } from '../../base/dates.ts';
import type { Interval } from '../../base/interval.ts';
import { DAYS_PER_YEAR } from '../../base/quantity.ts';
import { LIFE_KINDS, type LifeEvent, type LifeKind } from '../life.ts';
import { label, n, picture } from './svg.ts';

interface TimelineWall {
  /** `cavity A`. */
  readonly name: string;
  /** The thinnest wall as read, m, and on which day. */
  readonly wall: Interval;
  readonly read: number;
  /** This and earlier ones. */
  readonly readings: readonly { readonly day: number; readonly wall: Interval }[];
  /** What the limit asks for, m; the days on which the wall may be, and certainly is, down to it. */
  readonly limit: Interval;
  readonly limitDays: Interval;
  /** The wall that may be left on a later day. */
  readonly on: (day: number) => Interval;
  /** In the unit of the record. */
  readonly lengthText: (metres: number) => string;
}

export interface Timeline {
  readonly title: string;
  readonly today: number;
  readonly events: readonly LifeEvent[];
  readonly walls: readonly TimelineWall[];
  /** Below the picture. */
  readonly lines: readonly string[];
}

const WIDTH = 320;
const LEFT = 14;
const RIGHT = 306;
const TOP = 34;
const LANE = 27;
const PANEL = 104;
const LINE = 15;
/** The days after today are at most so many times those before, lest they crowd them. */
const AHEAD = 1.5;

/** Of each kind its words and its mark: the lanes are apart, and the marks of each differ in shape. */
const LANES: Readonly<Record<LifeKind, readonly [words: string, mark: (x: number, y: number) => string]>> = {
  inspection: [
    'inspections',
    (x, y) => `<circle class="void" stroke-width="1.5" cx="${n(x)}" cy="${n(y)}" r="4"/>`,
  ],
  reading: ['readings', (x, y) => shape('solid', `M${n(x)} ${n(y - 5)}l4 5l-4 5l-4 -5Z`)],
  rating: ['ratings', (x, y) => shape('void', `M${n(x - 4)} ${n(y + 4)}h8l-4 -8Z`)],
  prescription: ['prescriptions', (x, y) => shape('void', `M${n(x - 4)} ${n(y - 4)}h8v8h-8Z`)],
  work: ['work', (x, y) => shape('solid', `M${n(x - 4)} ${n(y - 4)}h8v8h-8Z`)],
  permit: ['permits', (x, y) => shape('ink', `M${n(x - 4)} ${n(y - 4)}l8 8m0 -8l-8 8`)],
  wildlife: ['nests and bats', (x, y) => shape('ink', `M${n(x - 5)} ${n(y - 2)}q5 8 10 0`)],
  photograph: ['photographs', (x, y) => shape('ink', `M${n(x - 5)} ${n(y - 3)}h10v7h-10Zm5 1.5v4`)],
  other: ['other events', (x, y) => shape('ink', `M${n(x)} ${n(y - 5)}v10m-5 -5h10`)],
};

const shape = (look: string, path: string): string =>
  `<path class="${look}" stroke-width="1.5" d="${path}"/>`;

export function drawTimeline({ title, today, events, walls, lines }: Timeline): {
  readonly svg: string;
  readonly description: string;
} {
  const days = [...events.map(({ day }) => day), ...walls.map(({ read }) => read), today];
  const first = Math.min(...days) - DAYS_PER_YEAR / 4;
  const aheadDays = walls.map(({ limitDays }) => limitDays.low).filter(Number.isFinite);
  const span = Math.max(today - first, DAYS_PER_YEAR);
  const last = Math.min(today + AHEAD * span, Math.max(today, ...aheadDays) + span / 10);
  const x = (day: number) => LEFT + ((day - first) / (last - first)) * (RIGHT - LEFT);
  const kinds = LIFE_KINDS.filter(kind => events.some(one => one.kind === kind));
  const axis = TOP + kinds.length * LANE + 4;
  const panels = axis + 22;
  const bottom = panels + walls.length * PANEL;
  const height = bottom + lines.length * LINE + 8;
  const lanes = kinds.flatMap((kind, i) => lane(kind, events, TOP + i * LANE, x));
  const drawn = walls.flatMap((wall, i) => panel(wall, panels + i * PANEL, last, x));
  const description = `${kinds
    .map(kind => `${LANES[kind][0]}: ${dated(events.filter(one => one.kind === kind))}`)
    .join('; ')}${walls.map(wall => `; ${wallWords(wall)}`).join('')}`;
  const now = x(today);
  const svg = picture({ width: WIDTH, height, title, description }, [
    label(12, 22, title, { size: 14 }),
    ...years(first, last, axis, x),
    `<path class="mark" stroke-width="1.5" stroke-dasharray="5 3" d="M${n(now)} ${TOP - 2}V${n(bottom - 4)}"/>`,
    label(now > 220 ? now - 4 : now + 4, TOP + 4, formatDate(today), {
      anchor: now > 220 ? 'end' : 'start',
      size: 10,
      mark: true,
      apart: true,
    }),
    ...lanes,
    ...drawn,
    ...lines.map((line, i) => label(12, bottom + (i + 1) * LINE - 4, line, { size: 11 })),
  ]);
  return { svg, description };
}

const dated = (events: readonly LifeEvent[]): string =>
  [...new Set(events.map(({ day }) => day))]
    .map(day => {
      const count = events.filter(one => one.day === day).length;
      return count === 1 ? formatDate(day) : `${formatDate(day)} (${count})`;
    })
    .join(', ');

/** The kind and its marks; where one stands for several of a day, their number. */
function lane(
  kind: LifeKind,
  events: readonly LifeEvent[],
  top: number,
  x: (day: number) => number,
): readonly string[] {
  const [words, mark] = LANES[kind];
  const counts = new Map<number, number>();
  for (const event of events)
    if (event.kind === kind) counts.set(event.day, (counts.get(event.day) ?? 0) + 1);
  const y = top + 18;
  return [
    `<path class="soil" stroke-width="1" d="M${LEFT} ${n(y)}H${RIGHT}"/>`,
    label(LEFT, top + 9, words, { size: 10, apart: true }),
    ...[...counts].flatMap(([day, count]) => [
      mark(x(day), y),
      ...(count > 1 ? [label(x(day) + 7, y + 4, `${count}`, { size: 10, apart: true })] : []),
    ]),
  ];
}

/** Years below the lanes: as many as have room. */
function years(first: number, last: number, axis: number, x: (day: number) => number): readonly string[] {
  const from = calendarDate(first).year + 1;
  const to = calendarDate(last).year;
  const every = Math.max(1, Math.ceil((to - from + 1) / 7));
  const ticks: string[] = [];
  for (let year = from; year <= to; year++) {
    const at = x(dayNumber(year, 1, 1)!);
    const isNamed = (year - from) % every === 0;
    ticks.push(`<path class="ink" stroke-width="1" d="M${n(at)} ${axis}v${isNamed ? 5 : 3}"/>`);
    if (isNamed && at < RIGHT - 10)
      ticks.push(label(at, axis + 15, `${year}`, { anchor: 'middle', size: 10 }));
  }
  return [`<path class="ink" stroke-width="1.5" d="M${LEFT} ${axis}H${RIGHT}"/>`, ...ticks];
}

const wallWords = ({ name, wall, read, limitDays, lengthText }: TimelineWall): string =>
  `wall of ${name} ${lengthText(wall.low)} at the least on ${formatDate(read)}, ${limitText(limitDays)}`;

/** Readings as bars, the wall that may be left between its two ends, and the limit as a broken line. */
function panel(wall: TimelineWall, top: number, last: number, x: (day: number) => number): readonly string[] {
  const { name, read, readings, limit, limitDays, on, lengthText } = wall;
  const base = top + PANEL - 12;
  const ends = [limit.high, on(read).high, on(last).high, ...readings.map(one => one.wall.high)];
  const most = 1.1 * Math.max(...ends.filter(Number.isFinite));
  const y = (metres: number) => base - (Math.min(metres, most) / most) * (base - top - 32);
  // Straight but where the thinnest that may be left reaches nothing.
  const stops = Array.from({ length: 13 }, (_, i) => read + ((last - read) * i) / 12);
  const upper = stops.map(day => `${n(x(day))} ${n(y(on(day).high))}`);
  const lower = stops.map(day => `${n(x(day))} ${n(y(on(day).low))}`).reverse();
  return [
    label(LEFT, top + 11, `wall of ${name}: ${lengthText(wall.wall.low)} at the least`, {
      size: 11,
      apart: true,
    }),
    label(LEFT, top + 25, limitText(limitDays), { size: 11, apart: true }),
    `<path class="wood" d="M${[...upper, ...lower].join('L')}Z"/>`,
    `<path class="ink" stroke-width="1" d="M${upper.join('L')}M${lower.join('L')}"/>`,
    ...readings.flatMap(one => [
      shape('ink', `M${n(x(one.day))} ${n(y(one.wall.high))}V${n(y(one.wall.low))}`),
      `<circle class="solid" cx="${n(x(one.day))}" cy="${n(y(one.wall.low))}" r="2.5"/>`,
    ]),
    `<path class="mark" stroke-width="1.5" stroke-dasharray="6 3" d="M${LEFT} ${n(y(limit.high))}H${RIGHT}"/>`,
    label(LEFT, y(limit.high) + 11, `limit ${lengthText(limit.high)}`, { size: 10, mark: true, apart: true }),
    `<path class="ink" stroke-width="1.5" d="M${LEFT} ${base}H${RIGHT}"/>`,
  ];
}

const limitText = ({ low }: Interval): string =>
  Number.isFinite(low) ? `may be down to its limit from ${formatDate(low)}` : 'no day of its limit foreseen';
