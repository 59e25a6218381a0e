/** The life of a tree by kind and year, and below it what was measured over the years and what may become of it. */

import { calendarDate, dayNumber } from '../../base/dates.ts';
import type { Interval } from '../../base/interval.ts';
import { DAYS_PER_YEAR, type Unit } from '../../base/quantity.ts';
import { listed } from '../../base/words.ts';
import { LIFE_KINDS, type LifeEvent, type LifeKind } from '../life.ts';
import { longDate, type RegionCode } from '../long-date.ts';
import {
  boxSample,
  EDGE,
  type LegendItem,
  legendAt,
  lineSample,
  roundBelow,
  roundText,
  titleOf,
  WIDTH,
} from './sheet.ts';
import { fitted, hatched, hatches, label, n, picture, TEXT } from './svg.ts';

/** One thing that was measured on several days. */
interface Plot {
  /** `wall of cavity A`. */
  readonly name: string;
  /** Below the name. */
  readonly note: string;
  readonly unit: Unit;
  /** m, as far as the readings allow. */
  readonly readings: readonly { readonly day: number; readonly value: Interval }[];
  /** What may be left on a later day, from the last reading on. */
  readonly ahead?: { readonly from: number; readonly on: (day: number) => Interval };
  readonly limit?: { readonly value: number; readonly text: string };
  /** Of a wall, whose end is no wall. */
  readonly fromZero: boolean;
}

interface Timeline {
  readonly title: string;
  readonly today: number;
  readonly region: RegionCode;
  readonly events: readonly LifeEvent[];
  readonly plots: readonly Plot[];
  /** The first day ahead that is of interest; Infinity without any. */
  readonly until: number;
  /** What is measured, in words. */
  readonly words: readonly string[];
}

const LEFT = 62;
const RIGHT = 296;
const TOP = 34;
const LANE = 28;
/** Of a plot: the two lines above it, and itself. */
const HEAD = 32;
const AREA = 72;
const PANEL = HEAD + AREA + 14;
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

export function drawTimeline({ title, today, region, events, plots, until, words }: Timeline): {
  readonly svg: string;
  readonly description: string;
} {
  const days = [
    ...events.map(({ day }) => day),
    ...plots.flatMap(({ readings }) => readings.map(({ day }) => day)),
    today,
  ];
  const first = Math.min(...days) - DAYS_PER_YEAR / 4;
  const span = Math.max(today - first, DAYS_PER_YEAR);
  const ahead = Number.isFinite(until) ? Math.max(today, until) : today;
  const last = Math.min(today + AHEAD * span, ahead + span / 10);
  const x = (day: number) => LEFT + ((day - first) / (last - first)) * (RIGHT - LEFT);
  const kinds = LIFE_KINDS.filter(kind => events.some(one => one.kind === kind));
  const lanesTop = TOP + 18;
  const axis = lanesTop + kinds.length * LANE + 2;
  const panels = axis + 26;
  const bottom = panels + plots.length * PANEL;
  const now = x(today);
  const isLate = now > WIDTH / 2;
  const key = legendAt(keyOf(plots), plots.length > 0 ? bottom + 20 : axis + 22);
  const height = Math.ceil(key.bottom + 6);
  const description = [
    ...kinds.map(
      kind =>
        `${LANES[kind][0]}: ${dated(
          events.filter(one => one.kind === kind),
          region,
        )}`,
    ),
    ...words,
  ].join('; ');
  const svg = picture({ width: WIDTH, height, title, description }, [
    hatches(...(plots.some(plot => plot.ahead) ? (['doubt'] as const) : [])),
    titleOf(title),
    ...years(first, last, axis, x, [lanesTop, plots.length > 0 ? bottom - 14 : axis]),
    ...(plots.length > 0 ? years(first, last, bottom, x, [bottom, bottom]) : []),
    `<path class="mark" stroke-width="1.5" stroke-dasharray="5 3" d="M${n(now)} ${TOP}V${n(plots.length > 0 ? bottom - 4 : axis)}"/>`,
    ...kinds.flatMap((kind, i) => lane(kind, events, lanesTop + i * LANE, x)),
    ...plots.flatMap((plot, i) => panel(plot, panels + i * PANEL, last, x)),
    label(isLate ? now - 4 : now + 4, TOP + 10, longDate(today, region), {
      anchor: isLate ? 'end' : 'start',
      size: TEXT.small,
      mark: true,
    }),
    ...key.marks,
  ]);
  return { svg, description };
}

