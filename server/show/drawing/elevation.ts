/** A tree in elevation: crown before and after, stem and its lean, defects at their heights, trenches, sight lines. */

import { type Area, type Drawn, label, n, picture } from './svg.ts';

export interface CrownShape {
  /** m above ground, and m wide. */
  readonly base: number;
  readonly top: number;
  readonly spread: number;
}

export interface ElevationDrawing {
  readonly title: string;
  readonly crown: CrownShape;
  /** Without leaves for good. */
  readonly isDead: boolean;
  /** To the right: how far to the side for each meter of height, and in words. */
  readonly lean?: { readonly slope: number; readonly text: string };
  /** Beside the stem, from its axis; to the left below zero. m. */
  readonly trenches: readonly {
    readonly name: string;
    readonly away: number;
    readonly depth?: number;
    /** Its distance from the bark, in words. */
    readonly text: string;
  }[];
  /** The crown cut off at its top and base, and scaled to its spread in between. */
  readonly after?: CrownShape;
  /** m. */
  readonly stemDiameter: number;
  readonly defects: readonly { readonly name: string; readonly height: number; readonly facing?: number }[];
  /** Where cables, braces, props and guys hold the tree, m above ground. */
  readonly supports: readonly {
    readonly name: string;
    readonly height: number;
    /** Down to the ground: a prop, a guy. */
    readonly isGrounded: boolean;
  }[];
  readonly views: readonly {
    readonly name: string;
    /** Height of the eye, its distance from the stem, and the heights at the distance beyond; m. */
    readonly eye: number;
    readonly away: number;
    readonly bottom: number;
    readonly top: number;
    readonly beyond: number;
  }[];
  /** A height in the writer's unit, as text. */
  readonly heightText: (metres: number) => string;
  readonly caption: string;
}

export interface DrawnElevation {
  readonly svg: string;
  /** Where its parts are; lists in the order given. */
  readonly areas: {
    readonly title: Area;
    readonly crown: Area;
    readonly caption: Area;
    readonly defects: readonly Area[];
    readonly trenches: readonly Area[];
    readonly supports: readonly Area[];
    readonly views: readonly Area[];
  };
}

const WIDTH = 320;
const HEIGHT = 304;
const GROUND = 272;
export const ELEVATION_DRAWN: Drawn = [26, GROUND + 8];
const SKY = 40;
const STEM = 160;

