/**
 * A tree in elevation: stems, forks and limbs, crown before and after, what comes down, defects at their heights, supports,
 * lines, trenches, targets at their distances. Names stand in a column on the right, targets below the ground. Long because
 * all of it is placed on one scale.
 */

import type { Unit } from '../../base/quantity.ts';
import {
  boxSample,
  heightOfNames,
  type LegendItem,
  legendAt,
  lineSample,
  linesAt,
  namesBeside,
  rulerAt,
  titleOf,
  WIDTH,
} from './sheet.ts';
import {
  type Axis,
  bearerAt,
  type CrownShape,
  crownHalf,
  diameterAt,
  nearness,
  type Point,
  pointAt,
  type Stature,
  sideward,
} from './stature.ts';
import { type Area, type Drawn, hatched, hatches, label, n, pathOf, picture, TEXT, wrapped } from './svg.ts';

/** A record that is drawn, with the words that stand beside it. */
interface Worded {
  /** The first line is its name. */
  readonly lines: readonly string[];
  readonly isMarked?: boolean;
}

export interface ElevationDrawing {
  readonly title: string;
  readonly stature: Stature;
  readonly unit: Unit;
  readonly top: Worded;
  readonly lean: Worded | undefined;
  readonly stems: readonly (Worded & { readonly part: string })[];
  readonly unions: readonly (Worded & { readonly part: string })[];
  readonly limbs: readonly (Worded & { readonly part: string })[];
  readonly defects: readonly (Worded & {
    readonly part: string | undefined;
    readonly height: number;
    readonly facing: number | undefined;
  })[];
  readonly supports: readonly (Worded & {
    readonly height: number;
    readonly holds: readonly string[];
    /** Down to the ground: a prop, a guy. */
    readonly isGrounded: boolean;
    readonly isPlanned: boolean;
  })[];
  /** Distances from the crown, heights above ground, m; undefined where not on record. */
  readonly wires: readonly (Worded & {
    readonly height: number | undefined;
    readonly away: number | undefined;
  })[];
  readonly targets: readonly (Worded & {
    readonly kind: string | undefined;
    readonly distance: number | undefined;
    readonly toward: number | undefined;
  })[];
  /** From the axis of the stem; to the left below zero. m. */
  readonly trenches: readonly (Worded & { readonly away: number; readonly depth: number | undefined })[];
  readonly views: readonly (Worded & {
    /** Height of the eye, its distance from the stem, and the heights at the distance beyond; m. */
    readonly eye: number;
    readonly away: number;
    readonly bottom: number;
    readonly top: number;
    readonly beyond: number;
  })[];
  /** What the open work takes away. */
  readonly down:
    | {
        readonly words: string;
        readonly isWhole: boolean;
        /** Above this height, m. */
        readonly above: number | undefined;
        readonly parts: readonly string[];
        /** The share of their length that is left. */
        readonly shortened: ReadonlyMap<string, number>;
        readonly after: (CrownShape & Worded) | undefined;
      }
    | undefined;
  /** A tree that is gone: its stump, and the outline that it had. */
  readonly isFelled: boolean;
  readonly lines: readonly string[];
  readonly description: string;
}

/** Where its parts are; lists in the order given. */
export interface DrawnElevation {
  readonly svg: string;
  readonly drawn: Drawn;
  readonly areas: Readonly<
    Record<'title' | 'crown' | 'key', Area> &
      Record<'defects' | 'supports' | 'wires' | 'targets' | 'trenches' | 'views' | 'limbs', readonly Area[]>
  >;
}

const TOP = 40;
/** Left and right of the tree; the ruler is on the left, the names on the right. */
const LEFT = 52;
const RIGHT = 192;
const COLUMN = { x: 206, width: 110 } as const;
const HIGHEST = 196;
const LOWEST = 110;
const TOUCH = 24;
/** Below the ground, above the rows of targets. */
const SOIL = 18;

