/** What the elevation of a tree shows: its facts in the words and meters of the drawing. */

import { compassPoint } from '../../../grammar/bearing.ts';
import type { Span } from '../../../grammar/text.ts';
import { isTrench } from '../../assess/anchorage-left.ts';
import { defectName, openDefects } from '../../assess/evidence.ts';
import { fellsTree, jobName, lengthLike, openWork } from '../../assess/prescriptions.ts';
import { sightedViews } from '../../assess/sightlines.ts';
import { supportName, supportsInPlace } from '../../assess/supports.ts';
import { middle } from '../../base/interval.ts';
import { type Quantity, showQuantity, type Unit, unitOf } from '../../base/quantity.ts';
import { listed } from '../../base/words.ts';
import { valuesOf } from '../../facts/interval.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Defect, Placed, Prescription, StemOrLimb, Tree } from '../../facts/types.ts';
import { equivalentDiameter } from '../../mechanics/stem.ts';
import { longDate } from '../long-date.ts';
import { drawElevation, type ElevationDrawing } from './elevation.ts';
import type { Place, PlacedPicture } from './pictures.ts';
import { type Stature, sideward, sizeOf, statureOf } from './stature.ts';

/** The tree as recorded, and what the open work takes from it; undefined where no height is on record. */
export function elevationPicture(tree: Tree, settings: Settings): PlacedPicture | undefined {
  const stature = statureOf(tree, settings);
  if (!stature) return undefined;
  const title = tree.name ? `Tree ${tree.tag.value}, ${tree.name.value}` : `Tree ${tree.tag.value}`;
  const like = tree.height?.value;
  const unit = heightUnit(tree);
  const middleOf = (quantity: Placed<Quantity> | undefined) => sizeOf(quantity, settings)?.value;
  const isFelled = tree.felled !== undefined;
  const open = isFelled ? [] : tree.defects.filter(one => !one.closed && !isTrench(one));
  const marked = open.flatMap(defect => {
    const height = middleOf(defect.height) ?? (AT_THE_GROUND.has(defect.kind.value) ? 0 : undefined);
    return height === undefined ? [] : [{ defect, height }];
  });
  const unplaced = open.filter(defect => marked.every(one => one.defect !== defect));
  const down = isFelled ? undefined : comesDown(tree, stature, settings);
  const held = supportsInPlace(tree).flatMap(support => {
    const height = middleOf(support.fixed);
    return height === undefined ? [] : [{ support, height }];
  });
  const planned = openWork(tree).flatMap(job => {
    const height = isSupport(job.kind.value) ? middleOf(job.fixed) : undefined;
    return height === undefined ? [] : [{ job, height }];
  });
  const limbs = isFelled
    ? []
    : stature.axes.flatMap(({ part, kind }) => (part && kind === 'limb' ? [part] : []));
  const stems = isFelled
    ? []
    : stature.axes.flatMap(({ part, kind }) => (part && kind === 'stem' ? [part] : []));
  const dug = isFelled ? [] : trenchesOf(tree, stature, settings);
  const wires = isFelled ? [] : tree.conductors.filter(({ removed }) => !removed);
  const targets = isFelled ? [] : tree.targets.filter(({ removed }) => !removed);
  const views = isFelled ? [] : sightedViews(tree, settings);
  const { lean } = tree;
  const isMoving = lean?.course === 'increasing' || lean?.course === 'new';
  const leanWords = lean && [
    `leans ${showQuantity(lean.angle.value)}${lean.toward === undefined ? '' : ` toward ${compassPoint(lean.toward)}`}`,
    ...(lean.course ? [isMoving ? `${lean.course}: moving` : lean.course] : []),
  ];
  const side = (bearing: number | undefined) =>
    bearing === undefined ? [] : [`facing ${compassPoint(bearing)}`];
  const drawing: Omit<ElevationDrawing, 'description'> = {
    title,
    stature,
    unit,
    top: {
      lines:
        tree.height && like!.form !== 'unseen' ? [`${showQuantity(like!)} high`] : ['height not measured'],
    },
    lean: !isFelled && leanWords ? { lines: leanWords, isMarked: isMoving } : undefined,
    stems: stems.map(part => ({
      part: part.name.value,
      lines: [`stem ${part.name.value}`, ...(part.height ? [`${showQuantity(part.height.value)} high`] : [])],
    })),
    unions: poorUnions(stems),
    limbs: limbs.map(part => ({
      part: part.name.value,
      lines: [
        `limb ${part.name.value}`,
        [
          part.from && `from ${showQuantity(part.from.value)}`,
          part.length && `${showQuantity(part.length.value)} long`,
        ]
          .filter(Boolean)
          .join(', '),
      ].filter(line => line !== ''),
    })),
    defects: marked.map(({ defect, height }) => ({
      part: defect.part?.value,
      height,
      facing: defect.facing,
      isMarked: defect.state?.value === 'increasing',
      lines: [
        defectName(defect),
        [
          defect.height ? `at ${showQuantity(defect.height.value)}` : 'at the ground',
          ...side(defect.facing),
          ...(defect.state ? [defect.state.value] : []),
        ].join(', '),
      ],
    })),
    supports: [
      ...held.map(({ support, height }) => ({
        height,
        holds: support.holds.map(({ value }) => value),
        isGrounded: isGrounded(support.kind.value),
        isPlanned: false,
        lines: [supportName(support), `at ${showQuantity(support.fixed!.value)}`],
      })),
      ...planned.map(({ job, height }) => ({
        height,
        holds: job.for.map(({ value }) => value),
        isGrounded: isGrounded(job.kind.value),
        isPlanned: true,
        lines: [`${jobName(job)}, planned`, `at ${showQuantity(job.fixed!.value)}`],
      })),
    ],
    wires: wires.map(conductor => ({
      height: middleOf(conductor.height),
      away: middleOf(conductor.distance ?? conductor.aside),
      lines: [
        `line ${conductor.name.value}`,
        conductor.height ? `${showQuantity(conductor.height.value)} up` : 'height not recorded',
        (conductor.distance ?? conductor.aside)
          ? `${showQuantity((conductor.distance ?? conductor.aside)!.value)} from the crown`
          : 'distance not recorded',
      ],
    })),
    targets: targets.map(({ name, kind, distance, toward }) => ({
      kind: kind?.value,
      distance: middleOf(distance),
      toward,
      lines: [
        name.value,
        `${distance ? showQuantity(distance.value) : 'distance not recorded'}${toward === undefined ? '' : ` ${compassPoint(toward)}`}`,
      ],
    })),
    trenches: dug.map(({ defect, away, depth }) => ({
      away,
      depth,
      lines: [defectName(defect), `${showQuantity(defect.distance!.value)} from the bark`],
    })),
    views: views.map(({ view, lines }) => ({
      lines: [`view ${view.name.value}`],
      eye: middle(lines.eye),
      away: middle(lines.distance),
      bottom: lines.bottom.low,
      top: lines.top.high,
      beyond: middle(lines.beyond),
    })),
    down,
    isFelled,
    lines: [
      stature.hasBearings ? `Seen from the ${pointWords(stature.right + 90)}.` : 'No direction is on record.',
      ...(isFelled ? [`Felled ${longDate(tree.felled!.value, settings.region)}.`] : []),
      ...(!isFelled && stature.missing.length > 0 ? [`Not measured: ${listed(stature.missing)}.`] : []),
      ...(unplaced.length > 0 ? [`Height not recorded: ${listed(unplaced.map(defectName))}.`] : []),
      ...(targets.some(({ toward, distance }) => distance && toward === undefined)
        ? ['Targets without a direction are drawn on the right.']
        : []),
    ],
  };
  const description = describeElevation(drawing);
  const { svg, areas, drawn } = drawElevation({ ...drawing, description });
  const places: readonly Place[] = [
    { ...areas.crown, name: 'crown', at: tree.crownSpread ?? tree.at },
    { ...areas.title, name: `tree ${tree.tag.value}`, at: tree.at },
    ...(down ? [{ ...areas.key, name: down.words, at: down.at }] : []),
    ...views.map(({ view }, i) => ({ ...areas.views[i]!, name: `view ${view.name.value}`, at: view.at })),
    ...wires.map((one, i) => ({ ...areas.wires[i]!, name: `line ${one.name.value}`, at: one.at })),
    ...targets.map((one, i) => ({ ...areas.targets[i]!, name: `target ${one.name.value}`, at: one.at })),
    ...limbs.map((one, i) => ({ ...areas.limbs[i]!, name: `limb ${one.name.value}`, at: one.at })),
    ...held.map(({ support }, i) => ({ ...areas.supports[i]!, name: supportName(support), at: support.at })),
    ...planned.map(({ job }, i) => ({ ...areas.supports[held.length + i]!, name: jobName(job), at: job.at })),
    ...dug.map(({ defect }, i) => ({ ...areas.trenches[i]!, name: defectName(defect), at: defect.at })),
    ...marked.map(({ defect }, i) => ({ ...areas.defects[i]!, name: defectName(defect), at: defect.at })),
  ];
  return { svg, description: `${title}: ${description}`, places, drawn };
}

