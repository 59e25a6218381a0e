/** What stands around every drawing: its title, a scale bar, a legend, lines of words, and names beside their marks. */

import { type Unit, withUnit } from '../../base/quantity.ts';
import { type Area, fitted, label, n, TEXT, textWidth, wrapped } from './svg.ts';

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
export function roundBelow(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most));
  return [5, 2, 1].map(step => step * power).find(step => step <= most * (1 + 1e-9)) ?? power;
}

/** Up to six decimals: a round number has no more. */
export const roundText = (value: number, unit: Unit): string =>
  withUnit(String(Number(value.toFixed(6))), unit);

/** A round length in the writer's unit, no longer than so many px. @param scale px per meter */
export function scaleBarAt(x: number, y: number, scale: number, unit: Unit, most: number): string {
  const steps = roundBelow(most / scale / unit.factor);
  const length = steps * unit.factor * scale;
  return `<path class="ink" stroke-width="2" d="M${n(x)} ${n(y - 4)}V${n(y)}H${n(x + length)}V${n(y - 4)}"/>${label(x + length + 6, y + 2, roundText(steps, unit), { size: TEXT.small })}`;
}

/** Heights at a round distance from each other along the left edge. @param y of a height */
export function rulerAt(
  x: number,
  top: number,
  scale: number,
  unit: Unit,
  y: (metres: number) => number,
): readonly string[] {
  const step = roundBelow(Math.max(80 / scale / unit.factor, 1e-6));
  const last = Math.floor(top / (step * unit.factor) + 1e-9);
  return Array.from({ length: last + 1 }, (_, i) => {
    const at = y(i * step * unit.factor);
    const words = i === last || i === 0 ? roundText(i * step, unit) : String(Number((i * step).toFixed(6)));
    return `<path class="ink" stroke-width="1" d="M${n(x)} ${n(at)}h5"/>${label(x + 8, at - 3, words, { size: TEXT.small })}`;
  }).concat(`<path class="ink" stroke-width="1" d="M${n(x)} ${n(y(0))}V${n(y(top))}"/>`);
}

export const northAt = (x: number, y: number): string =>
  `<path class="solid" d="M${n(x)} ${n(y)}l6 20l-6 -4l-6 4Z"/>${label(x, y + 33, 'N', { anchor: 'middle', size: TEXT.name })}`;

/** A name beside a drawing, and the mark that it belongs to. */
export interface Named {
  readonly x: number;
  readonly y: number;
  /** The first line is the name, the others say more. */
  readonly lines: readonly string[];
  /** What moves, or is to be feared. */
  readonly isMarked?: boolean;
}

export interface PlacedName {
  readonly marks: string;
  readonly area: Area;
}

const NAME_LINE = 13;
/** Between two names. */
const GAP = 4;

export const heightOfNames = (names: readonly Pick<Named, 'lines'>[]): number =>
  names.reduce((sum, { lines }) => sum + lines.length * NAME_LINE + GAP, 0);

/**
 * Names in one column, in the order of their heights, each as near to its mark as the others let it, with a line to it.
 * They have room where the column is at least as high as `heightOfNames`.
 */
export function namesBeside(
  names: readonly Named[],
  {
    x,
    top,
    bottom,
    width,
  }: { readonly x: number; readonly top: number; readonly bottom: number; readonly width: number },
): readonly PlacedName[] {
  const order = names.map((_, i) => i).sort((a, b) => names[a]!.y - names[b]!.y || a - b);
  const heights = names.map(({ lines }) => lines.length * NAME_LINE + GAP);
  const tops = new Map<number, number>();
  // Down from the top, then up from the bottom.
  let free = top;
  for (const i of order) {
    const at = Math.max(free, names[i]!.y - heights[i]! / 2);
    tops.set(i, at);
    free = at + heights[i]!;
  }
  let end = bottom;
  for (const i of order.toReversed()) {
    const at = Math.min(tops.get(i)!, end - heights[i]!);
    tops.set(i, at);
    end = at;
  }
  return names.map((name, i) => {
    const at = tops.get(i)!;
    const middle = at + (heights[i]! - GAP) / 2;
    const texts = name.lines.map((line, row) =>
      label(x + 4, at + (row + 0.78) * NAME_LINE, fitted(line, width - 4, TEXT.small), {
        size: TEXT.small,
        mark: name.isMarked ?? false,
      }),
    );
    return {
      marks: `<path class="ink" stroke-width="0.7" d="M${n(name.x)} ${n(name.y)}L${n(x - 8)} ${n(middle)}H${n(x)}"/>${texts.join('')}`,
      area: { x, y: at, width, height: heights[i]! - GAP },
    };
  });
}