export function drawElevation(drawing: ElevationDrawing): DrawnElevation {
  const { crown, after, defects, supports, trenches, lean, isDead } = drawing;
  const slope = lean?.slope ?? 0;
  const tallest = Math.max(
    crown.top,
    after?.top ?? 0,
    ...[...defects, ...supports].map(one => one.height),
    1,
  );
  const middle = (crown.base + crown.top) / 2;
  const half = Math.hypot(crown.spread / 2, (slope * (crown.top - crown.base)) / 2);
  const widest = 2 * Math.max(slope * middle + half, ...trenches.map(({ away }) => Math.abs(away)), 0.5);
  const scale = Math.min((GROUND - SKY) / tallest, MOST_WIDE / widest);
  const y = (height: number) => GROUND - height * scale;
  /** On the axis of the stem. */
  const x = (height: number) => STEM + slope * height * scale;
  const stem = Math.max(5, drawing.stemDiameter * scale);
  const outline = (shape: CrownShape) =>
    `cx="${STEM}" cy="${n(y((shape.base + shape.top) / 2))}" rx="${n((shape.spread * scale) / 2)}" ry="${n(((shape.top - shape.base) * scale) / 2)}"`;
  const height = (metres: number, text: string) =>
    `<path class="ink" stroke-width="0.8" stroke-dasharray="2 3" d="M14 ${n(y(metres))}H${n(x(metres))}"/>${label(14, y(metres) - 3, text, { size: 11 })}`;
  const views = drawing.views.map(view => sightLines(view, scale, y));
  const dug = trenches.map(trench => trenchMark(trench, scale));
  const parts = [
    // Sideways in proportion to height, so that heights stay as they are.
    `<g${slope > 0 ? ` transform="matrix(1 0 ${n3(-slope)} 1 ${n(slope * GROUND)} 0)"` : ''}>`,
    `<rect class="wood" x="${n(STEM - stem / 2)}" y="${n(y(middle))}" width="${n(stem)}" height="${n(GROUND - y(middle))}"/>`,
    `<ellipse class="${isDead ? 'bare' : 'leaf'}" fill-opacity="0.75" stroke-width="1.5" ${outline(crown)}/>`,
    after
      ? `<path class="after" stroke-width="2.5" stroke-dasharray="7 4" d="${cutOutline(crown, after, scale, y)}"/>`
      : '',
    '</g>',
    `<path class="soil" stroke-width="2" d="M8 ${GROUND}H312"/>`,
    ...dug.map(({ mark }) => mark),
    lean ? plumbLine(y(middle)) : '',
    height(crown.top, after ? `before ${drawing.heightText(crown.top)}` : drawing.heightText(crown.top)),
    after && Math.abs(after.top - crown.top) * scale > 14
      ? height(after.top, `after ${drawing.heightText(after.top)}`)
      : '',
    ...views.map(({ lines }) => lines),
    ...supports.map(support => supportMark(support, x(support.height), y(support.height))),
    ...defects.map((defect, i) => defectMark(defect.name, x(defect.height), y(defect.height), i)),
    label(12, 22, shortened(drawing.title), { size: 14 }),
    lean ? label(WIDTH - 12, 38, lean.text, { anchor: 'end', size: 11, apart: true }) : '',
    label(12, HEIGHT - 10, drawing.caption, { size: 11 }),
  ];
  const names = defects.map(defect => `${defect.name} at ${drawing.heightText(defect.height)}`).join(', ');
  const held = supports.map(({ name, height }) => `${name} at ${drawing.heightText(height)}`).join(', ');
  const cut = trenches.map(({ name, text }) => `${name} ${text}`).join(', ');
  const description = `Elevation, ${drawing.heightText(crown.top)} high${after ? `, ${drawing.heightText(after.top)} after the prescription` : ''}${lean ? `, ${lean.text}` : ''}.${names ? ` Defects: ${names}.` : ''}${cut ? ` Trenches: ${cut}.` : ''}${held ? ` Held by ${held}.` : ''} ${drawing.caption}`;
  return {
    svg: picture({ width: WIDTH, height: HEIGHT, title: drawing.title, description }, parts),
    areas: {
      title: { x: 4, y: 6, width: WIDTH - 8, height: TOUCH },
      crown: {
        x: x(middle) - half * scale,
        y: y(crown.top),
        width: 2 * half * scale,
        height: (crown.top - crown.base) * scale,
      },
      caption: { x: 4, y: HEIGHT - TOUCH - 2, width: WIDTH - 8, height: TOUCH },
      defects: defects.map(({ height }, i) => ({
        x: x(height) + sideOf(i) * (TOUCH / 2) - TOUCH,
        y: y(height) - TOUCH / 2,
        width: 2 * TOUCH,
        height: TOUCH,
      })),
      trenches: dug.map(({ area }) => area),
      supports: supports.map(({ height }) => ({
        x: x(height) + HOLD - TOUCH / 2,
        y: y(height) - TOUCH / 2,
        width: 2 * TOUCH,
        height: TOUCH,
      })),
      views: views.map(({ name }) => name),
    },
  };
}

/** Most that crown, lean and trenches take of the width, px. */
const MOST_WIDE = 210;

/** A slope, to three digits. */
const n3 = (value: number): string => String(Number(value.toFixed(3)));

/** Above the base of a leaning stem. */
const plumbLine = (top: number): string =>
  `<path class="ink" stroke-width="1" stroke-dasharray="6 3" d="M${STEM} ${GROUND}V${n(top)}"/>`;

/** Most letters of a title in its line; the whole of it is in the description. */
const LONGEST = 42;
const shortened = (title: string): string =>
  title.length > LONGEST
    ? `${[...title]
        .slice(0, LONGEST - 1)
        .join('')
        .trimEnd()}…`
    : title;

/** Least depth as drawn, and most, above the caption. */
const SHALLOW = 5;
const DEEP = 14;
const TRENCH = 9;

/** A cut in the ground, with its name on the side away from the stem. */
function trenchMark(
  { name, away, depth }: ElevationDrawing['trenches'][number],
  scale: number,
): { readonly mark: string; readonly area: Area } {
  const at = STEM + away * scale;
  const deep = Math.min(DEEP, Math.max(SHALLOW, (depth ?? 0) * scale));
  return {
    mark: `<path class="cut" stroke-width="1.5" d="M${n(at - TRENCH / 2)} ${GROUND - 1}v${n(deep + 1)}h${TRENCH}v${n(-deep - 1)}"/>${label(at + Math.sign(away) * TRENCH, GROUND - 5, name, { anchor: away < 0 ? 'end' : 'start', size: 12, apart: true })}`,
    area: { x: at - TOUCH / 2, y: GROUND - TOUCH + 4, width: TOUCH, height: TOUCH },
  };
}

