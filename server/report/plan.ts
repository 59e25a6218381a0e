/**
 * A plan of a site, north up: crowns to scale, by when trees need something, targets and power lines beside them.
 *
 * Long because what is drawn and what is only named below it are told apart in one place.
 */

import { compassPoint } from '../../grammar/bearing.ts';
import { isUninspected } from '../assess/evidence.ts';
import { crownRadius, readingOf } from '../assess/fall-zone.ts';
import type { Urgency } from '../assess/urgency.ts';
import { EARTH_RADIUS } from '../base/distance.ts';
import { grouped } from '../base/grouped.ts';
import { middle } from '../base/interval.ts';
import { unitOf } from '../base/quantity.ts';
import { counted, listed } from '../base/words.ts';
import type { Target, Tree } from '../facts/types.ts';
import type { Picture } from '../show/drawing/pictures.ts';
import { boxSample, EDGE, type LegendItem, legendAt, northAt, scaleBarAt } from '../show/drawing/sheet.ts';
import { label, n, picture, TEXT, textWidth } from '../show/drawing/svg.ts';
import type { ReportTree } from './data.ts';
import { html, imageOf, type Markup } from './html.ts';
import { hasChapter } from './parts.ts';
import { treeTitle } from './words.ts';

const WIDTH = 640;
const MARGIN = 28;
const HEIGHT = { least: 220, most: 640 };

export interface PlanTree {
  readonly of: ReportTree;
  readonly tag: string;
  /** m east and north of the first tree. */
  readonly east: number;
  readonly north: number;
  readonly radius: number;
  /** Undefined where it needs nothing. */
  readonly urgency: Urgency | undefined;
  readonly felled: boolean;
}

/** Those with a position. */
export function planTrees(trees: readonly ReportTree[]): readonly PlanTree[] {
  const first = trees.find(({ tree }) => tree.position)?.tree.position;
  if (!first) return [];
  // A site is small enough to be treated as flat.
  const degree = (EARTH_RADIUS * Math.PI) / 180;
  const narrowing = Math.cos((first.latitude * Math.PI) / 180);
  return trees.flatMap((entry): PlanTree[] => {
    const { tree, settings, urgency } = entry;
    if (!tree.position) return [];
    const radius = tree.crownSpread ? middle(crownRadius(tree, settings)) : 0;
    return [
      {
        of: entry,
        tag: tree.tag.value,
        east: (tree.position.longitude - first.longitude) * degree * narrowing,
        north: (tree.position.latitude - first.latitude) * degree,
        radius: Number.isFinite(radius) ? radius : 0,
        urgency: hasChapter(entry) ? urgency : undefined,
        felled: tree.felled !== undefined,
      },
    ];
  });
}

/** The plan as a figure; false if no tree of the site has a position. */
export function planOf(name: string, trees: readonly ReportTree[]): Markup | false {
  const plan = planPicture(name, trees);
  return (
    plan &&
    html`<figure class="plan"><h3>${name}</h3><div class="scroll" role="region" aria-label=${`Plan of ${name}`} tabindex="0">${imageOf(plan)}</div><figcaption>${plan.notes.join(' ')}</figcaption></figure>`
  );
}

interface Plan extends Picture {
  /** What the picture could not hold, by name. */
  readonly notes: readonly string[];
}

export function planPicture(name: string, trees: readonly ReportTree[]): Plan | false {
  const spots = planTrees(trees);
  if (spots.length === 0) return false;
  const { svg, unnamed } = drawPlan(name, spots, isImperial(trees));
  const without = trees.filter(({ tree }) => !tree.position).map(({ tree }) => treeTitle(tree));
  const unplaced = spots.flatMap(({ of: { tree } }) =>
    standingTargets(tree)
      .filter(one => !isPlaced(one))
      .map(one => `${one.name.value} (tree ${tree.tag.value})`),
  );
  const sighted = spots.flatMap(({ of: { tree } }) =>
    tree.views.map(view => `${view.name.value} (tree ${tree.tag.value})`),
  );
  const bare = spots.filter(({ radius, felled }) => radius === 0 && !felled).map(({ tag }) => tag);
  const stacked = [...grouped(spots, ({ east, north }) => `${east} ${north}`).values()].flatMap(all =>
    all.length > 1 ? [all.map(({ tag }) => tag)] : [],
  );
  const notes = [
    'Crowns, targets and distances are to scale.',
    ...(bare.length > 0
      ? [
          `Crown not measured, so not drawn: ${bare.length === spots.length ? 'all trees' : `${bare.length > 1 ? 'trees' : 'tree'} ${listed(bare)}`}.`,
        ]
      : []),
    ...stacked.map(tags => `On one spot: trees ${listed(tags)}.`),
    ...(unnamed.length > 0 ? [`Not named for want of room: ${listed(unnamed)}.`] : []),
    ...(without.length > 0 ? [`Not in the plan, without a position: ${listed(without)}.`] : []),
    ...(unplaced.length > 0
      ? [`Targets without a distance or direction on record: ${listed(unplaced)}.`]
      : []),
    ...(sighted.length > 0 ? [`Sight lines, whose direction is not on record: ${listed(sighted)}.`] : []),
  ];
  return { svg, description: planWords(name, spots), notes };
}

