import type { TracePoint, TraceReading } from '../../mechanics/drill-trace.ts';
import { type Area, type Drawn, label, n, picture } from './svg.ts';

export interface TraceDrawing {
  readonly title: string;
  readonly points: readonly TracePoint[];
  readonly reading: TraceReading;
  /** Depths as text in the unit of the record: `9 in`. */
  readonly lengthText: (metres: number) => string;
  /** `threshold 20 % of the sound wood (judged)`. */
  readonly thresholdText: string;
  /** `sound wall 8.1 in to 8.9 in`. */
  readonly wallText: string;
}

const WIDTH = 320;
const HEIGHT = 230;
/** What a hover shows of it: the words stand beside the picture. */
export const TRACE_DRAWN: Drawn = [30, HEIGHT - 56];
export const TRACE_AREA: Area = { x: 0, y: 0, width: WIDTH, height: HEIGHT };
const LEFT = 14;
const RIGHT = 306;
const TOP = 34;
const BOTTOM = 150;
/** Of the curve: as many as there are pixels. */
const MOST_POINTS = RIGHT - LEFT;

/** Amplitude over depth: decay is blank with a heavy edge, the threshold a broken line. */
export function drawTrace({
  title,
  points,
  reading,
  lengthText,
  thresholdText,
  wallText,
}: TraceDrawing): string {
  const end = Math.max(1e-9, reading.end);
  const most = Math.max(1e-9, ...points.map(({ amplitude }) => amplitude));
  const x = (depth: number) => LEFT + (Math.min(depth, end) / end) * (RIGHT - LEFT);
  const y = (amplitude: number) => BOTTOM - (Math.max(0, amplitude) / most) * (BOTTOM - TOP);
  const every = Math.max(1, Math.ceil(points.length / MOST_POINTS));
  const curve = points.filter((_, i) => i % every === 0).map(at => `${n(x(at.depth))} ${n(y(at.amplitude))}`);
  const box = (from: number, to: number, look: string) =>
    `<rect ${look} x="${n(x(from))}" y="${TOP}" width="${n(Math.max(1, x(to) - x(from)))}" height="${BOTTOM - TOP}"/>`;
  const parts = [
    box(reading.entry, reading.end, 'class="wood"'),
    ...reading.decay.map(({ from, to }) => box(from, to, 'class="void" stroke-width="2"')),
    ...reading.gaps.map(({ from, to }) =>
      box(from, to, 'class="void" stroke-width="1" stroke-dasharray="3 3"'),
    ),
    `<path class="ink" stroke-width="1" d="M${curve.join('L')}"/>`,
    `<path class="mark" stroke-width="1.5" stroke-dasharray="6 3" d="M${LEFT} ${n(y(reading.cut))}H${RIGHT}"/>`,
    `<path class="ink" stroke-width="1.5" d="M${LEFT} ${TOP}V${BOTTOM}H${RIGHT}"/>`,
    label(12, 22, title, { size: 14 }),
    label(LEFT, BOTTOM + 16, '0', { size: 11 }),
    label(RIGHT, BOTTOM + 16, lengthText(reading.end), { anchor: 'end', size: 11 }),
    label(160, BOTTOM + 16, 'depth', { anchor: 'middle', size: 11 }),
    label(12, HEIGHT - 40, wallText, { size: 13 }),
    label(12, HEIGHT - 25, thresholdText, { size: 11, mark: true }),
    label(12, HEIGHT - 10, 'blank: decay; blank with a broken edge: narrow gaps', { size: 11 }),
  ];
  const description = `Amplitude over depth. ${wallText}; ${thresholdText}.`;
  return picture({ width: WIDTH, height: HEIGHT, title, description }, parts);
}
