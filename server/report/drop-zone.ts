/** The drop zone of a work order as a plan without words but names and figures, so that it serves in every language. */

import { crownRadius } from '../assess/fall-zone.ts';
import { exact } from '../base/interval.ts';
import { unitOf } from '../base/quantity.ts';
import { EDGE, heightOfNames, namesBeside, northAt, scaleBarAt, WIDTH } from '../show/drawing/sheet.ts';
import { sizeOf } from '../show/drawing/stature.ts';
import { n, picture, TEXT, wrapped } from '../show/drawing/svg.ts';
import type { WorkOrder } from './data.ts';
import { html, imageOf, type Markup } from './html.ts';
import type { Speech } from './languages/language.ts';
import { targetMark, wireMark } from './plan.ts';

const TOP = 16;
const LEAST = 130;
/** Of the drawing, left of the names. */
const RIGHT = 192;
const COLUMN = { x: 206, width: 110 } as const;
/** Targets farther away than so many times the zone have an arrow. */
const FAR = 1.6;

/** Nothing where the zone is not stated. */
export function dropZoneOf(
  { entry, prescription }: WorkOrder,
  { say, figure, point }: Speech,
): Markup | false {
  const { tree, settings } = entry;
  const zone = sizeOf(prescription.exclusion, settings);
  if (!prescription.exclusion || !zone || zone.value <= 0) return false;
  const { low, high: widest } = tree.crownSpread ? crownRadius(tree, settings) : exact(0);
  const crown = Number.isFinite(widest) ? widest : low;
  const targets = tree.targets.flatMap(({ name, distance, toward, removed }) => {
    const away = removed ? undefined : sizeOf(distance, settings);
    return away && toward !== undefined
      ? [
          {
            words: [name.value, say('at point', { value: figure(distance!), point: point(toward) })],
            away: away.value,
            toward,
          },
        ]
      : [];
  });
  const hasWires = tree.conductors.some(({ removed }) => !removed);
  const reach = Math.max(
    zone.value * 1.05,
    crown,
    ...targets.map(({ away }) => away).filter(away => away <= zone.value * FAR),
  );
  const around = [say('drop zone'), figure(prescription.exclusion)];
  const names = [around, ...targets.map(({ words }) => words)].map(lines => ({
    lines: lines.flatMap(line => wrapped(line, COLUMN.width - 4, TEXT.small)),
  }));
  const high = Math.max(LEAST, heightOfNames(names) + 40);
  const scale = Math.min((RIGHT - EDGE) / 2, high / 2) / reach;
  const [cx, cy] = [(EDGE + RIGHT) / 2, TOP + high / 2];
  const at = (bearing: number, metres: number): [number, number] => {
    const angle = (bearing * Math.PI) / 180;
    const far = Math.min(metres, reach);
    return [cx + far * scale * Math.sin(angle), cy - far * scale * Math.cos(angle)];
  };
  const places = [at(60, zone.value), ...targets.map(({ toward, away }) => at(toward, away))];
  const placed = namesBeside(
    names.map((name, i) => ({ ...name, x: places[i]![0], y: places[i]![1] })),
    { ...COLUMN, top: TOP + 36, bottom: TOP + high },
  );
  const circle = (look: string, metres: number) =>
    `<circle ${look} cx="${n(cx)}" cy="${n(cy)}" r="${n(metres * scale)}"/>`;
  const falls = prescription.takedown?.toward;
  const unit = unitOf(prescription.exclusion.value.unit?.symbol === 'm' ? 'm' : 'ft')!;
  const description = [around, ...targets.map(({ words }) => words)]
    .map(words => words.join(', '))
    .join('; ');
  const height = Math.ceil(TOP + high + 26);
  const [wx, wy] = at(300, Math.max(crown, reach * 0.2));
  const svg = picture({ width: WIDTH, height, title: say('drop zone'), description }, [
    crown > 0 ? circle('class="leaf" fill-opacity="0.75" stroke-width="1.2"', crown) : '',
    circle('class="mark" stroke-width="2" stroke-dasharray="8 4"', zone.value),
    falls === undefined ? '' : fallArrow([cx, cy], at(falls, zone.value * 0.8)),
    `<circle class="solid" cx="${n(cx)}" cy="${n(cy)}" r="3.5"/>`,
    ...targets.map(({ toward, away }) => targetMark(...at(toward, away))),
    ...targets.map(({ toward, away }) => (away > reach ? beyondArrow(at(toward, away), toward) : '')),
    hasWires ? wireMark(wx, wy) : '',
    ...placed.map(({ marks }) => marks),
    northAt(WIDTH - 24, 8),
    scaleBarAt(EDGE, height - 10, scale, unit, 90),
  ]);
  return html`<div class="dropzone">${imageOf({ svg, description })}</div>`;
}

/** The way in which the tree is felled. */
const fallArrow = ([x1, y1]: readonly [number, number], [x2, y2]: readonly [number, number]): string => {
  const angle = (Math.atan2(y2 - y1, x2 - x1) * 180) / Math.PI;
  return `<path class="ink" stroke-width="3" d="M${n(x1)} ${n(y1)}L${n(x2)} ${n(y2)}"/><path class="solid" transform="translate(${n(x2)} ${n(y2)}) rotate(${n(angle)})" d="M8 0L-4 6V-6Z"/>`;
};

/** On outward, from a target that is farther away than the picture goes. */
const beyondArrow = ([x, y]: readonly [number, number], bearing: number): string =>
  `<path class="ink" stroke-width="1.5" transform="translate(${n(x)} ${n(y)}) rotate(${n(bearing)})" d="M0 -7v-9m-4 4l4 -4l4 4"/>`;
