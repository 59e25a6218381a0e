/** A plan of a site: crowns to scale at their positions, north up. */

import { compassPoint } from '../../grammar/bearing.ts';
import { crownRadius } from '../assess/fall-zone.ts';
import type { Urgency } from '../assess/urgency.ts';
import { EARTH_RADIUS } from '../base/distance.ts';
import { middle } from '../base/interval.ts';
import { inUnit, unitOf } from '../base/quantity.ts';
import { counted } from '../base/words.ts';
import { label, n, picture } from '../show/drawing/svg.ts';
import type { ReportTree } from './data.ts';
import { html, imageOf, type Markup } from './html.ts';
import { hasChapter } from './parts.ts';

const WIDTH = 640;
const MARGIN = 28;
const HEIGHT = { least: 220, most: 640 };
/** Approximate width of a letter of a label, px. */
const LETTER = 6.6;
const LINE = 12;

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
  const spots = planTrees(trees);
  if (spots.length === 0) return false;
  const { svg, hiddenLabels } = drawPlan(name, spots, isImperial(trees));
  const without = trees.length - spots.length;
  const notes = [
    'Circles: crowns to scale. Marks: by when a tree needs something.',
    ...(hiddenLabels > 0
      ? [`${counted(hiddenLabels, 'tag is', 'tags are')} left out where trees stand close.`]
      : []),
    ...(without > 0 ? [`${counted(without, 'tree has', 'trees have')} no position on record.`] : []),
  ];
  const description = `Plan of ${name} with ${counted(spots.length, 'tree')}, from ${spread(spots)}.`;
  return html`<figure class="plan"><h3>${name}</h3><div class="scroll" role="region" aria-label=${`Plan of ${name}`} tabindex="0">${imageOf({ svg, description })}</div><figcaption>${notes.join(' ')}</figcaption></figure>`;
}

export const isImperial = (trees: readonly ReportTree[]): boolean =>
  trees.filter(({ tree }) => tree.height?.value.unit?.symbol === 'ft').length * 2 > trees.length;

/** Text alternative of the plan: the outermost trees in each direction. */
function spread(spots: readonly PlanTree[]): string {
  const ends = [0, 90, 180, 270].map(bearing => {
    const angle = (bearing * Math.PI) / 180;
    const along = ({ east, north }: PlanTree) => east * Math.sin(angle) + north * Math.cos(angle);
    return `${spots.reduce((far, spot) => (along(spot) > along(far) ? spot : far)).tag} in the ${compassPoint(bearing)}`;
  });
  return ends.join(', ');
}

interface LabelBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
}

const overlap = (a: LabelBox, b: LabelBox): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && Math.abs(a.y - b.y) < LINE;

function drawPlan(name: string, spots: readonly PlanTree[], imperial: boolean) {
  const ends = (of: (spot: PlanTree) => number) => ({
    least: spots.reduce((end, spot) => Math.min(end, of(spot) - spot.radius), Number.POSITIVE_INFINITY),
    most: spots.reduce((end, spot) => Math.max(end, of(spot) + spot.radius), Number.NEGATIVE_INFINITY),
  });
  const across = ends(({ east }) => east);
  const along = ends(({ north }) => north);
  const wide = Math.max(10, across.most - across.least);
  const tall = Math.max(10, along.most - along.least);
  const scale = Math.min((WIDTH - 2 * MARGIN) / wide, (HEIGHT.most - 3 * MARGIN) / tall);
  const height = Math.max(HEIGHT.least, tall * scale + 3 * MARGIN);
  const placed = spots.map(spot => ({
    ...spot,
    x: WIDTH / 2 + (spot.east - (across.least + across.most) / 2) * scale,
    y: (height - MARGIN) / 2 - (spot.north - (along.least + along.most) / 2) * scale,
    r: Math.max(4, spot.radius * scale),
  }));
  // Marks above all crowns.
  const crowns = placed.flatMap(({ x, y, r, felled, urgency }) =>
    felled
      ? []
      : [
          `<circle class="${urgency ? 'leaf' : 'after'}" ${urgency ? 'fill-opacity="0.45" stroke-width="1"' : 'stroke-width="1" stroke-dasharray="3 3"'} cx="${n(x)}" cy="${n(y)}" r="${n(r)}"/>`,
        ],
  );
  const marks = placed.map(({ x, y, felled, urgency }) =>
    markOf(felled ? 'felled' : (urgency ?? 'nothing'), x, y),
  );
  const { texts, hidden } = labels(placed);
  const parts = [
    ...crowns,
    ...marks,
    ...texts,
    northArrow(),
    scaleBar(scale, height, imperial),
    ...legend(placed, height),
  ];
  const title = `Plan of ${name}`;
  const svg = picture({ width: WIDTH, height: Math.ceil(height), title, description: title }, parts);
  return { svg, hiddenLabels: hidden };
}

