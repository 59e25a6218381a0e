import { capital } from '../../base/words.ts';
import type { Arc, SeenArcs } from '../../mechanics/camera-arcs.ts';
import type { Ring, SectionOutlines } from '../../mechanics/outlines.ts';
import { type Area, type Drawn, escapeText, label, n, pathOf, picture } from './svg.ts';

export interface SectionDrawing {
  readonly title: string;
  readonly outlines: SectionOutlines;
  /** Names of the cavities and the bearings they face, degrees. */
  readonly cavities: readonly { readonly name: string; readonly facing: number }[];
  /** In the writer's unit, as text: `2.0 in`. */
  readonly thinnestWall?: { readonly bearing: number; readonly text: string };
  /** Absent if the section is equally weak in all directions. */
  readonly worstBearing?: number;
  /** `31..64 %`, as text. */
  readonly lossText: string;
  /** Sides that photographs show; absent if that is not known. */
  readonly views?: SeenArcs;
  /** How unknown readings are drawn: `drawn at its worst`. */
  readonly caption: string;
}

const WIDTH = 320;
const HEIGHT = 352;

export const SECTION_DRAWN: Drawn = [30, HEIGHT - 56];
const SECTION_AREA: Area = { x: 0, y: 0, width: WIDTH, height: HEIGHT };
const CENTRE = { x: 160, y: 160 };
const RADIUS = 90;

/** East, north in metres → picture; north is up. */
function scaleOf(outer: Ring) {
  const reach = Math.max(1e-9, ...outer.map(([east, north]) => Math.hypot(east, north)));
  const scale = RADIUS / reach;
  return ([east, north]: readonly [number, number]): [number, number] => [
    CENTRE.x + east * scale,
    CENTRE.y - north * scale,
  ];
}

function onBearing(bearing: number, distance: number): [number, number] {
  const angle = (bearing * Math.PI) / 180;
  return [CENTRE.x + Math.sin(angle) * distance, CENTRE.y - Math.cos(angle) * distance];
}

/** Where the ring of the photographs lies. */
const VIEWED = 138;

/** A ring around the section: full where a photograph shows the side, dashed where perhaps, none elsewhere. */
function viewedRing({ seen, perhaps }: SeenArcs): string {
  const drawn = (arcs: readonly Arc[], look: string) =>
    arcs.map(arc => `<path class="ink" ${look} d="${arcPath(arc)}"/>`).join('');
  return drawn(seen, 'stroke-width="4"') + drawn(perhaps, 'stroke-width="2" stroke-dasharray="2 4"');
}

function arcPath({ from, to }: Arc): string {
  const span = to > from ? to - from : to - from + 360;
  // Two halves: one arc can't close a circle.
  const points = [from, from + span / 2, from + span].map(bearing => onBearing(bearing, VIEWED));
  const [first, ...others] = points.map(([x, y]) => `${n(x)} ${n(y)}`);
  return `M${first}${others.map(point => `A${VIEWED} ${VIEWED} 0 0 1 ${point}`).join('')}`;
}

const VIEWS_CAPTION = 'outer ring: sides in photographs; dotted: perhaps';

/** Of the text on the photographs. */
const VIEWS_LINE = 15;

/** The picture is higher where it says what photographs show. */
export const sectionArea = (views: SeenArcs | undefined): Area =>
  views ? { ...SECTION_AREA, height: HEIGHT + VIEWS_LINE } : SECTION_AREA;

