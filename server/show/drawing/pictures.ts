/** Drawings of a tree's facts: the section at a defect, and the tree in elevation. */

import { compassPoint } from '../../../grammar/bearing.ts';
import type { Span } from '../../../grammar/text.ts';
import { isTrench } from '../../assess/anchorage-left.ts';
import { wallOn } from '../../assess/decay-time.ts';
import { isDead } from '../../assess/doses.ts';
import { openDefects } from '../../assess/evidence.ts';
import { type Hollow, isUnread } from '../../assess/hollows.ts';
import { crownOf } from '../../assess/load.ts';
import type { PhotoViews } from '../../assess/photo-views.ts';
import { lengthDown, lengthLike, openWork } from '../../assess/prescriptions.ts';
import { isRing, weakestBearing } from '../../assess/section-words.ts';
import { sightedViews } from '../../assess/sightlines.ts';
import { type DefectStrength, lossAt, type Strength } from '../../assess/strength.ts';
import { supportName, supportsInPlace } from '../../assess/supports.ts';
import type { ReadTrace } from '../../assess/traces.ts';
import { middle } from '../../base/interval.ts';
import { plainNumber, showQuantity } from '../../base/quantity.ts';
import { capital } from '../../base/words.ts';
import { valuesOf } from '../../facts/interval.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Defect, Prescription, Tree } from '../../facts/types.ts';
import { sectionOutlines } from '../../mechanics/outlines.ts';
import { tangent } from '../../mechanics/own-weight.ts';
import { type SectionFigures, sectionFigures } from '../../mechanics/section.ts';
import { equivalentDiameter } from '../../mechanics/stem.ts';
import { lossText, NOT_KNOWN } from '../figures.ts';
import { type History, rateText } from '../history.ts';
import { type CrownShape, drawElevation, ELEVATION_DRAWN } from './elevation.ts';
import { drawSection } from './section.ts';
import { simplifyOutlines } from './simplify.ts';
import type { Area, Drawn } from './svg.ts';
import { drawTimeline } from './timeline.ts';
import { drawTrace, TRACE_DRAWN } from './trace.ts';

export interface Picture {
  readonly svg: string;
  readonly description: string;
}

export interface PlacedPicture extends Picture {
  /** Records of the tree and where they are drawn; smaller areas after larger ones. */
  readonly places: readonly Place[];
  readonly drawn: Drawn;
}

interface Place extends Area {
  readonly name: string;
  /** Of the record, from the start of its block. */
  readonly at: Span;
}

const defectName = ({ kind, id }: Defect): string => `${kind.value} ${id.value}`;

/** Shares of sound wood closer than this leave no doubt to draw. */
const NO_DOUBT = 0.003;