export function drawElevation(drawing: ElevationDrawing): DrawnElevation {
  const { stature, down, isFelled } = drawing;
  const { axes, crown, slope } = stature;
  const names = namesOf(drawing).map(one => ({
    ...one,
    lines: one.lines.flatMap(line => wrapped(line, COLUMN.width - 4, TEXT.small)),
  }));
  const { left, right, tallest } = extentOf(drawing);
  const byWidth = (RIGHT - LEFT) / Math.max(left + right, 0.5);
  const high = Math.max(heightOfNames(names), Math.min(HIGHEST, Math.max(LOWEST, tallest * byWidth)));
  const scale = Math.min(byWidth, high / tallest);
  const ground = TOP + high;
  const stem = LEFT + left * scale + (RIGHT - LEFT - (left + right) * scale) / 2;
  const x = (metres: number): number => stem + metres * scale;
  const y = (metres: number): number => ground - metres * scale;
  const px = ({ x: east, y: up }: Point): [number, number] => [x(east), y(up)];
  const at: Placing = { x, y, px, scale, ground, stem };

  const outline = crown && crownPath(crown, stature, at);
  const axisPaths = axes.map(axis => axisPath(axis, stature, at));
  const after = down?.after;
  const cutCrown = crown && down && (down.isWhole || down.above !== undefined || after !== undefined);
  const rest = after && crown ? crownPath(crown, stature, at, after) : '';
  const positions = placesOf(drawing, at);
  const placed = namesBeside(
    names.map((one, i) => ({ ...one, x: positions[i]![0], y: positions[i]![1] })),
    { ...COLUMN, top: TOP, bottom: ground },
  );
  const strip = targetStrip(drawing, at);
  const key = legendAt(keyOf(drawing), strip.bottom + 6);
  const said = linesAt(drawing.lines, key.bottom + 4);
  const height = Math.ceil(said.bottom + 10);
  const isHatched = down !== undefined;
  const parts = [
    hatches(...(isHatched ? (['down'] as const) : [])),
    titleOf(drawing.title),
    ...drawing.views.map(view => sightLines(view, at)),
    ...rulerAt(10, tallest, scale, drawing.unit, y),
    `<path class="soil" stroke-width="2" d="M${LEFT - 12} ${n(ground)}H${RIGHT + 6}"/>`,
    ...(isFelled
      ? [
          outline ? `<path class="ink" stroke-width="1" stroke-dasharray="3 4" d="${outline}"/>` : '',
          stumpPath(axes, at),
        ]
      : [
          crown && outline ? crownMarks(crown, outline, stature, at) : '',
          ...axes.map((axis, i) => axisMarks(axis, axisPaths[i]!)),
          ...ownCrowns(axes, at),
          cutCrown && outline
            ? `<path ${hatched('down')} fill-rule="evenodd" d="${down.above === undefined ? `${outline}${rest}` : crownPath(crown, stature, at, { ...crown, base: Math.max(crown.base, down.above) })}"/>`
            : '',
          ...fallen(axes, stature, at, down),
          rest === '' ? '' : `<path class="after" stroke-width="2.2" stroke-dasharray="7 4" d="${rest}"/>`,
        ]),
    drawing.lean ? leanMarks(slope, stature, at, drawing.lean.isMarked === true) : '',
    ...drawing.trenches.map(one => trenchMark(one, at)),
    ...drawing.supports.map(one => supportMark(one, axes, at)),
    ...drawing.wires.map((one, i) => wireMark(one, wirePoint(drawing, i, at), at)),
    ...placed.map(({ marks }) => marks),
    ...drawing.defects.map(one => defectMark(one, defectPoint(one, stature, at), stature, at)),
    ...strip.marks,
    ...key.marks,
    ...said.marks,
  ];
  // In the order of `namesOf`.
  const areas = placed.map(({ area }) => touchable(area));
  const take = takeFrom(areas);
  take(1 + (drawing.lean ? 1 : 0) + (after ? 1 : 0) + drawing.stems.length + drawing.unions.length);
  return {
    svg: picture({ width: WIDTH, height, title: drawing.title, description: drawing.description }, parts),
    drawn: [TOP - 14, Math.ceil(strip.bottom + 4)],
    areas: {
      title: { x: 4, y: 6, width: WIDTH - 8, height: TOUCH },
      crown: crown
        ? {
            x: x(slope * ((crown.base + crown.top) / 2) - crown.spread / 2),
            y: y(crown.top),
            width: crown.spread * scale,
            height: (crown.top - crown.base) * scale,
          }
        : { x: LEFT, y: TOP, width: RIGHT - LEFT, height: high },
      key: { x: 4, y: key.bottom - TOUCH, width: WIDTH - 8, height: TOUCH },
      limbs: take(drawing.limbs.length),
      defects: take(drawing.defects.length),
      supports: take(drawing.supports.length),
      wires: take(drawing.wires.length),
      trenches: take(drawing.trenches.length),
      views: take(drawing.views.length),
      targets: strip.areas,
    },
  };
}

/** Takes so many from the front, one call after the other. */
function takeFrom(areas: readonly Area[]): (count: number) => readonly Area[] {
  let at = 0;
  return count => areas.slice(at, (at += count));
}

/** Smallest side of what a pointer should hit: 24 px (WCAG 2.2, 2.5.8). */
const touchable = (area: Area): Area => {
  const height = Math.max(TOUCH, area.height);
  return { ...area, y: area.y - (height - area.height) / 2, height };
};

/** From meters to the picture. */
interface Placing {
  readonly x: (metres: number) => number;
  readonly y: (metres: number) => number;
  readonly px: (point: Point) => [number, number];
  /** px per meter. */
  readonly scale: number;
  readonly ground: number;
  /** The base of the tree. */
  readonly stem: number;
}