const dated = (events: readonly LifeEvent[], region: RegionCode): string =>
  listed(
    [...new Set(events.map(({ day }) => day))].map(day => {
      const count = events.filter(one => one.day === day).length;
      return `${longDate(day, region)}${count === 1 ? '' : ` (${count})`}`;
    }),
  );

/** Marks closer than this have one number together, px. */
const CLOSE = 26;

/** The kind and its marks; where one stands for several, or several stand close, their number. */
function lane(
  kind: LifeKind,
  events: readonly LifeEvent[],
  top: number,
  x: (day: number) => number,
): readonly string[] {
  const [words, mark] = LANES[kind];
  const days = events
    .filter(event => event.kind === kind)
    .map(({ day }) => day)
    .sort((a, b) => a - b);
  const y = top + 19;
  const numbers = days.flatMap((day, i) => {
    const next = days[i + 1];
    if (next !== undefined && x(next) - x(day) < CLOSE) return [];
    let count = 1;
    while (count <= i && x(days[i - count + 1]!) - x(days[i - count]!) < CLOSE) count++;
    return count > 1 ? [label(x(day) + 8, y + 4, `${count}`, { size: TEXT.small, apart: true })] : [];
  });
  return [
    `<path class="soil" stroke-width="1" d="M${LEFT} ${n(y)}H${RIGHT}"/>`,
    label(EDGE, top + 9, words, { size: TEXT.small, apart: true }),
    ...[...new Set(days)].map(day => mark(x(day), y)),
    ...numbers,
  ];
}

/** Most years that are named. */
const NAMED = 6;

/** An axis with years, as many as have room, and a line up and down for each that is named. */
function years(
  first: number,
  last: number,
  axis: number,
  x: (day: number) => number,
  [top, bottom]: readonly [number, number],
): readonly string[] {
  const from = calendarDate(first).year + 1;
  const to = calendarDate(last).year;
  const every = Math.max(1, Math.ceil((to - from + 1) / NAMED));
  const ticks: string[] = [];
  for (let year = from; year <= to; year++) {
    const at = x(dayNumber(year, 1, 1)!);
    const isNamed = (year - from) % every === 0;
    ticks.push(`<path class="ink" stroke-width="1" d="M${n(at)} ${n(axis)}v${isNamed ? 5 : 3}"/>`);
    if (!isNamed) continue;
    ticks.push(label(at, axis + 15, `${year}`, { anchor: 'middle', size: TEXT.small }));
    if (bottom > top)
      ticks.push(
        `<path class="soil" stroke-width="0.6" stroke-opacity="0.5" d="M${n(at)} ${n(top)}V${n(bottom)}"/>`,
      );
  }
  return [`<path class="ink" stroke-width="1.5" d="M${LEFT} ${n(axis)}H${RIGHT}"/>`, ...ticks];
}