/** Unions that are not sound, each pair of stems once. */
function poorUnions(stems: readonly StemOrLimb[]): ElevationDrawing['unions'] {
  const told = new Set<string>();
  return stems.flatMap(({ name, union, unionWith }) => {
    if (!union || union.value === 'sound') return [];
    const words = union.value === 'unseen' ? 'not seen' : union.value;
    const pair = [name.value, ...(unionWith ? [unionWith.value] : [])].sort().join(', ');
    if (told.has(`${pair} ${words}`)) return [];
    told.add(`${pair} ${words}`);
    return [{ part: name.value, lines: [`union of ${pair}`, words] }];
  });
}

/** In which heights are written; feet beside inches. */
function heightUnit({ height, crownSpread, defects, parts, diameters }: Tree): Unit {
  const written = [height, crownSpread, ...defects.map(one => one.height), ...parts.map(({ from }) => from)];
  const own = written.flatMap(one => one?.value.unit ?? [])[0] ?? diameters[0]?.value.unit;
  return unitOf(own && own.symbol !== 'ft' && own.symbol !== 'in' ? 'm' : 'ft')!;
}

/** What is meant to be read of the drawing, in words. */
function describeElevation(drawing: Omit<ElevationDrawing, 'description'>): string {
  const { stature, top, lean, defects, supports, wires, trenches, targets, down, lines, isFelled } = drawing;
  const words = (intro: string, all: readonly { readonly lines: readonly string[] }[]) =>
    all.length === 0 ? [] : [`${intro}: ${all.map(one => one.lines.join(' ')).join('; ')}.`];
  const head = [
    isFelled ? 'elevation of a stump' : `elevation, ${top.lines.join(' ')}`,
    ...(stature.isDead ? ['dead'] : []),
    ...(lean ? [lean.lines.join(', ')] : []),
  ].join(', ');
  return [
    `${head}.`,
    ...words('Stems', drawing.stems),
    ...words('Unions', drawing.unions),
    ...words('Limbs', drawing.limbs),
    ...words('Defects', defects),
    ...words('Trenches', trenches),
    ...words('Held by', supports),
    ...words('Power lines', wires),
    ...words('Targets', targets),
    ...(down ? [`Hatched: what comes down by ${down.words}.`] : []),
    ...lines,
  ].join(' ');
}