/** All that is named in the column. */
const namesOf = (drawing: ElevationDrawing): readonly Worded[] => [
  drawing.top,
  ...(drawing.lean ? [drawing.lean] : []),
  ...(drawing.down?.after ? [drawing.down.after] : []),
  ...drawing.stems,
  ...drawing.unions,
  ...drawing.limbs,
  ...drawing.defects,
  ...drawing.supports,
  ...drawing.wires,
  ...drawing.trenches,
  ...drawing.views,
];

/** Where the marks of these are. */
function placesOf(drawing: ElevationDrawing, at: Placing): readonly [number, number][] {
  const { stature, lean, down } = drawing;
  const { axes, crown, slope, top } = stature;
  const axisOf = (part: string) => axes.find(one => one.part?.name.value === part);
  const topAt = crown?.top ?? top;
  return [
    at.px({ x: slope * topAt, y: topAt }),
    ...(lean ? [at.px({ x: slope * top * LEAN_AT, y: top * LEAN_AT })] : []),
    ...(down?.after ? [at.px({ x: slope * down.after.top, y: down.after.top })] : []),
    ...drawing.stems.map(({ part }) => at.px(axisOf(part)?.to ?? { x: 0, y: 0 })),
    ...drawing.unions.map(({ part }) => at.px(axisOf(part)?.from ?? { x: 0, y: 0 })),
    ...drawing.limbs.map(({ part }): [number, number] => {
      const axis = axisOf(part);
      return axis ? at.px(along(axis, 0.6)) : [at.stem, at.ground];
    }),
    ...drawing.defects.map(one => at.px(defectPoint(one, stature, at))),
    ...drawing.supports.map(one => at.px(supportEnds(one, axes)[1])),
    ...drawing.wires.map((_, i) => wirePoint(drawing, i, at).place),
    ...drawing.trenches.map(({ away }): [number, number] => [at.x(away), at.ground + 6]),
    ...drawing.views.map((view): [number, number] => {
      const beyond = Math.min(at.stem + view.beyond * at.scale, RIGHT + 4);
      return [beyond, lineAt(view, (view.bottom + view.top) / 2, beyond, at)];
    }),
  ];
}

const along = ({ from, to }: Axis, share: number): Point => ({
  x: from.x + share * (to.x - from.x),
  y: from.y + share * (to.y - from.y),
});

/** How far all of it goes to either side of the base, and up, m. Targets far away have arrows. */
function extentOf({ stature, defects, supports, trenches }: ElevationDrawing): {
  readonly left: number;
  readonly right: number;
  readonly tallest: number;
} {
  const { axes, crown, slope, top } = stature;
  const points = axes.flatMap(({ from, to, diameter, part }) => {
    const own = part?.crownSpread ? diameter * 4 : diameter;
    return [from.x - own, from.x + own, to.x - own, to.x + own];
  });
  const crownEnds = crown
    ? heightsOf(crown).flatMap(height => {
        const half = crownHalf(crown, height, stature.habit);
        return [slope * height - half, slope * height + half];
      })
    : [];
  const all = [...points, ...crownEnds, ...trenches.map(({ away }) => away * 1.1)];
  const span = Math.max(...all) - Math.min(...all);
  const room = Math.max(span * 0.04, 0.4);
  return {
    left: Math.max(-Math.min(...all), 0) + room,
    right: Math.max(...all, 0) + room,
    tallest: Math.max(
      top,
      ...axes.map(({ to }) => to.y),
      ...[...defects, ...supports].map(({ height }) => height),
      1,
    ),
  };
}

const STEPS = 60;

/** Leafy crowns have lobes, up to this share of their width deep. */
const LOBES = { deep: 0.08, each: 6 } as const;

/** More of them near both ends, where a crown is round. */
const heightsOf = ({ base, top }: CrownShape): readonly number[] =>
  Array.from(
    { length: STEPS + 1 },
    (_, i) => base + ((top - base) * (1 - Math.cos((Math.PI * i) / STEPS))) / 2,
  );

/** The outline of a crown; of what is left of it between the base and top after, and scaled to the spread after. */
function crownPath(
  crown: CrownShape,
  { slope, habit }: Stature,
  at: Placing,
  after: CrownShape = crown,
): string {
  if (habit === 'palm' && after === crown) return palmPath(crown, slope, at);
  const [base, top] = [Math.max(crown.base, after.base), Math.min(crown.top, after.top)];
  if (base >= top) return '';
  const lobed = (height: number) => {
    if (habit !== 'broad') return 1;
    const up = Math.min(1, Math.max(0, (height - crown.base) / (crown.top - crown.base)));
    return 1 - LOBES.deep * (1 - Math.abs(Math.sin(LOBES.each * Math.acos(2 * up - 1))));
  };
  const across = (height: number) =>
    crownHalf(crown, height, habit === 'palm' ? 'broad' : habit) *
    lobed(height) *
    (after.spread / crown.spread);
  const heights = heightsOf({ base, top, spread: 0 });
  return pathOf([
    ...heights.map(height => at.px({ x: slope * height - across(height), y: height })),
    ...heights.toReversed().map(height => at.px({ x: slope * height + across(height), y: height })),
  ]);
}