export type Marked = Urgency | 'nothing' | 'felled';

/** By shape and color: either alone tells them apart. */
export function markOf(what: Marked, x: number, y: number): string {
  const path = (d: string, look: string) => `<path ${look} d="${d}"/>`;
  switch (what) {
    case 'now':
      return path(
        `M${n(x)} ${n(y - 6)}L${n(x + 6)} ${n(y + 5)}H${n(x - 6)}Z`,
        'class="mark marktext" stroke-width="1.5"',
      );
    case 'this season':
      return path(
        `M${n(x)} ${n(y - 5.5)}L${n(x + 5.5)} ${n(y)}L${n(x)} ${n(y + 5.5)}L${n(x - 5.5)} ${n(y)}Z`,
        'class="ring wood" stroke-width="1.5"',
      );
    case 'watch':
      return `<circle class="void" stroke-width="1.5" cx="${n(x)}" cy="${n(y)}" r="4"/>`;
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
  nothing: 'nothing on record',
  felled: 'felled',
};

/** Only what the plan shows, from the right end of its last line. */
function legend(
  placed: readonly { readonly felled: boolean; readonly urgency: Urgency | undefined }[],
  height: number,
): readonly string[] {
  const shown = new Set<Marked>(
    placed.map(({ felled, urgency }) => (felled ? 'felled' : (urgency ?? 'nothing'))),
  );
  const words = Object.entries(LEGEND).filter(([what]) => shown.has(what as Marked)) as [Marked, string][];
  let x = WIDTH - 12 - words.reduce((sum, [, text]) => sum + 26 + text.length * LETTER, 0);
  return words.flatMap(([what, text]) => {
    const parts = [markOf(what, x + 8, height - 16), label(x + 18, height - 12, text, { size: 11 })];
    x += 26 + text.length * LETTER;
    return parts;
  });
}

/** Each tag right, left, above or below its stem; left out if all four places overlap another label. */
function labels(placed: readonly { readonly tag: string; readonly x: number; readonly y: number }[]) {
  const taken: LabelBox[] = placed.map(({ x, y }) => ({ x: x - 6, y: y + 4, width: 12 }));
  const texts: string[] = [];
  for (const { tag, x, y } of placed) {
    const width = tag.length * LETTER;
    const places: readonly LabelBox[] = [
      { x: x + 8, y: y + 4, width },
      { x: x - 8 - width, y: y + 4, width },
      { x: x - width / 2, y: y - 9, width },
      { x: x - width / 2, y: y + 17, width },
    ];
    const free = places.find(
      box => box.x > 2 && box.x + width < WIDTH - 2 && !taken.some(other => overlap(box, other)),
    );
    if (!free) continue;
    taken.push(free);
    texts.push(label(free.x, free.y, tag, { size: 11 }));
  }
  return { texts, hidden: placed.length - texts.length };
}

const northArrow = (): string =>
  `<path class="solid" d="M${WIDTH - 24} 12L${WIDTH - 18} 32L${WIDTH - 24} 28L${WIDTH - 30} 32Z"/>${label(WIDTH - 24, 46, 'N', { anchor: 'middle' })}`;

/** A round length, at most a fifth of the picture, in the unit used by most trees. */
function scaleBar(scale: number, height: number, imperial: boolean): string {
  const unit = unitOf(imperial ? 'ft' : 'm')!;
  const most = WIDTH / 5 / scale / unit.factor;
  const power = 10 ** Math.floor(Math.log10(most));
  const steps = [5, 2, 1].map(step => step * power).find(step => step <= most)!;
  const length = steps * unit.factor;
  const y = height - 14;
  return `<path class="ink" stroke-width="2" d="M14 ${n(y - 4)}V${n(y)}H${n(14 + length * scale)}V${n(y - 4)}"/>${label(20 + length * scale, y + 2, inUnit(length, unit), { size: 11 })}`;
}