/** The outline of the reduced crown. */
function cutOutline(
  crown: CrownShape,
  after: CrownShape,
  scale: number,
  y: (height: number) => number,
): string {
  const middle = (crown.base + crown.top) / 2;
  const half = (crown.top - crown.base) / 2;
  const [top, base] = [Math.min(after.top, crown.top), Math.max(after.base, crown.base)];
  const radius = (after.spread / 2) * scale;
  const across = (height: number) => radius * Math.sqrt(Math.max(0, 1 - ((height - middle) / half) ** 2));
  const arcTo = (x: number, height: number) =>
    `A${n(radius)} ${n(half * scale)} 0 0 1 ${n(STEM + x)} ${n(y(height))}`;
  return `M${n(STEM - across(top))} ${n(y(top))}H${n(STEM + across(top))}${arcTo(across(base), base)}H${n(STEM - across(base))}${arcTo(-across(top), top)}Z`;
}

/** Smallest side of what a pointer should hit: 24 px (WCAG 2.2, 2.5.8). */
const TOUCH = 24;

/** On the right and left in turn. */
const sideOf = (index: number): 1 | -1 => (index % 2 === 0 ? 1 : -1);

/** A diamond on the stem with its name, on the right and left in turn to avoid overlaps. */
function defectMark(name: string, stem: number, at: number, index: number): string {
  const side = sideOf(index);
  return `<path class="solid" d="M${n(stem)} ${n(at - 6)}l6 6l-6 6l-6 -6Z"/>${label(stem + side * 11, at + 4, name, { anchor: side > 0 ? 'start' : 'end', size: 13, apart: true })}`;
}

/** Half the length of a cable as it is drawn, px. */
const HOLD = 26;

/** A line through the crown with its ends, or from the stem down to the ground. */
function supportMark(
  { name, isGrounded }: ElevationDrawing['supports'][number],
  stem: number,
  at: number,
): string {
  const end = (x: number, y: number) => `<circle class="solid" cx="${n(x)}" cy="${n(y)}" r="2.5"/>`;
  const [from, to] = isGrounded ? [stem, GROUND] : [stem - HOLD, at];
  return `<path class="ink" stroke-width="2" d="M${n(from)} ${n(at)}L${n(stem + HOLD)} ${n(to)}"/>${end(from, at)}${end(stem + HOLD, to)}${label(stem + HOLD + 6, at + 4, name, { size: 12, apart: true })}`;
}

/** Approximate width of a letter, px. */
const LETTER = 6.2;
/** If the lines are closer than this, the name is written above them. */
const ROOM = 18;

/** The eye is on the left; the lines run on to the edge of the picture. */
function sightLines(
  view: ElevationDrawing['views'][number],
  scale: number,
  y: (height: number) => number,
): { readonly lines: string; readonly name: Area } {
  /** y of the line to a height beyond the tree, at an x of the picture. */
  const lineAt = (object: number, x: number) =>
    y(view.eye + ((object - view.eye) * (view.away + (x - STEM) / scale)) / (view.away + view.beyond));
  const left = Math.max(STEM - view.away * scale, 10);
  const right = Math.min(STEM + view.beyond * scale, 310);
  const line = (object: number) =>
    `<path class="ink" stroke-width="1" stroke-dasharray="1 4" stroke-linecap="round" d="M${n(left)} ${n(lineAt(object, left))}L${n(right)} ${n(lineAt(object, right))}"/>`;
  const ends = [306 - view.name.length * LETTER, 306];
  const upper = Math.min(...ends.map(x => lineAt(view.top, x)));
  const room = Math.min(...ends.map(x => lineAt(view.bottom, x) - lineAt(view.top, x)));
  const at = room < ROOM ? upper - 4 : lineAt((view.bottom + view.top) / 2, right) + 4;
  const nameAt = Math.min(GROUND - 6, at);
  const wide = Math.min(WIDTH - 8, Math.max(TOUCH, view.name.length * LETTER + 8));
  return {
    lines: `<g>${line(view.bottom)}${line(view.top)}${label(306, nameAt, view.name, { anchor: 'end', size: 11, apart: true })}</g>`,
    name: { x: 310 - wide, y: nameAt - 4 - TOUCH / 2, width: wide, height: TOUCH },
  };
}