/** Text alternative: the trees by when they need something, and the outermost in each direction. */
function planWords(name: string, spots: readonly PlanTree[]): string {
  const groups = (Object.entries(LEGEND) as [Marked, string][]).flatMap(([what, words]) => {
    const tags = spots.filter(spot => markedAs(spot) === what).map(({ tag }) => tag);
    return tags.length > 0 ? [`${words}: ${tags.join(', ')}`] : [];
  });
  const targets = new Set(
    spots.flatMap(({ of: { tree } }) =>
      standingTargets(tree)
        .filter(isPlaced)
        .map(one => one.name.value),
    ),
  );
  return `Plan of ${name}, north up, with ${counted(spots.length, 'tree')}, from ${spread(spots)}. ${groups.join('; ')}.${targets.size > 0 ? ` Targets: ${[...targets].join(', ')}.` : ''}`;
}

const standingTargets = ({ targets, felled }: Tree): readonly Target[] =>
  felled ? [] : targets.filter(({ removed }) => !removed);

const isPlaced = ({ distance, toward }: Target): boolean =>
  toward !== undefined && distance !== undefined && Number.isFinite(distance.value.high);

export const isImperial = (trees: readonly ReportTree[]): boolean =>
  trees.filter(({ tree }) => tree.height?.value.unit?.symbol === 'ft').length * 2 > trees.length;

/** The outermost trees in each direction. */
function spread(spots: readonly PlanTree[]): string {
  const ends = [0, 90, 180, 270].map(bearing => {
    const angle = (bearing * Math.PI) / 180;
    const along = ({ east, north }: PlanTree) => east * Math.sin(angle) + north * Math.cos(angle);
    return `${spots.reduce((far, spot) => (along(spot) > along(far) ? spot : far)).tag} in the ${compassPoint(bearing)}`;
  });
  return ends.join(', ');
}

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const overlap = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

/** Around a point. */
const around = (x: number, y: number, half: number): Box => ({
  x: x - half,
  y: y - half,
  width: 2 * half,
  height: 2 * half,
});

interface Spot extends PlanTree {
  readonly x: number;
  readonly y: number;
  readonly r: number;
}

interface TargetSpot {
  readonly name: string;
  readonly x: number;
  readonly y: number;
  readonly from: Spot;
}

/** m east and north, of a target as seen from its tree. */
function targetPlaces({ of: { tree, settings }, east, north }: PlanTree) {
  return standingTargets(tree)
    .filter(isPlaced)
    .map(({ name, distance, toward }) => {
      const away = middle(readingOf(distance, settings));
      const angle = (toward! * Math.PI) / 180;
      return {
        name: name.value,
        east: east + away * Math.sin(angle),
        north: north + away * Math.cos(angle),
      };
    });
}

const URGENT: readonly Marked[] = ['now', 'this season', 'watch', 'not inspected', 'nothing', 'felled'];