/** Fronds from the top of the stem. */
function palmPath({ base, top, spread }: CrownShape, slope: number, at: Placing): string {
  const heart = { x: slope * (base + (top - base) * 0.55), y: base + (top - base) * 0.55 };
  const [hx, hy] = at.px(heart);
  const wide = (spread / 2) * at.scale;
  const up = (top - heart.y) * at.scale;
  const drop = (heart.y - base) * at.scale;
  return [-1, -0.8, -0.45, 0, 0.45, 0.8, 1]
    .map(side => {
      const tip = [hx + side * wide, Math.abs(side) === 1 ? hy + drop : hy - up * (1 - side ** 2 * 0.9)];
      const bend = [hx + side * wide * 0.55, hy - up * (Math.abs(side) === 1 ? 0.5 : 1)];
      return `M${n(hx)} ${n(hy)}Q${n(bend[0]! - 2)} ${n(bend[1]! - 3)} ${n(tip[0]!)} ${n(tip[1]!)}Q${n(bend[0]! + 2)} ${n(bend[1]! + 4)} ${n(hx + 1)} ${n(hy + 2)}Z`;
    })
    .join('');
}

function crownMarks(
  crown: NonNullable<Stature['crown']>,
  outline: string,
  stature: Stature,
  at: Placing,
): string {
  if (!crown.isMeasured)
    return `<path class="ink" stroke-width="1.2" stroke-dasharray="4 4" d="${outline}"/>`;
  if (stature.isDead)
    return `<path class="bare" fill-opacity="0.35" stroke-width="1" stroke-dasharray="2 2" d="${outline}"/><path class="soil" stroke-width="1.3" d="${twigs(crown, stature, at)}"/>`;
  return `<path class="leaf" fill-opacity="0.75" stroke-width="1.5" d="${outline}"/>`;
}

const TWIGS = 14;

/** Bare branches from the stem toward the edge of the crown; they stand for no limb on record. */
function twigs(crown: CrownShape, { slope, habit }: Stature, at: Placing): string {
  const deep = crown.top - crown.base;
  const rise = habit === 'pointed' ? -0.03 : 0.26;
  return Array.from({ length: TWIGS }, (_, i) => {
    const from = crown.base + deep * (0.04 + (0.8 * i) / TWIGS);
    const to = Math.min(Math.max(from + deep * rise * (1 - (0.5 * i) / TWIGS), crown.base), crown.top);
    const side = i % 2 === 0 ? -1 : 1;
    const [x1, y1] = at.px({ x: slope * from, y: from });
    const [x2, y2] = at.px({ x: slope * to + side * crownHalf(crown, to, habit) * 0.8, y: to });
    return `M${n(x1)} ${n(y1)}Q${n(x1 + (x2 - x1) * 0.6)} ${n(y1 + (y2 - y1) * 0.3)} ${n(x2)} ${n(y2)}`;
  }).join('');
}

/** Least widths of a stem as drawn, px. */
const LEAST = { base: 3.5, limb: 2.2, top: 1.2, down: 5.5 } as const;
/** Of a trunk at the ground, and the share of its height above which it has its own width. */
const FLARE = { wide: 1.3, until: 0.05 } as const;

/** A stem to its taper, from one share of its length to another. */
function axisPath(
  axis: Axis,
  { habit, isDead, crown }: Stature,
  at: Placing,
  start = 0,
  end = 1,
  least: number = axis.kind === 'limb' ? LEAST.limb : LEAST.base,
): string {
  const isBroken = isDead && !crown && axis.kind !== 'limb';
  const half = (share: number): number => {
    const own = habit === 'palm' ? axis.diameter : diameterAt(axis, isBroken ? share * 0.4 : share);
    const floor = least + (LEAST.top - least) * (isBroken || least === LEAST.down ? 0 : share);
    return Math.max(own * at.scale, floor) / 2;
  };
  const [dx, dy] = [(axis.to.x - axis.from.x) * at.scale, (axis.from.y - axis.to.y) * at.scale];
  const long = Math.hypot(dx, dy) || 1;
  // Across the axis for a limb, level for what stands.
  const [ax, ay] = axis.kind === 'limb' ? [-dy / long, dx / long] : [1, 0];
  const isFooted = axis.kind === 'trunk' && axis.from.y === 0 && start === 0;
  const shares = [start, ...(isFooted ? [FLARE.until] : []), end];
  const edge = (side: 1 | -1) =>
    shares.map((share, i): [number, number] => {
      const [cx, cy] = at.px(along(axis, share));
      const wide = half(share) * (isFooted && i === 0 ? FLARE.wide : 1) * side;
      return [cx + ax * wide, cy + ay * wide];
    });
  const jag: [number, number][] = [];
  if (isBroken && end === 1) {
    const [cx, cy] = at.px(axis.to);
    const wide = half(1);
    jag.push([cx - wide * 0.4, cy - 7], [cx, cy - 1], [cx + wide * 0.5, cy - 5]);
  }
  return pathOf([...edge(-1), ...jag, ...edge(1).reverse()]);
}