/** Kinds of defects that need no height: they are at the root collar. */
const AT_THE_GROUND: ReadonlySet<Defect['kind']['value']> = new Set([
  'root decay',
  'root loss',
  'girdling root',
]);

const isSupport = (kind: Prescription['kind']['value']): boolean =>
  kind === 'cable' || kind === 'brace' || kind === 'prop' || kind === 'guy';
const isGrounded = (kind: Prescription['kind']['value']): boolean => kind === 'prop' || kind === 'guy';

/** What the open work takes away; of alternatives the first. */
function comesDown(
  tree: Tree,
  { crown }: Stature,
  settings: Settings,
): (NonNullable<ElevationDrawing['down']> & { readonly at: Span }) | undefined {
  const jobs: Prescription[] = [];
  for (const job of openWork(tree))
    if (takesWood(job) && jobs.every(one => !areAlternatives(one, job))) jobs.push(job);
  const [first] = jobs;
  if (!first) return undefined;
  const words = listed(jobs.map(jobName));
  const parts = jobs.flatMap(({ remove }) => remove.map(({ value }) => value));
  const sizes = (of: (job: Prescription) => Prescription['height']) =>
    jobs.flatMap(job => sizeOf(of(job)?.to, settings)?.value ?? []);
  const monolith = jobs.find(({ kind }) => kind.value === 'monolith');
  const [tops, spreads, bases] = [
    sizes(({ height }) => height),
    sizes(({ spread }) => spread),
    sizes(({ base }) => base),
  ];
  const shortened = new Map(
    jobs.flatMap(job =>
      job.shortened.flatMap(({ part, from, to }): [string, number][] => {
        const [before, after] = [sizeOf(from, settings)?.value, sizeOf(to, settings)?.value];
        return before && after !== undefined && after < before ? [[part.value, after / before]] : [];
      }),
    ),
  );
  const changes = !monolith && crown && tops.length + spreads.length + bases.length > 0;
  const after = changes && {
    base: Math.max(crown.base, ...bases),
    top: Math.min(crown.top, ...tops),
    spread: Math.min(crown.spread, ...spreads),
  };
  const like = tree.height?.value;
  return {
    words,
    at: first.at,
    isWhole: jobs.some(fellsTree),
    above: monolith ? Math.min(...tops, crown?.base ?? Number.POSITIVE_INFINITY) : undefined,
    parts,
    shortened,
    after: after
      ? {
          ...after,
          lines: [
            after.top < crown.top
              ? `after: ${lengthLike(after.top, like)} high`
              : after.spread < crown.spread
                ? `after: ${lengthLike(after.spread, like)} wide`
                : `after: crown from ${lengthLike(after.base, like)}`,
          ],
        }
      : undefined,
  };
}