function drawPlan(name: string, spots: readonly PlanTree[], imperial: boolean) {
  const aims = spots.map(spot => ({ spot, targets: targetPlaces(spot) }));
  const ends = (of: (place: { readonly east: number; readonly north: number }) => number) => {
    const values = aims.flatMap(({ spot, targets }) => [
      of(spot) - spot.radius,
      of(spot) + spot.radius,
      ...targets.map(of),
    ]);
    return values.reduce(
      (all, value) => ({ least: Math.min(all.least, value), most: Math.max(all.most, value) }),
      {
        least: Number.POSITIVE_INFINITY,
        most: Number.NEGATIVE_INFINITY,
      },
    );
  };
  const across = ends(({ east }) => east);
  const along = ends(({ north }) => north);
  const scale = Math.min(
    (WIDTH - 2 * MARGIN) / Math.max(10, across.most - across.least),
    (HEIGHT.most - 2 * MARGIN) / Math.max(10, along.most - along.least),
  );
  const high = Math.max(HEIGHT.least, (along.most - along.least) * scale + 2 * MARGIN);
  const x = (east: number) => WIDTH / 2 + (east - (across.least + across.most) / 2) * scale;
  const y = (north: number) => high / 2 - (north - (along.least + along.most) / 2) * scale;
  const placed = aims.map(({ spot, targets }) => ({
    spot: { ...spot, x: x(spot.east), y: y(spot.north), r: Math.max(4, spot.radius * scale) },
    targets,
  }));
  const trees: readonly Spot[] = placed.map(({ spot }) => spot);
  const targets: readonly TargetSpot[] = placed.flatMap(({ spot, targets }) =>
    targets.map(({ name, east, north }) => ({ name, x: x(east), y: y(north), from: spot })),
  );
  const wires = trees.flatMap(spot => (hasWire(spot) ? [wireAt(spot)] : []));
  const { marks: names, unnamed } = namesAmong(
    trees,
    targets,
    [...wires.map(([wx, wy]) => around(wx, wy, 5)), NORTH],
    high,
  );
  const unit = unitOf(imperial ? 'ft' : 'm')!;
  const key = legendAt(keyOf(trees, targets.length > 0, wires.length > 0), high + 22, WIDTH);
  const parts = [
    // Marks above all crowns, names above all marks.
    ...trees.flatMap(spot => (spot.felled || spot.radius === 0 ? [] : [crownAt(spot)])),
    ...targets.map(
      ({ x, y, from }) =>
        `<path class="ink" stroke-width="0.8" stroke-dasharray="2 3" d="M${n(from.x)} ${n(from.y)}L${n(x)} ${n(y)}"/>`,
    ),
    ...targets.map(({ x, y }) => targetMark(x, y)),
    ...wires.map(([wx, wy]) => wireMark(wx, wy)),
    // Of marks on one spot the most urgent is seen.
    ...trees
      .toSorted((a, b) => URGENT.indexOf(markedAs(b)) - URGENT.indexOf(markedAs(a)))
      .map(spot => markOf(markedAs(spot), spot.x, spot.y)),
    ...names,
    northAt(WIDTH - 22, 10),
    scaleBarAt(EDGE + 2, high + 12, scale, unit, WIDTH / 5),
    ...key.marks,
  ];
  const title = `Plan of ${name}`;
  const height = Math.ceil(key.bottom + 6);
  return { svg: picture({ width: WIDTH, height, title, description: title }, parts), unnamed };
}

/** Of the arrow to the north. */
const NORTH: Box = { x: WIDTH - 36, y: 6, width: 30, height: 44 };

export const markedAs = ({ of, felled, urgency }: PlanTree): Marked =>
  felled ? 'felled' : (urgency ?? (isUninspected(of.tree) ? 'not inspected' : 'nothing'));

const crownAt = ({ x, y, r, urgency }: Spot): string =>
  `<circle class="${urgency ? 'leaf' : 'after'}" ${urgency ? 'fill-opacity="0.45" stroke-width="1"' : 'stroke-width="1" stroke-dasharray="3 3"'} cx="${n(x)}" cy="${n(y)}" r="${n(r)}"/>`;

const hasWire = ({ of: { tree }, felled }: Spot): boolean =>
  !felled && tree.conductors.some(({ removed }) => !removed);

/** At the edge of the crown: on which side the line runs is not on record. */
const wireAt = ({ x, y, r }: Spot): readonly [number, number] => [
  x + Math.max(r, 9) * Math.SQRT1_2,
  y - Math.max(r, 9) * Math.SQRT1_2,
];

export const targetMark = (x: number, y: number): string =>
  `<path class="void" stroke-width="1.3" d="M${n(x - 4)} ${n(y - 4)}h8v8h-8Zm0 0l8 8m0 -8l-8 8"/>`;

export const wireMark = (x: number, y: number): string =>
  `<path class="void" stroke-width="1.2" d="M${n(x + 1)} ${n(y - 5.5)}l-4 6h3l-1.5 5l5 -6.5h-3.5Z"/>`;

export type Marked = Urgency | 'not inspected' | 'nothing' | 'felled';

/** By shape and color: either alone tells them apart. */
export function markOf(what: Marked, x: number, y: number): string {
  const path = (d: string, look: string) => `<path ${look} d="${d}"/>`;
  switch (what) {
    case 'now':
      return path(
        `M${n(x)} ${n(y - 6)}L${n(x + 6)} ${n(y + 5)}H${n(x - 6)}Z`,
        'class="mark marktext" stroke-width="1.5"',
      );
    case 'this season': {
      const diamond = `M${n(x)} ${n(y - 5.5)}L${n(x + 5.5)} ${n(y)}L${n(x)} ${n(y + 5.5)}L${n(x - 5.5)} ${n(y)}Z`;
      return path(diamond, 'class="wood"') + path(diamond, 'class="ink" stroke-width="1.5"');
    }
    case 'watch':
      return `<circle class="void" stroke-width="1.5" cx="${n(x)}" cy="${n(y)}" r="4"/>`;
    case 'not inspected':
      return `<circle class="void" stroke-width="1.2" stroke-dasharray="1.6 1.6" cx="${n(x)}" cy="${n(y)}" r="3"/>`;
    case 'felled':
      return path(
        `M${n(x - 4)} ${n(y - 4)}L${n(x + 4)} ${n(y + 4)}M${n(x - 4)} ${n(y + 4)}L${n(x + 4)} ${n(y - 4)}`,
        'class="ink" stroke-width="1.5"',
      );
    default:
      return `<circle class="solid" cx="${n(x)}" cy="${n(y)}" r="1.8"/>`;
  }
}