const axisMarks = ({ isMeasured }: Axis, path: string): string =>
  isMeasured
    ? `<path class="wood" d="${path}"/><path class="soil" stroke-width="0.8" d="${path}"/>`
    : `<path class="paper" fill-opacity="0.6" d="${path}"/><path class="ink" stroke-width="1" stroke-dasharray="4 3" d="${path}"/>`;

/** The outlines of crowns that stems have of their own. */
const ownCrowns = (axes: readonly Axis[], at: Placing): readonly string[] =>
  axes.flatMap(axis => {
    const shape = ownCrown(axis);
    return shape
      ? [
          `<path class="leaf" fill-opacity="0" stroke-width="1" stroke-dasharray="1 2" d="${ownPath(axis, shape, at)}"/>`,
        ]
      : [];
  });

function ownCrown({ part, from, to }: Axis): CrownShape | undefined {
  const [base, spread] = [part?.crownBase?.value, part?.crownSpread?.value];
  if (!spread || !Number.isFinite(spread.high)) return undefined;
  const low = base && Number.isFinite(base.high) ? (base.low + base.high) / 2 : from.y + (to.y - from.y) / 3;
  return low < to.y ? { base: low, top: to.y, spread: (spread.low + spread.high) / 2 } : undefined;
}

function ownPath(axis: Axis, shape: CrownShape, at: Placing): string {
  const heights = heightsOf(shape);
  const edge = (side: 1 | -1) =>
    heights.map(height =>
      at.px({ x: pointAt(axis, height).x + side * crownHalf(shape, height, 'broad'), y: height }),
    );
  return pathOf([...edge(-1), ...edge(1).reverse()]);
}

/** Stems and limbs, and ends of them, that come down: hatched, with a heavy edge. */
function fallen(
  axes: readonly Axis[],
  stature: Stature,
  at: Placing,
  down: ElevationDrawing['down'],
): readonly string[] {
  if (!down) return [];
  const mark = (path: string, { isMeasured }: Axis) =>
    `<path class="paper" d="${path}"/><path ${hatched('down')} d="${path}"/><path class="mark" stroke-width="1.2"${isMeasured ? '' : ' stroke-dasharray="4 3"'} d="${path}"/>`;
  return axes.flatMap(axis => {
    const name = axis.part?.name.value;
    const isGone = down.isWhole || (name !== undefined && down.parts.includes(name));
    if (isGone) {
      const own = ownCrown(axis);
      return [
        ...(own && !down.isWhole ? [`<path ${hatched('down')} d="${ownPath(axis, own, at)}"/>`] : []),
        mark(axisPath(axis, stature, at, 0, 1, LEAST.down), axis),
      ];
    }
    const left = name === undefined ? undefined : down.shortened.get(name);
    if (left !== undefined) return [mark(axisPath(axis, stature, at, left, 1, LEAST.down), axis)];
    if (down.above !== undefined && down.above < axis.to.y && axis.kind !== 'limb') {
      const share = (down.above - axis.from.y) / Math.max(axis.to.y - axis.from.y, 1e-9);
      return [mark(axisPath(axis, stature, at, Math.max(0, share), 1, LEAST.down), axis)];
    }
    return [];
  });
}

const STUMP = 7;

/** Of each stem that stood. */
const stumpPath = (axes: readonly Axis[], at: Placing): string =>
  axes
    .filter(({ from, kind }) => kind === 'trunk' && from.y === 0)
    .map(({ from, diameter }) => {
      const half = Math.max(5, (diameter * at.scale) / 2);
      const foot = at.x(from.x);
      return `<path class="wood" d="M${n(foot - half * 1.3)} ${n(at.ground)}L${n(foot - half)} ${n(at.ground - STUMP)}H${n(foot + half)}L${n(foot + half * 1.3)} ${n(at.ground)}Z"/><path class="ink" stroke-width="1.5" d="M${n(foot - half)} ${n(at.ground - STUMP)}h${n(2 * half)}"/>`;
    })
    .join('');

/** Share of the height at which the angle is drawn. */
const LEAN_AT = 0.4;

