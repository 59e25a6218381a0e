/** A tree in elevation: crown before and after, stem, defects at their heights, sight lines, a scale. */

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
  /** Where its parts are; of defects and views in the order given. */
  readonly areas: {
    readonly title: Area;
    readonly crown: Area;
    readonly caption: Area;
    readonly defects: readonly Area[];
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
  const { crown, after, defects, supports } = drawing;
  const tallest = Math.max(
    crown.top,
    after?.top ?? 0,
    ...[...defects, ...supports].map(one => one.height),
    1,
  );
  const widest = Math.max(crown.spread, after?.spread ?? 0, 1);
  const scale = Math.min((GROUND - SKY) / tallest, 210 / widest);
  const y = (height: number) => GROUND - height * scale;
  const stem = Math.max(5, drawing.stemDiameter * scale);
  const outline = (shape: CrownShape) =>
    `cx="${STEM}" cy="${n(y((shape.base + shape.top) / 2))}" rx="${n((shape.spread * scale) / 2)}" ry="${n(((shape.top - shape.base) * scale) / 2)}"`;
  const height = (metres: number, text: string) =>
    `<path class="ink" stroke-width="0.8" stroke-dasharray="2 3" d="M14 ${n(y(metres))}H${STEM}"/>${label(14, y(metres) - 3, text, { size: 11 })}`;
  const views = drawing.views.map(view => sightLines(view, scale, y));
  const parts = [
    `<path class="soil" stroke-width="2" d="M8 ${GROUND}H312"/>`,
    `<rect class="wood" x="${n(STEM - stem / 2)}" y="${n(y((crown.base + crown.top) / 2))}" width="${n(stem)}" height="${n(GROUND - y((crown.base + crown.top) / 2))}"/>`,
    `<ellipse class="leaf" fill-opacity="0.75" stroke-width="1.5" ${outline(crown)}/>`,
    after
      ? `<path class="after" stroke-width="2.5" stroke-dasharray="7 4" d="${cutOutline(crown, after, scale, y)}"/>`
      : '',
    height(crown.top, after ? `before ${drawing.heightText(crown.top)}` : drawing.heightText(crown.top)),
    after && Math.abs(after.top - crown.top) * scale > 14
      ? height(after.top, `after ${drawing.heightText(after.top)}`)
      : '',
    ...views.map(({ lines }) => lines),
    ...supports.map(support => supportMark(support, y(support.height))),
    ...defects.map((defect, i) => defectMark(defect, y(defect.height), i)),
    label(12, 22, drawing.title, { size: 14 }),
    label(12, HEIGHT - 10, drawing.caption, { size: 11 }),
  ];
  const names = defects.map(defect => `${defect.name} at ${drawing.heightText(defect.height)}`).join(', ');
  const held = supports.map(({ name, height }) => `${name} at ${drawing.heightText(height)}`).join(', ');
  const description = `Elevation, ${drawing.heightText(crown.top)} high${after ? `, ${drawing.heightText(after.top)} after the prescription` : ''}.${names ? ` Defects: ${names}.` : ''}${held ? ` Held by ${held}.` : ''} ${drawing.caption}`;
  return {
    svg: picture({ width: WIDTH, height: HEIGHT, title: drawing.title, description }, parts),
    areas: {
      title: { x: 4, y: 6, width: WIDTH - 8, height: TOUCH },
      crown: {
        x: STEM - (crown.spread * scale) / 2,
        y: y(crown.top),
        width: crown.spread * scale,
        height: (crown.top - crown.base) * scale,
      },
      caption: { x: 4, y: HEIGHT - TOUCH - 2, width: WIDTH - 8, height: TOUCH },
      defects: defects.map((defect, i) => ({
        x: STEM + sideOf(i) * (TOUCH / 2) - TOUCH,
        y: y(defect.height) - TOUCH / 2,
        width: 2 * TOUCH,
        height: TOUCH,
      })),
      supports: supports.map(({ height }) => ({
        x: STEM + HOLD - TOUCH / 2,
        y: y(height) - TOUCH / 2,
        width: 2 * TOUCH,
        height: TOUCH,
      })),
      views: views.map(({ name }) => name),
    },
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
function defectMark(
  { name, height: _ }: { name: string; height: number },
  at: number,
  index: number,
): string {
  const side = sideOf(index);
  return `<path class="solid" d="M${STEM} ${n(at - 6)}L${STEM + 6} ${n(at)}L${STEM} ${n(at + 6)}L${STEM - 6} ${n(at)}Z"/>${label(STEM + side * 11, at + 4, name, { anchor: side > 0 ? 'start' : 'end', size: 13 })}`;
}

/** Half the length of a cable as it is drawn, px. */
const HOLD = 26;

/** A line through the crown with its ends, or from the stem down to the ground. */
function supportMark({ name, isGrounded }: ElevationDrawing['supports'][number], at: number): string {
  const end = (x: number, y: number) => `<circle class="solid" cx="${x}" cy="${n(y)}" r="2.5"/>`;
  const [from, to] = isGrounded ? [STEM, GROUND] : [STEM - HOLD, at];
  return `<path class="ink" stroke-width="2" d="M${from} ${n(at)}L${STEM + HOLD} ${n(to)}"/>${end(from, at)}${end(STEM + HOLD, to)}${label(STEM + HOLD + 6, at + 4, name, { size: 12, apart: true })}`;
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