export function drawSection(drawing: SectionDrawing): string {
  const { outlines, worstBearing, thinnestWall, views } = drawing;
  const place = scaleOf(outlines.bark ?? outlines.outer);
  const ring = (points: Ring) => pathOf(points.map(point => place(point)));
  const sound = outlines.sound.map(shape => [shape.outline, ...shape.holes].map(ring).join('')).join('');
  const rings = [0.25, 0.5, 0.75].map(
    share =>
      `<path class="ring" stroke-width="0.8" d="${pathOf(outlines.outer.map(([e, north]) => place([e * share, north * share])))}"/>`,
  );
  const parts = [
    `<defs><clipPath id="sound"><path clip-rule="evenodd" d="${sound}"/></clipPath></defs>`,
    outlines.bark ? `<path class="bark" d="${ring(outlines.bark)}"/>` : '',
    `<path class="void" stroke-width="1" stroke-dasharray="3 3" d="${ring(outlines.outer)}"/>`,
    `<path class="wood" fill-rule="evenodd" d="${sound}"/>`,
    `<g clip-path="url(#sound)">${rings.join('')}</g>`,
    `<path class="ink" stroke-width="2" d="${sound}"/>`,
    views ? viewedRing(views) : '',
    thinnestWall ? thinWall(thinnestWall, views !== undefined) : '',
    worstBearing === undefined ? '' : worstDirection(worstBearing),
    ...drawing.cavities.map(({ name, facing }) => {
      // Inside the void; the readings are written outside.
      const [x, y] = onBearing(facing, RADIUS * 0.55);
      return label(x, y + 4, name, { anchor: 'middle', size: 13, apart: true });
    }),
    north(),
    label(12, 22, drawing.title, { size: 14 }),
    label(12, HEIGHT - 40, `strength loss ${drawing.lossText}`, { size: 13 }),
    worstBearing === undefined
      ? ''
      : label(12, HEIGHT - 25, 'arrow: weakest when bent along it', { size: 11 }),
    label(12, HEIGHT - 10, drawing.caption, { size: 11 }),
    views ? label(12, HEIGHT + 5, VIEWS_CAPTION, { size: 11 }) : '',
  ];
  const description = `Cross section. Strength loss ${drawing.lossText}${worstBearing === undefined ? '' : `, worst when bent towards ${Math.round(worstBearing)} degrees`}. ${drawing.caption}`;
  return picture(
    {
      width: WIDTH,
      height: sectionArea(views).height,
      title: drawing.title,
      description: views ? `${description}. ${capital(VIEWS_CAPTION)}` : description,
    },
    parts,
  );
}

/** A mark at the bark, and beyond it two short lines of text, which fit at any bearing. */
function thinWall({ bearing, text }: { bearing: number; text: string }, apart: boolean): string {
  const [x1, y1] = onBearing(bearing, RADIUS + 3);
  const [x2, y2] = onBearing(bearing, RADIUS + 16);
  const [x, y] = onBearing(bearing, RADIUS + 20);
  const aside = x - CENTRE.x;
  const anchor = Math.abs(aside) < 20 ? 'middle' : aside > 0 ? 'start' : 'end';
  // Above the mark in the north, below it in the south.
  const first = y - 2 + (12 * (y - CENTRE.y)) / (RADIUS + 20);
  const lines = ['thinnest', text].map((words, i) =>
    label(x, first + 12 * i, words, { anchor, mark: true, size: 11, apart }),
  );
  return `<path class="mark" stroke-width="2" d="M${n(x1)} ${n(y1)}L${n(x2)} ${n(y2)}"/>${lines.join('')}`;
}

/** A double arrow through the pith: the section is equally weak in both directions. */
function worstDirection(bearing: number): string {
  const line = [bearing, bearing + 180].map(b => onBearing(b, RADIUS - 10));
  const heads = [bearing, bearing + 180].map(b => {
    const tip = onBearing(b, RADIUS - 4);
    const left = onBearing(b - 4, RADIUS - 16);
    const right = onBearing(b + 4, RADIUS - 16);
    return `<path class="solid" d="${pathOf([tip, left, right])}"/>`;
  });
  return `<g aria-label="${escapeText('worst direction of bending')}"><path class="ink" stroke-width="1.5" stroke-dasharray="6 3" d="M${n(line[0]![0])} ${n(line[0]![1])}L${n(line[1]![0])} ${n(line[1]![1])}"/>${heads.join('')}</g>`;
}

function north(): string {
  return `<g><path class="solid" d="M296 18L302 38L296 34L290 38Z"/>${label(296, 52, 'N', { anchor: 'middle' })}</g>`;
}