/** Above the base a plumb line, and between it and the stem the angle; an arrow where it still moves. */
function leanMarks(slope: number, { top }: Stature, at: Placing, isMoving: boolean): string {
  const radius = top * LEAN_AT * at.scale;
  const angle = Math.atan(slope);
  const end = [at.stem + radius * Math.sin(angle), at.ground - radius * Math.cos(angle)] as const;
  const tip = at.px({ x: slope * top * 0.9, y: top * 0.9 });
  const way = slope < 0 ? -1 : 1;
  return [
    `<path class="ink" stroke-width="1" stroke-dasharray="6 3" d="M${n(at.stem)} ${n(at.ground)}V${n(at.y(top * 0.75))}"/>`,
    `<path class="ink" stroke-width="1" d="M${n(at.stem)} ${n(at.ground - radius)}A${n(radius)} ${n(radius)} 0 0 ${slope < 0 ? 0 : 1} ${n(end[0])} ${n(end[1])}"/>`,
    isMoving
      ? `<path class="mark" stroke-width="2.5" d="M${n(tip[0])} ${n(tip[1])}h${20 * way}m${-7 * way} -5l${7 * way} 5l${-7 * way} 5"/>`
      : '',
  ].join('');
}

/** Least depth of a trench as drawn, and most. */
const SHALLOW = 5;
const DEEP = 14;
const TRENCH = 9;

function trenchMark({ away, depth }: ElevationDrawing['trenches'][number], at: Placing): string {
  const deep = Math.min(DEEP, Math.max(SHALLOW, (depth ?? 0) * at.scale));
  return `<path class="cut" stroke-width="1.5" d="M${n(at.x(away) - TRENCH / 2)} ${n(at.ground - 1)}v${n(deep + 1)}h${TRENCH}v${n(-deep - 1)}"/>`;
}

/** On its part, on the side that it faces. */
function defectPoint(
  { part, height, facing }: ElevationDrawing['defects'][number],
  { axes, right }: Stature,
  at: Placing,
): Point {
  const side = facing === undefined ? 0 : sideward(facing, right);
  const axis = axes.find(one => one.part?.name.value === part) ?? bearerAt(axes, height, side);
  const on = pointAt(axis, height);
  const share = axis.to.y > axis.from.y ? (on.y - axis.from.y) / (axis.to.y - axis.from.y) : 0;
  const half = Math.max(diameterAt(axis, share), 4 / at.scale) / 2;
  // At the height on record, also beyond the ends of the part.
  return { x: on.x + (axis.kind === 'limb' ? 0 : side * half), y: axis.kind === 'limb' ? on.y : height };
}

/** Beyond this a side is hidden from who looks. */
const HIDDEN = -0.3;

/** A diamond; open where it is on the far side. */
function defectMark(
  { facing }: ElevationDrawing['defects'][number],
  point: Point,
  { right }: Stature,
  at: Placing,
): string {
  const [x, y] = at.px(point);
  const isFar = facing !== undefined && nearness(facing, right) < HIDDEN;
  return `<path class="${isFar ? 'void' : 'solid'}" stroke-width="1.5" d="M${n(x)} ${n(y - 5.5)}l5.5 5.5l-5.5 5.5l-5.5 -5.5Z"/>`;
}

/** Length as drawn of a support that holds one part, and how far from it a prop stands, px. */
const HOLD = 26;

/** Its two ends; the second one on the right. */
function supportEnds(
  { height, holds, isGrounded }: ElevationDrawing['supports'][number],
  axes: readonly Axis[],
): readonly [Point, Point] {
  const named = axes.filter(({ part }) => part && holds.includes(part.name.value));
  const stems = axes.filter(({ kind, from, to }) => kind === 'stem' && from.y <= height && height <= to.y);
  const held = named.length > 0 || isGrounded ? named : stems;
  const points = held.map(axis => pointAt(axis, height)).sort((a, b) => a.x - b.x);
  const [first] = points;
  const last = points.at(-1);
  if (first && last && first !== last && !isGrounded)
    return [
      { x: first.x, y: height },
      { x: last.x, y: height },
    ];
  const on = first ?? pointAt(bearerAt(axes, height, 1), height);
  return [
    { x: on.x, y: height },
    { x: on.x, y: height },
  ];
}

