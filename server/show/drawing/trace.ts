import { capital } from '../../base/words.ts';
import type { TracePoint, TraceReading } from '../../mechanics/drill-trace.ts';
import { boxSample, legendAt, lineSample, linesAt, titleOf, WIDTH } from './sheet.ts';
import { type Area, type Drawn, label, n, picture, TEXT } from './svg.ts';

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

const LEFT = 14;
const RIGHT = WIDTH - 14;
const TOP = 50;
const BOTTOM = 166;
/** What a hover shows of it: the words stand beside the picture. */
export const TRACE_DRAWN: Drawn = [30, BOTTOM + 22];
/** Of the curve: as many as there are pixels. */
const MOST_POINTS = RIGHT - LEFT;

/** Amplitude over depth: decay is blank with a heavy edge, the threshold a broken line. */
export function drawTrace({ title, points, reading, lengthText, thresholdText, wallText }: TraceDrawing): {
  readonly svg: string;
  readonly area: Area;
} {
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
    titleOf(title),
    label(LEFT, TOP - 6, 'resistance', { size: TEXT.small }),
    label(LEFT, BOTTOM + 15, '0', { size: TEXT.small }),
    label(RIGHT, BOTTOM + 15, lengthText(reading.end), { anchor: 'end', size: TEXT.small }),
    label(WIDTH / 2, BOTTOM + 15, 'depth from the bark', { anchor: 'middle', size: TEXT.small }),
  ];
  const key = legendAt(
    [
      { sample: boxSample('class="wood"'), words: 'sound wood' },
      ...(reading.decay.length > 0
        ? [{ sample: boxSample('class="void" stroke-width="2"'), words: 'decay' }]
        : []),
      ...(reading.gaps.length > 0
        ? [{ sample: boxSample('class="void" stroke-width="1" stroke-dasharray="3 3"'), words: 'narrow gap' }]
        : []),
      { sample: lineSample('class="mark" stroke-width="1.5" stroke-dasharray="6 3"'), words: thresholdText },
    ],
    BOTTOM + 24,
  );
  const said = linesAt([wallText], key.bottom + 4);
  const height = Math.ceil(said.bottom + 10);
  const description = `Resistance over depth. ${capital(wallText)}; broken line: ${thresholdText}.`;
  return {
    svg: picture({ width: WIDTH, height, title, description }, [...parts, ...key.marks, ...said.marks]),
    area: { x: 0, y: 0, width: WIDTH, height },
  };
}