/** The section at its worst and best, with the sides that photographs show; undefined if the readings leave no wood. */
export function sectionPicture(
  tree: Tree,
  defect: DefectStrength,
  strength: Strength,
  views?: PhotoViews,
): PlacedPicture | undefined {
  const { hollow, figures } = defect;
  const { diameter, across, facing, bark } = hollow.defect;
  const name = hollow.defect.id.value;
  try {
    const isMeasured = !isUnread(hollow);
    const [worst, best] = [figures.worst, figures.best].map(sectionFigures) as [
      SectionFigures,
      SectionFigures,
    ];
    const isDoubtful = isMeasured && best.soundShare - worst.soundShare > NO_DOUBT;
    const axis = isMeasured ? weakestBearing(defect) : undefined;
    const loss = lossText(lossAt(defect, strength));
    const title = `Tree ${tree.tag.value}, ${defectName(hollow.defect)}`;
    const lines = [
      `diameter ${showQuantity(diameter!.value)}${across ? ` × ${showQuantity(across.value)}` : ''}, over bark`,
      ...(isMeasured ? wallLines(hollow, worst, best) : []),
      ...openingLines(hollow.defect),
      isMeasured && loss !== NOT_KNOWN
        ? `strength loss ${loss}`
        : 'strength loss not known until more is measured',
    ];
    const mouth = hollow.cavity.opening;
    const isTurned = !isRing(hollow);
    const parts = isMeasured
      ? `${isDoubtful ? 'Sound, doubtful and no sound wood' : 'Sound and no sound wood'} as the readings allow`
      : 'Not measured';
    const drawn = drawSection({
      title,
      worst: simplifyOutlines(
        sectionOutlines(isMeasured ? figures.worst : { outer: figures.worst.outer, cavities: [] }),
      ),
      ...(isDoubtful ? { best: simplifyOutlines(sectionOutlines(figures.best)) } : {}),
      isMeasured,
      isBarkMeasured: bark !== undefined,
      name,
      ...(facing === undefined ? {} : { facing }),
      ...(mouth && Number.isFinite(mouth.high)
        ? { mouth: (Math.asin(Math.min(1, mouth.high / hollow.wood.low)) * 180) / Math.PI }
        : {}),
      unit: hollow.unit,
      ...(isMeasured && isTurned && worst.thinnestWall
        ? {
            thinnest: {
              worst: worst.thinnestWall.bearing,
              ...(isDoubtful && best.thinnestWall ? { best: best.thinnestWall.bearing } : {}),
            },
          }
        : {}),
      ...(axis === undefined ? {} : { weakestAlong: axis }),
      ...(views?.arcs ? { views: views.arcs } : {}),
      lines,
      description: `Cross section, north up. ${parts}. ${capital(lines.join('; '))}.`,
    });
    return {
      svg: drawn.svg,
      description: `${title}, cross section: ${isMeasured ? '' : 'not measured; '}${lines.join('; ')}`,
      places: [{ ...drawn.area, name: defectName(hollow.defect), at: hollow.defect.at }],
      drawn: drawn.drawn,
    };
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

/** The thinnest wall at both ends of the readings, rounded down. */
function wallLines(hollow: Hollow, worst: SectionFigures, best: SectionFigures): readonly string[] {
  const like = hollow.defect.diameter?.value;
  const words = ({ thinnestWall: wall }: SectionFigures): string | undefined =>
    wall &&
    `${lengthDown(wall.thickness, like) ?? `0 ${hollow.unit.symbol}`}${isRing(hollow) ? '' : ` (${compassPoint(wall.bearing)})`}`;
  const [least, most] = [words(worst), words(best)];
  if (least === undefined) return [];
  const better = most ?? (best.soundShare > 1 - NO_DOUBT ? 'no void' : undefined);
  if (better === undefined) return [`thinnest wall: ${least} at worst`];
  return [`thinnest wall: ${least === better ? least : `${least} at worst, ${better} at best`}`];
}

function openingLines({ opening, facing }: Defect): readonly string[] {
  if (!opening) return [];
  if (opening.closed) return ['no opening'];
  const side = facing === undefined ? '' : `, facing ${compassPoint(facing)}`;
  const { width, tall } = opening;
  if (!width) return [`opening not measured${side}`];
  return [
    `opening ${showQuantity(width.value)} wide${tall ? `, ${showQuantity(tall.value)} tall` : ''}${side}`,
  ];
}

/** The life of a tree by kind and year, and the walls of its hollows until they may be down to their limit. */
export function historyPicture({ tree, today, events, courses, growth }: History): Picture {
  const title = `Tree ${tree.tag.value} over the years`;
  const { svg, description } = drawTimeline({
    title,
    today,
    events,
    walls: courses.map(course => {
      const { defect, wall, read, readings, limit, limitDays } = course;
      return {
        name: defectName(defect),
        wall,
        read,
        readings,
        limit,
        limitDays,
        on: day => wallOn(course, day),
        lengthText: metres => lengthLike(metres, defect.diameter?.value),
      };
    }),
    lines: growth.map(one => `${one.size}: ${rateText(one)}`),
  });
  return { svg, description: `${title}: ${description}` };
}

/** Amplitude over depth of a drill trace, with its wall and its decay. */
export function tracePicture(tree: Tree, one: ReadTrace): PlacedPicture {
  const { drilling, trace, defect, reading, points, threshold, isThresholdStated } = one;
  const like = drilling.walls[0]?.thickness.value ?? defect?.diameter?.value;
  const lengthText = (metres: number) => lengthLike(metres, like);
  const title = `Tree ${tree.tag.value}, ${drilling.defect.value} drilled at ${compassPoint(trace.bearing)}`;
  const { low, high } = reading.wall;
  const wallText = `sound wall ${lengthText(low)} ${Number.isFinite(high) ? `to ${lengthText(high)}` : 'at the least'}`;
  const share = plainNumber(threshold * 100, 1);
  const thresholdText = `${share} % of the sound wood${isThresholdStated ? '' : ' (judged)'}`;
  const { svg, area } = drawTrace({ title, points, reading, lengthText, thresholdText, wallText });
  const place: Place = { ...area, name: trace.path, at: trace };
  return { svg, description: `${title}: ${wallText}`, places: [place], drawn: TRACE_DRAWN };
}

/** The tree before and after the first open prescription; undefined if no crown is recorded. */
export function elevationPicture(tree: Tree, settings: Settings): PlacedPicture | undefined {
  const crown = crownOf(tree, settings);
  if (!crown) return undefined;
  const before: CrownShape = {
    base: middle(crown.base),
    top: middle(crown.top),
    spread: middle(crown.spread),
  };
  const prescription = openWork(tree).find(({ height, spread, base }) => height ?? spread ?? base);
  const title = tree.name ? `Tree ${tree.tag.value}, ${tree.name.value}` : `Tree ${tree.tag.value}`;
  const dead = isDead(tree);
  const shaded = dead ? 'shaded: dead crown' : 'shaded: crown';
  const caption = prescription
    ? `${dead ? shaded : `${shaded} now`}; broken line: after ${prescription.kind.value} ${prescription.id.value}`
    : shaded;
  const marked = tree.defects.flatMap(defect => {
    const { height, closed } = defect;
    if (!height || closed || isTrench(defect)) return [];
    const at = middle(valuesOf(height.value, settings));
    return Number.isFinite(at) ? [{ defect, at }] : [];
  });
  const dug = trenchesOf(tree, settings);
  const lean = leanOf(tree, before, settings);
  const held = supportsInPlace(tree).flatMap(support => {
    const at = support.fixed && middle(valuesOf(support.fixed.value, settings));
    return at !== undefined && Number.isFinite(at) ? [{ support, at }] : [];
  });
  const views = sightedViews(tree, settings);
  const { svg, areas } = drawElevation({
    title,
    crown: before,
    isDead: dead,
    ...(lean ? { lean } : {}),
    trenches: dug.map(({ defect, away, depth }) => ({
      name: defect.id.value,
      away,
      text: `${showQuantity(defect.distance!.value)} from the bark`,
      ...(depth === undefined ? {} : { depth }),
    })),
    ...(prescription ? { after: shapeAfter(before, prescription, settings) } : {}),
    stemDiameter: stemDiameter(tree, settings),
    defects: marked.map(({ defect: { id, facing }, at }) => ({
      name: id.value,
      height: at,
      ...(facing === undefined ? {} : { facing }),
    })),
    supports: held.map(({ support: { id, kind }, at }) => ({
      name: id.value,
      height: at,
      isGrounded: kind.value === 'prop' || kind.value === 'guy',
    })),
    views: views.map(({ view, lines }) => ({
      name: view.name.value,
      eye: middle(lines.eye),
      away: middle(lines.distance),
      bottom: lines.bottom.low,
      top: lines.top.high,
      beyond: middle(lines.beyond),
    })),
    heightText: metres => lengthLike(metres, tree.height!.value),
    caption,
  });
  const places: readonly Place[] = [
    { ...areas.crown, name: 'crown', at: tree.crownSpread ?? tree.at },
    { ...areas.title, name: `tree ${tree.tag.value}`, at: tree.at },
    ...(prescription
      ? [
          {
            ...areas.caption,
            name: `${prescription.kind.value} ${prescription.id.value}`,
            at: prescription.at,
          },
        ]
      : []),
    ...views.map(({ view }, i) => ({ ...areas.views[i]!, name: `view ${view.name.value}`, at: view.at })),
    ...held.map(({ support }, i) => ({
      ...areas.supports[i]!,
      name: supportName(support),
      at: support.at,
    })),
    ...dug.map(({ defect }, i) => ({ ...areas.trenches[i]!, name: defectName(defect), at: defect.at })),
    ...marked.map(({ defect }, i) => ({ ...areas.defects[i]!, name: defectName(defect), at: defect.at })),
  ];
  return {
    svg,
    description: `${title}, ${showQuantity(tree.height!.value)} high`,
    places,
    drawn: ELEVATION_DRAWN,
  };
}

/** Steeper than this the picture would be all lean. */
const STEEPEST = 60;

/** By the middle of the crown where it was measured, else straight. */
function leanOf(
  { lean }: Tree,
  { base, top }: CrownShape,
  settings: Settings,
): { readonly slope: number; readonly text: string } | undefined {
  if (!lean) return undefined;
  const angle = middle(valuesOf(lean.angle.value, settings));
  const aside = lean.crownAside && middle(valuesOf(lean.crownAside.value, settings));
  const slope = aside === undefined ? tangent(Math.min(angle, STEEPEST)) : aside / ((base + top) / 2);
  if (!(slope >= 0 && slope <= tangent(STEEPEST))) return undefined;
  const toward = lean.toward === undefined ? '' : ` toward ${compassPoint(lean.toward)}`;
  return { slope, text: `leans ${showQuantity(lean.angle.value)}${toward}` };
}

interface DrawnTrench {
  readonly defect: Defect;
  /** From the middle of the stem; to the left below zero. */
  readonly away: number;
  readonly depth: number | undefined;
}

/** To the right on the side that the tree leans to, else on the east side. */
function trenchesOf(tree: Tree, settings: Settings): readonly DrawnTrench[] {
  const right = tree.lean?.toward ?? 90;
  const radius = stemDiameter(tree, settings) / 2;
  return openDefects(tree).flatMap(defect => {
    if (!isTrench(defect) || !defect.distance) return [];
    const distance = middle(valuesOf(defect.distance.value, settings));
    if (!Number.isFinite(distance)) return [];
    const depth = defect.depth && middle(valuesOf(defect.depth.value, settings));
    const across = defect.toward === undefined ? 0 : Math.cos(((defect.toward - right) * Math.PI) / 180);
    const side = across < -0.01 ? -1 : 1;
    return [{ defect, away: side * (radius + distance), depth: Number.isFinite(depth) ? depth : undefined }];
  });
}

function shapeAfter(
  before: CrownShape,
  { height, spread, base }: Prescription,
  settings: Settings,
): CrownShape {
  const to = (change: Prescription['height'], was: number) => {
    const value = change ? middle(valuesOf(change.to.value, settings)) : was;
    return Number.isFinite(value) ? value : was;
  };
  return {
    base: to(base, before.base),
    top: to(height, before.top),
    spread: to(spread, before.spread),
  };
}

function stemDiameter({ diameters }: Tree, settings: Settings): number {
  if (diameters.length === 0) return 0;
  const value = middle(equivalentDiameter(diameters.map(({ value }) => valuesOf(value, settings))));
  return Number.isFinite(value) ? value : 0;
}