/** A line between what it holds, or from the stem down to the ground. */
function supportMark(
  support: ElevationDrawing['supports'][number],
  axes: readonly Axis[],
  at: Placing,
): string {
  const [one, other] = supportEnds(support, axes).map(at.px) as [[number, number], [number, number]];
  const isSingle = one[0] === other[0];
  const from = isSingle && !support.isGrounded ? [one[0] - HOLD / 2, one[1]] : one;
  const to = support.isGrounded
    ? [other[0] + HOLD, at.ground]
    : isSingle
      ? [other[0] + HOLD / 2, other[1]]
      : other;
  const end = ([x, y]: readonly number[]) => `<circle class="solid" cx="${n(x!)}" cy="${n(y!)}" r="2.5"/>`;
  return `<path class="ink" stroke-width="2.2"${support.isPlanned ? ' stroke-dasharray="4 2"' : ''} d="M${n(from[0]!)} ${n(from[1]!)}L${n(to[0]!)} ${n(to[1]!)}"/>${end(from)}${end(to)}`;
}

interface WirePoint {
  readonly place: [number, number];
  /** Farther than the picture goes. */
  readonly isBeyond: boolean;
}

/** At its height and at its distance from the crown, on the right: on which side it runs is not on record. */
function wirePoint(drawing: ElevationDrawing, index: number, at: Placing): WirePoint {
  const { crown, slope, top, habit } = drawing.stature;
  const { height = top * 0.8, away = 0 } = drawing.wires[index]!;
  const edge: Point[] = crown
    ? heightsOf(crown).map(up => ({ x: slope * up + crownHalf(crown, up, habit), y: up }))
    : [
        { x: slope * top, y: top },
        { x: 0, y: 0 },
      ];
  // The nearest place to the right of the stem that is as far from all of the crown's edge.
  let [near, far] = [Math.min(...edge.map(({ x }) => x)), Math.max(...edge.map(({ x }) => x)) + away];
  for (let i = 0; i < 30; i++) {
    const middle = (near + far) / 2;
    const isClear =
      edge.every(point => Math.hypot(point.x - middle, point.y - height) >= away) &&
      !(crown && middle < slope * height + crownHalf(crown, height, habit));
    if (isClear) far = middle;
    else near = middle;
  }
  const x = at.x(far);
  const most = RIGHT - 8;
  return { place: [Math.min(x, most), at.y(height)], isBeyond: x > most };
}

/** A wire in section; an arrow where it is farther away than the picture goes. */
function wireMark(
  { height }: ElevationDrawing['wires'][number],
  { place: [x, y], isBeyond }: WirePoint,
  at: Placing,
): string {
  const wire = `<circle class="void" stroke-width="1.5" cx="${n(x)}" cy="${n(y)}" r="4.5"/><path class="ink" stroke-width="1.5" d="M${n(x - 3)} ${n(y - 3)}l6 6m0 -6l-6 6"/>`;
  const arrow = isBeyond
    ? `<path class="ink" stroke-width="1.5" d="M${n(x + 6)} ${n(y)}h8m-4 -4l4 4l-4 4"/>`
    : '';
  const unknown =
    height === undefined
      ? `<path class="ink" stroke-width="1" stroke-dasharray="2 4" d="M${n(x)} ${TOP}V${n(at.ground)}"/>`
      : '';
  return unknown + wire + arrow;
}

const ROW = 13;

/** Below the ground a row for each target: as far from the base as it is, or an arrow where that is beyond the picture. */
function targetStrip(
  { targets, stature: { right } }: ElevationDrawing,
  at: Placing,
): { readonly marks: readonly string[]; readonly areas: readonly Area[]; readonly bottom: number } {
  const marks: string[] = [];
  const areas: Area[] = [];
  let top = at.ground + SOIL;
  for (const target of targets) {
    const lines = target.lines.flatMap(line => wrapped(line, COLUMN.width - 4, TEXT.small));
    const middle = top + (lines.length * ROW) / 2;
    const side = target.toward !== undefined && sideward(target.toward, right) < -1e-6 ? -1 : 1;
    const { distance } = target;
    const wanted = distance === undefined ? at.stem + side * 20 : at.x(side * distance);
    const end = Math.min(RIGHT + 6, Math.max(LEFT - 30, wanted));
    const isBeyond = distance !== undefined && end !== wanted;
    const look = distance === undefined ? ' stroke-dasharray="2 3"' : '';
    marks.push(
      `<path class="ink" stroke-width="1"${look} d="M${n(at.stem)} ${n(middle - 4)}v8m0 -4H${n(end)}"/>`,
      isBeyond
        ? `<path class="ink" stroke-width="1.5" d="M${n(end - 5 * side)} ${n(middle - 4)}L${n(end)} ${n(middle)}L${n(end - 5 * side)} ${n(middle + 4)}"/>`
        : `<path class="ink" stroke-width="1.5" d="M${n(end)} ${n(middle - 4)}v8"/>${distance === undefined ? '' : standing(target.kind, end, at.ground)}`,
      ...lines.map((line, i) => label(COLUMN.x + 4, top + (i + 0.8) * ROW, line, { size: TEXT.small })),
    );
    areas.push(touchable({ x: COLUMN.x, y: top, width: COLUMN.width, height: lines.length * ROW }));
    top += Math.max(lines.length * ROW, TOUCH) + 2;
  }
  return { marks, areas, bottom: targets.length === 0 ? at.ground + SOIL : top };
}

