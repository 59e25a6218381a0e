/** A stem across a defect: what is sound wood at the worst, what may be, what is not, and what nobody measured. */

import type { Unit } from '../../base/quantity.ts';
import type { Arc, SeenArcs } from '../../mechanics/camera-arcs.ts';
import type { Ring, SectionOutlines } from '../../mechanics/outlines.ts';
import {
  boxSample,
  EDGE,
  type LegendItem,
  legendAt,
  lineSample,
  linesAt,
  scaleBarAt,
  titleOf,
  WIDTH,
} from './sheet.ts';
import { type Area, type Drawn, hatched, hatches, label, n, pathOf, picture, TEXT } from './svg.ts';

export interface SectionDrawing {
  readonly title: string;
  /** Of the stem without any void, where nothing of it was measured. */
  readonly worst: SectionOutlines;
  /** Absent where nothing was measured, and where the readings leave no doubt. */
  readonly best?: SectionOutlines;
  readonly isMeasured: boolean;
  readonly isBarkMeasured: boolean;
  /** Name of the hollow, and where it faces, degrees. */
  readonly name: string;
  readonly facing?: number;
  /** Half the angle of its mouth, degrees. */
  readonly mouth?: number;
  readonly unit: Unit;
  /** Where the thinnest wall is, at the worst and at the best that the readings allow. */
  readonly thinnest?: { readonly worst: number; readonly best?: number };
  /** Absent if the section is equally weak in all directions. */
  readonly weakestAlong?: number;
  /** Sides that photographs show; absent if that is not known. */
  readonly views?: SeenArcs;
  /** Below the key. */
  readonly lines: readonly string[];
  readonly description: string;
}

export interface DrawnSection {
  readonly svg: string;
  readonly area: Area;
  readonly drawn: Drawn;
}

const CENTRE = { x: WIDTH / 2, y: 142 };
const RADIUS = 72;
/** Of the letters around the section. */
const LETTERS = RADIUS + 27;
/** Where the ring of the photographs lies. */
const VIEWED = RADIUS + 42;
const TOP = 32;

const onBearing = (bearing: number, distance: number): [number, number] => {
  const angle = (bearing * Math.PI) / 180;
  return [CENTRE.x + Math.sin(angle) * distance, CENTRE.y - Math.cos(angle) * distance];
};

/** A ring around the section: full where a photograph shows the side, dashed where perhaps, none elsewhere. */
const viewedRing = ({ seen, perhaps }: SeenArcs): string => {
  const drawn = (arcs: readonly Arc[], look: string) =>
    arcs.map(arc => `<path class="ink" ${look} d="${arcPath(arc, VIEWED)}"/>`).join('');
  return drawn(seen, 'stroke-width="4"') + drawn(perhaps, 'stroke-width="2" stroke-dasharray="2 4"');
};

function arcPath({ from, to }: Arc, radius: number): string {
  const span = to > from ? to - from : to - from + 360;
  // Two halves: one arc can't close a circle.
  const points = [from, from + span / 2, from + span].map(bearing => onBearing(bearing, radius));
  const [first, ...others] = points.map(([x, y]) => `${n(x)} ${n(y)}`);
  return `M${first}${others.map(point => `A${radius} ${radius} 0 0 1 ${point}`).join('')}`;
}

export function drawSection(drawing: SectionDrawing): DrawnSection {
  const { worst, best, isMeasured, views, weakestAlong, thinnest, facing, mouth } = drawing;
  const reach = Math.max(
    1e-9,
    ...[worst, ...(best ? [best] : [])].flatMap(({ bark, outer }) =>
      (bark ?? outer).map(([east, north]) => Math.hypot(east, north)),
    ),
  );
  const scale = RADIUS / reach;
  const ring = (points: Ring): string =>
    pathOf(points.map(([east, north]) => [CENTRE.x + east * scale, CENTRE.y - north * scale]));
  const soundOf = ({ sound }: SectionOutlines): string =>
    sound.map(shape => [shape.outline, ...shape.holes].map(ring).join('')).join('');
  const sound = soundOf(worst);
  const rings = [0.25, 0.5, 0.75].map(
    share =>
      `<path class="ring" stroke-width="0.8" d="${ring(worst.outer.map(([e, north]) => [e * share, north * share]))}"/>`,
  );
  const wood = isMeasured
    ? [
        best
          ? `<path ${hatched('doubt')} fill-rule="evenodd" d="${soundOf(best)}"/><path class="ink" stroke-width="1" d="${soundOf(best)}"/>`
          : '',
        `<path class="wood" fill-rule="evenodd" d="${sound}"/>`,
        `<g clip-path="url(#sound)">${rings.join('')}</g>`,
        `<path class="ink" stroke-width="2" d="${sound}"/>`,
      ]
    : [
        `<path ${hatched('unmeasured')} d="${ring(worst.outer)}"/><path class="ink" stroke-width="1.5" stroke-dasharray="5 3" d="${ring(worst.outer)}"/>`,
      ];
  const bottom = CENTRE.y + (views ? VIEWED : LETTERS) + 14;
  const parts = [
    hatches(...(isMeasured ? (best ? (['doubt'] as const) : []) : (['unmeasured'] as const))),
    isMeasured ? `<defs><clipPath id="sound"><path clip-rule="evenodd" d="${sound}"/></clipPath></defs>` : '',
    titleOf(drawing.title),
    worst.bark ? `<path class="bark" d="${ring(worst.bark)}"/>` : '',
    `<path class="void" stroke-width="1" stroke-dasharray="3 3" d="${ring(worst.outer)}"/>`,
    ...wood,
    mouth !== undefined && facing !== undefined ? mouthAt(facing, mouth) : '',
    views ? viewedRing(views) : '',
    ...(thinnest ? [pointer(thinnest.worst, 'solid')] : []),
    ...(thinnest?.best !== undefined ? [pointer(thinnest.best, 'void')] : []),
    weakestAlong === undefined ? '' : weakestAxis(weakestAlong),
    ...['N', 'E', 'S', 'W'].map((letter, i) => {
      const [x, y] = onBearing(90 * i, LETTERS);
      return label(x, y + 4, letter, { anchor: 'middle', size: TEXT.name });
    }),
    isMeasured ? nameInside(drawing) : unmeasuredWords(),
    scaleBarAt(EDGE, bottom + 10, scale, drawing.unit, 90),
  ];
  const key = legendAt(keyOf(drawing), bottom + 20);
  const said = linesAt(drawing.lines, key.bottom + 4);
  const height = Math.ceil(said.bottom + 10);
  return {
    svg: picture({ width: WIDTH, height, title: drawing.title, description: drawing.description }, [
      ...parts,
      ...key.marks,
      ...said.marks,
    ]),
    area: { x: 0, y: 0, width: WIDTH, height },
    drawn: [TOP - 4, Math.ceil(bottom + 16)],
  };
}

