/** What stands around every drawing: its title, a scale bar, a legend and lines of words. */

import { type Unit, withUnit } from '../../base/quantity.ts';
import { fitted, label, n, TEXT, textWidth, wrapped } from './svg.ts';

/** Left and right of what is written. */
export const EDGE = 12;

/** Of all pictures but the plan. */
export const WIDTH = 320;

export const titleOf = (title: string, width: number = WIDTH): string =>
  label(EDGE, 22, fitted(title, width - 2 * EDGE, TEXT.title), { size: TEXT.title });

/** Markup, and how far down it goes. */
export interface Flowed {
  readonly marks: readonly string[];
  readonly bottom: number;
}

const LINE = 14.5;

/** Lines below each other, each wrapped. */
export function linesAt(
  lines: readonly string[],
  top: number,
  { width = WIDTH, mark = false }: { readonly width?: number; readonly mark?: boolean } = {},
): Flowed {
  const all = lines.flatMap(line => wrapped(line, width - 2 * EDGE, TEXT.small));
  return {
    marks: all.map((line, i) => label(EDGE, top + (i + 0.8) * LINE, line, { size: TEXT.small, mark })),
    bottom: top + all.length * LINE,
  };
}

export interface LegendItem {
  /** Drawn within 16 by 10 px from a corner. */
  readonly sample: (x: number, y: number) => string;
  readonly words: string;
}

const SAMPLE = { width: 16, height: 10 } as const;
const LEGEND_LINE = 16;

/** Samples with their words, as many in a line as fit; long words run on below. */
export function legendAt(items: readonly LegendItem[], top: number, width: number = WIDTH): Flowed {
  const marks: string[] = [];
  let x = EDGE;
  let y = top;
  const indent = SAMPLE.width + 5;
  for (const { sample, words } of items) {
    const [first, ...others] = wrapped(words, width - 2 * EDGE - indent, TEXT.small);
    const wide = indent + textWidth(first!, TEXT.small);
    if (x > EDGE && (x + wide > width - EDGE || others.length > 0)) {
      x = EDGE;
      y += LEGEND_LINE;
    }
    marks.push(sample(x, y + 2), label(x + indent, y + 11, first!, { size: TEXT.small }));
    for (const line of others) {
      y += LINE;
      marks.push(label(x + indent, y + 11, line, { size: TEXT.small }));
    }
    x = others.length > 0 ? width : x + wide + 12;
  }
  return { marks, bottom: items.length === 0 ? top : y + LEGEND_LINE };
}

/** A filled box of a legend. */
export const boxSample =
  (look: string, under = '') =>
  (x: number, y: number): string =>
    [under, look]
      .filter(one => one !== '')
      .map(one => `<rect ${one} x="${n(x)}" y="${n(y)}" width="${SAMPLE.width}" height="${SAMPLE.height}"/>`)
      .join('');

/** A line of a legend. */
export const lineSample =
  (look: string) =>
  (x: number, y: number): string =>
    `<path ${look} d="M${n(x)} ${n(y + 5)}h${SAMPLE.width}"/>`;

/** The greatest of 1, 2 and 5 times a power of ten that is not above a number. */
function roundBelow(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most));
  return [5, 2, 1].map(step => step * power).find(step => step <= most * (1 + 1e-9)) ?? power;
}

/** Up to six decimals: a round number has no more. */
const roundText = (value: number, unit: Unit): string => withUnit(String(Number(value.toFixed(6))), unit);

/** A round length in the writer's unit, no longer than so many px. @param scale px per meter */
export function scaleBarAt(x: number, y: number, scale: number, unit: Unit, most: number): string {
  const steps = roundBelow(most / scale / unit.factor);
  const length = steps * unit.factor * scale;
  return `<path class="ink" stroke-width="2" d="M${n(x)} ${n(y - 4)}V${n(y)}H${n(x + length)}V${n(y - 4)}"/>${label(x + length + 6, y + 2, roundText(steps, unit), { size: TEXT.small })}`;
}