/** A sign on the ground for what stands or passes there; how high it is, nobody wrote. */
function standing(kind: string | undefined, x: number, ground: number): string {
  const path = (d: string) => `<path class="void" stroke-width="1.2" d="M${n(x)} ${n(ground)}${d}"/>`;
  switch (kind) {
    case 'people':
      return `${path('v-8m-3 8l3 -5l3 5m-6 -6h6')}<circle class="solid" cx="${n(x)}" cy="${n(ground - 10.5)}" r="2.3"/>`;
    case 'building':
      return path('h7v-9l-7 -6l-7 6v9Z');
    case 'road':
      return path('h7v-3h-14v3Z');
    case 'vehicles':
      return path('m-8 -2v-4h3l2 -4h6l2 4h3v4Z');
    case 'utility':
      return path('v-14m-5 2h10');
    default:
      return path('v-12l7 3l-7 3');
  }
}

/** y of a sight line to a height beyond the tree, at an x of the picture. */
const lineAt = (view: ElevationDrawing['views'][number], object: number, x: number, at: Placing): number =>
  at.y(view.eye + ((object - view.eye) * (view.away + (x - at.stem) / at.scale)) / (view.away + view.beyond));

/** The eye is on the left; the lines run on to what they meet, or to the edge. */
function sightLines(view: ElevationDrawing['views'][number], at: Placing): string {
  const left = Math.max(at.stem - view.away * at.scale, LEFT - 10);
  const right = Math.min(at.stem + view.beyond * at.scale, RIGHT + 4);
  return [view.bottom, view.top]
    .map(
      object =>
        `<path class="ink" stroke-width="1" stroke-dasharray="1 4" stroke-linecap="round" d="M${n(left)} ${n(lineAt(view, object, left, at))}L${n(right)} ${n(lineAt(view, object, right, at))}"/>`,
    )
    .join('');
}

/** Only what the picture has. */
function keyOf({ stature, down, defects, isFelled, wires, views }: ElevationDrawing): readonly LegendItem[] {
  const { crown, axes, isDead, right } = stature;
  const isBroken = axes.some(({ isMeasured }) => !isMeasured) || (crown && !crown.isMeasured);
  const broken = 'class="ink" stroke-width="1.2" stroke-dasharray="4 3"';
  if (isFelled)
    return [
      { sample: boxSample('class="wood"'), words: 'stump' },
      {
        sample: lineSample('class="ink" stroke-width="1" stroke-dasharray="3 4"'),
        words: 'the tree that stood there',
      },
    ];
  return [
    ...(crown?.isMeasured
      ? [
          {
            sample: boxSample(`class="${isDead ? 'bare' : 'leaf'}" fill-opacity="0.75" stroke-width="1.5"`),
            words: isDead ? 'dead crown' : 'crown',
          },
        ]
      : []),
    ...(axes.some(({ part }) => part?.crownSpread)
      ? [
          {
            sample: lineSample('class="leaf" fill-opacity="0" stroke-width="1" stroke-dasharray="1 2"'),
            words: 'crown of a stem',
          },
        ]
      : []),
    ...(down
      ? [
          {
            sample: boxSample(hatched('down'), 'class="void" stroke-width="1"'),
            words: `comes down: ${down.words}`,
          },
        ]
      : []),
    ...(down?.after
      ? [
          {
            sample: lineSample('class="after" stroke-width="2.2" stroke-dasharray="7 4"'),
            words: 'crown after it',
          },
        ]
      : []),
    ...(isBroken ? [{ sample: boxSample(broken), words: 'not measured' }] : []),
    ...(defects.some(({ facing }) => facing !== undefined && nearness(facing, right) < HIDDEN)
      ? [
          {
            sample: (x: number, y: number) =>
              `<path class="void" stroke-width="1.5" d="M${n(x + 8)} ${n(y)}l5 5l-5 5l-5 -5Z"/>`,
            words: 'on the far side',
          },
        ]
      : []),
    ...(wires.length > 0
      ? [
          {
            sample: (x: number, y: number) =>
              `<circle class="void" stroke-width="1.5" cx="${n(x + 8)}" cy="${n(y + 5)}" r="4.5"/><path class="ink" stroke-width="1.5" d="M${n(x + 5)} ${n(y + 2)}l6 6m0 -6l-6 6"/>`,
            words: 'power line, its side not recorded',
          },
        ]
      : []),
    ...(views.length > 0
      ? [
          {
            sample: lineSample('class="ink" stroke-width="1" stroke-dasharray="1 4" stroke-linecap="round"'),
            words: 'sight line',
          },
        ]
      : []),
  ];
}