/** Only what the picture has. */
function keyOf({
  worst,
  best,
  isMeasured,
  isBarkMeasured,
  mouth,
  thinnest,
  weakestAlong,
  views,
}: SectionDrawing): readonly LegendItem[] {
  const triangle =
    (look: string) =>
    (x: number, y: number): string =>
      `<path class="${look}" stroke-width="1" d="M${n(x + 3)} ${n(y)}h10l-5 10Z"/>`;
  return [
    ...(isMeasured
      ? [
          {
            sample: boxSample('class="wood"', 'class="ink" stroke-width="2"'),
            words: best ? 'sound wood, at the worst reading' : 'sound wood',
          },
          ...(best
            ? [
                {
                  sample: boxSample(hatched('doubt'), 'class="void" stroke-width="1"'),
                  words: 'doubtful: sound only at the best reading',
                },
              ]
            : []),
          ...(worst.voids.length > 0
            ? [
                {
                  sample: boxSample('class="void" stroke-width="1" stroke-dasharray="3 3"'),
                  words: 'no sound wood',
                },
              ]
            : []),
        ]
      : [
          {
            sample: boxSample(hatched('unmeasured'), 'class="void" stroke-width="1" stroke-dasharray="5 3"'),
            words: 'not measured: may be sound or hollow',
          },
        ]),
    ...(worst.bark
      ? [
          {
            sample: boxSample('class="bark"'),
            words: isBarkMeasured ? 'bark' : 'bark, at its thickest: not measured',
          },
        ]
      : []),
    ...(mouth === undefined
      ? []
      : [{ sample: lineSample('class="mark" stroke-width="3"'), words: 'opening' }]),
    ...(thinnest
      ? [
          {
            sample: triangle('solid'),
            words: thinnest.best === undefined ? 'thinnest wall' : 'thinnest wall, worst',
          },
        ]
      : []),
    ...(thinnest?.best === undefined ? [] : [{ sample: triangle('void'), words: 'thinnest wall, best' }]),
    ...(weakestAlong === undefined
      ? []
      : [
          {
            sample: lineSample('class="ink" stroke-width="1.5" stroke-dasharray="6 3"'),
            words: 'weakest when bent along this line',
          },
        ]),
    ...(views
      ? [
          { sample: lineSample('class="ink" stroke-width="4"'), words: 'side in photographs' },
          ...(views.perhaps.length > 0
            ? [
                {
                  sample: lineSample('class="ink" stroke-width="2" stroke-dasharray="2 4"'),
                  words: 'perhaps',
                },
              ]
            : []),
        ]
      : []),
  ];
}

/** Inside the void; what is read stands in the key. */
function nameInside({ name, facing }: SectionDrawing): string {
  const [x, y] = onBearing(facing ?? 0, RADIUS * 0.5);
  return label(x, y + 4, name, { anchor: 'middle', size: TEXT.name, apart: true });
}

const unmeasuredWords = (): string =>
  label(CENTRE.x, CENTRE.y + 4, 'not measured', { anchor: 'middle', size: TEXT.title, apart: true });

/** The gap in the bark. */
const mouthAt = (facing: number, half: number): string =>
  `<path class="mark" stroke-width="3" d="${arcPath({ from: facing - half, to: facing + half }, RADIUS + 3)}"/>`;

/** A triangle outside the bark that points at the wall. */
function pointer(bearing: number, look: string): string {
  const tip = onBearing(bearing, RADIUS + 7);
  const [left, right] = [-4.5, 4.5].map(aside => onBearing(bearing + aside, RADIUS + 18));
  return `<path class="${look}" stroke-width="1" d="${pathOf([tip, left!, right!])}"/>`;
}

/** A double arrow through the pith: the section is equally weak in both directions. */
function weakestAxis(bearing: number): string {
  const [one, other] = [bearing, bearing + 180].map(b => onBearing(b, RADIUS - 10));
  const heads = [bearing, bearing + 180].map(b => {
    const tip = onBearing(b, RADIUS - 4);
    const [left, right] = [-4, 4].map(aside => onBearing(b + aside, RADIUS - 16));
    return `<path class="solid" d="${pathOf([tip, left!, right!])}"/>`;
  });
  return `<path class="ink" stroke-width="1.5" stroke-dasharray="6 3" d="M${n(one![0])} ${n(one![1])}L${n(other![0])} ${n(other![1])}"/>${heads.join('')}`;
}