export const LEGEND: Readonly<Record<Marked, string>> = {
  now: 'now',
  'this season': 'this season',
  watch: 'watch',
  'not inspected': 'not inspected',
  nothing: 'nothing on record',
  felled: 'felled',
};

/** Only what the plan shows. */
function keyOf(trees: readonly Spot[], hasTargets: boolean, hasWires: boolean): readonly LegendItem[] {
  const shown = new Set(trees.map(markedAs));
  return [
    ...(Object.entries(LEGEND) as [Marked, string][])
      .filter(([what]) => shown.has(what))
      .map(([what, words]) => ({ sample: (x: number, y: number) => markOf(what, x + 8, y + 5), words })),
    ...(trees.some(({ felled, urgency, radius }) => !felled && urgency && radius > 0)
      ? [{ sample: boxSample('class="leaf" fill-opacity="0.45" stroke-width="1"'), words: 'crown' }]
      : []),
    ...(hasTargets
      ? [
          {
            sample: (x: number, y: number) => targetMark(x + 8, y + 5),
            words: 'target, as far away as recorded',
          },
        ]
      : []),
    ...(hasWires
      ? [
          {
            sample: (x: number, y: number) => wireMark(x + 8, y + 5),
            words: 'power line near the tree, its side not recorded',
          },
        ]
      : []),
  ];
}

/** From the mark to a name: right, left, above and below it, then farther away, where a line leads to it. */
const DISTANCES = [9, 20, 34, 50, 70] as const;
const DIRECTIONS = 16;
/** Beyond this a line leads from the mark to the name. */
const NEAR = 12;
const NAME = { height: 11, above: 8.5 } as const;

/** The names of trees, the most urgent first, and then of targets; those that find no room are returned. */
function namesAmong(
  trees: readonly Spot[],
  targets: readonly TargetSpot[],
  others: readonly Box[],
  high: number,
): { readonly marks: readonly string[]; readonly unnamed: readonly string[] } {
  const taken: Box[] = [
    ...trees.map(({ x, y }) => around(x, y, 6)),
    ...targets.map(({ x, y }) => around(x, y, 5)),
    ...others,
  ];
  const marks: string[] = [];
  const place = (text: string, x: number, y: number): boolean => {
    const width = textWidth(text, TEXT.small);
    for (const distance of DISTANCES)
      for (let i = 0; i < DIRECTIONS; i++) {
        const angle = (2 * Math.PI * i) / DIRECTIONS;
        const [aside, down] = [Math.cos(angle), Math.sin(angle)];
        // The nearest point of the box lies in that direction.
        const left = x + aside * distance + (aside > 0.1 ? 0 : aside < -0.1 ? -width : -width / 2);
        const top = y + down * distance - NAME.height / 2 + (NAME.height / 2) * down;
        const box: Box = { x: left, y: top, width, height: NAME.height };
        const isInside = left > 3 && left + width < WIDTH - 3 && top > 3 && top + NAME.height < high + 2;
        if (!isInside || taken.some(other => overlap(box, other))) continue;
        // Apart from the next name: 3 beside 2 is not 32.
        taken.push({ ...box, x: left - 3, width: width + 6 });
        if (distance > NEAR) {
          const end = aside > 0.1 ? left - 1 : aside < -0.1 ? left + width + 1 : left + width / 2;
          marks.unshift(
            `<path class="ink" stroke-width="0.7" d="M${n(x)} ${n(y)}L${n(end)} ${n(top + NAME.height / 2)}"/>`,
          );
        }
        marks.push(label(left, top + NAME.above, text, { size: TEXT.small, apart: true }));
        return true;
      }
    return false;
  };
  const order = trees.toSorted((a, b) => URGENT.indexOf(markedAs(a)) - URGENT.indexOf(markedAs(b)));
  const unnamed = order.filter(({ tag, x, y }) => !place(tag, x, y)).map(({ tag }) => `tree ${tag}`);
  // A target that several trees could hit is named once.
  const named = new Set<string>();
  const lost = new Set<string>();
  for (const { name, x, y } of targets)
    if (!named.has(name)) {
      if (place(name, x, y)) named.add(name);
      else lost.add(name);
    }
  return { marks, unnamed: [...unnamed, ...[...lost].filter(name => !named.has(name))] };
}