const takesWood = (job: Prescription): boolean =>
  fellsTree(job) ||
  job.kind.value === 'monolith' ||
  job.remove.length + job.shortened.length > 0 ||
  [job.height, job.spread, job.base].some(size => size !== undefined);

const areAlternatives = (one: Prescription, other: Prescription): boolean =>
  one.alternatives.some(({ value }) => value === other.id.value) ||
  other.alternatives.some(({ value }) => value === one.id.value);

interface DrawnTrench {
  readonly defect: Defect;
  /** From the middle of the stem; to the left below zero. */
  readonly away: number;
  readonly depth: number | undefined;
}

/** Each on its side of the stem. */
function trenchesOf(tree: Tree, { right }: Stature, settings: Settings): readonly DrawnTrench[] {
  const radius = stemDiameter(tree, settings) / 2;
  return openDefects(tree).flatMap(defect => {
    const distance = isTrench(defect) ? sizeOf(defect.distance, settings) : undefined;
    if (!distance) return [];
    const depth = sizeOf(defect.depth, settings)?.value;
    const side = defect.toward !== undefined && sideward(defect.toward, right) < -0.01 ? -1 : 1;
    return [{ defect, away: side * (radius + distance.value), depth }];
  });
}

function stemDiameter({ diameters }: Tree, settings: Settings): number {
  if (diameters.length === 0) return 0;
  const value = middle(equivalentDiameter(diameters.map(({ value }) => valuesOf(value, settings))));
  return Number.isFinite(value) ? value : 0;
}

const POINTS: Readonly<Record<string, string>> = { N: 'north', E: 'east', S: 'south', W: 'west' };

/** `south`, `northeast`, `south-southwest`. */
function pointWords(bearing: number): string {
  const [first, ...others] = [...compassPoint(bearing)].map(letter => POINTS[letter]!);
  return others.length < 2 ? [first, ...others].join('') : `${first}-${others.join('')}`;
}