/** Readings as bars, what may be left as a hatched band between its ends, the limit as a broken line. */
function panel(
  { name, note, unit, readings, ahead, limit, fromZero }: Plot,
  top: number,
  last: number,
  x: (day: number) => number,
): readonly string[] {
  const base = top + HEAD + AREA;
  const values = [
    ...readings.flatMap(({ value }) => [value.low, value.high]),
    ...(ahead ? [ahead.on(last).high, ahead.on(last).low] : []),
    ...(limit ? [limit.value] : []),
  ].filter(Number.isFinite);
  const high = Math.max(...values);
  const low = fromZero ? 0 : Math.min(...values);
  const room = Math.max(high - low, high * 0.02, 1e-6) * 0.12;
  const [least, most] = [fromZero ? 0 : Math.max(0, low - room), high + room];
  const y = (metres: number) =>
    base - ((Math.min(Math.max(metres, least), most) - least) / (most - least)) * AREA;
  const step = roundBelow((most - least) / unit.factor / 2);
  const firstTick = Math.ceil(least / unit.factor / step - 1e-9);
  const lastTick = Math.floor(most / unit.factor / step + 1e-9);
  const ticks = Array.from({ length: lastTick - firstTick + 1 }, (_, i) => {
    const value = (firstTick + i) * step;
    const at = y(value * unit.factor);
    const words = i === lastTick - firstTick ? roundText(value, unit) : String(Number(value.toFixed(6)));
    return `<path class="ink" stroke-width="1" d="M${LEFT - 4} ${n(at)}h4"/>${label(LEFT - 7, at + 4, words, { anchor: 'end', size: TEXT.small })}`;
  });
  const band = ahead ? bandOf(ahead, last, x, y) : '';
  const isLow = limit !== undefined && y(limit.value) > base - 16;
  return [
    label(EDGE, top + 10, fitted(name, WIDTH - 2 * EDGE, TEXT.small), { size: TEXT.small, apart: true }),
    label(EDGE, top + 24, fitted(note, WIDTH - 2 * EDGE, TEXT.small), { size: TEXT.small, apart: true }),
    band,
    limit
      ? `<path class="mark" stroke-width="1.5" stroke-dasharray="6 3" d="M${LEFT} ${n(y(limit.value))}H${RIGHT}"/>${label(RIGHT - 2, y(limit.value) + (isLow ? -4 : 12), limit.text, { anchor: 'end', size: TEXT.small, mark: true, apart: true })}`
      : '',
    ...readings.map(({ day, value }) => {
      const [up, down] = [y(value.high), y(value.low)];
      const bar =
        down - up > 2
          ? `<path class="ink" stroke-width="1.5" d="M${n(x(day) - 3)} ${n(up)}h6m-3 0V${n(down)}m-3 0h6"/>`
          : '';
      return `${bar}<circle class="solid" cx="${n(x(day))}" cy="${n(fromZero ? down : (up + down) / 2)}" r="2.8"/>`;
    }),
    `<path class="ink" stroke-width="1.5" d="M${LEFT} ${n(top + HEAD)}V${n(base)}H${RIGHT}"/>`,
    ...ticks,
  ];
}

/** Straight but where the least that may be left reaches nothing. */
function bandOf(
  { from, on }: NonNullable<Plot['ahead']>,
  last: number,
  x: (day: number) => number,
  y: (metres: number) => number,
): string {
  const stops = Array.from({ length: 13 }, (_, i) => from + ((last - from) * i) / 12);
  const upper = stops.map(day => `${n(x(day))} ${n(y(on(day).high))}`);
  const lower = stops.map(day => `${n(x(day))} ${n(y(on(day).low))}`).reverse();
  return `<path ${hatched('doubt')} fill-opacity="0.7" d="M${[...upper, ...lower].join('L')}Z"/><path class="ink" stroke-width="1" d="M${upper.join('L')}M${lower.join('L')}"/>`;
}

function keyOf(plots: readonly Plot[]): readonly LegendItem[] {
  if (plots.length === 0) return [];
  return [
    {
      sample: (x, y) => `<circle class="solid" cx="${n(x + 8)}" cy="${n(y + 5)}" r="2.8"/>`,
      words: 'reading',
    },
    ...(plots.some(({ readings }) => readings.some(({ value }) => value.high > value.low))
      ? [
          {
            sample: (x: number, y: number) =>
              `<path class="ink" stroke-width="1.5" d="M${n(x + 5)} ${n(y)}h6m-3 0v10m-3 0h6"/>`,
            words: 'what it allows',
          },
        ]
      : []),
    ...(plots.some(({ ahead }) => ahead)
      ? [
          {
            sample: boxSample(hatched('doubt'), 'class="void" stroke-width="1"'),
            words: 'what may be left, by the rates on record',
          },
        ]
      : []),
    ...(plots.some(({ limit }) => limit)
      ? [{ sample: lineSample('class="mark" stroke-width="1.5" stroke-dasharray="6 3"'), words: 'limit' }]
      : []),
    {
      sample: lineSample('class="mark" stroke-width="1.5" stroke-dasharray="5 3"'),
      words: 'day of this picture',
    },
  ];
}
