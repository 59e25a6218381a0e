/** Drawings of a tree's facts: the section at a defect, and the tree in elevation. */

import { compassPoint } from '../../../grammar/bearing.ts';
import type { Span } from '../../../grammar/text.ts';
import { wallOn } from '../../assess/decay-time.ts';
import { defectName } from '../../assess/evidence.ts';
import { type Hollow, isUnread } from '../../assess/hollows.ts';
import type { PhotoViews } from '../../assess/photo-views.ts';
import { lengthDown, lengthLike } from '../../assess/prescriptions.ts';
import { isRing, weakestBearing } from '../../assess/section-words.ts';
import { type DefectStrength, lossAt, type Strength } from '../../assess/strength.ts';
import type { ReadTrace } from '../../assess/traces.ts';
import { lossText, NOT_KNOWN } from '../../base/figures.ts';
import { plainNumber, showQuantity, unitOf } from '../../base/quantity.ts';
import { capital } from '../../base/words.ts';
import type { Defect, Tree } from '../../facts/types.ts';
import { sectionOutlines } from '../../mechanics/outlines.ts';
import { type SectionFigures, sectionFigures } from '../../mechanics/section.ts';
import { type History, rateText } from '../history.ts';
import { readRanges } from '../in-region.ts';
import { longDate } from '../long-date.ts';
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

export interface Place extends Area {
  readonly name: string;
  /** Of the record, from the start of its block. */
  readonly at: Span;
}

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
export function historyPicture({ tree, today, region, events, courses, growth, sizes }: History): Picture {
  const title = `Tree ${tree.tag.value} over the years`;
  const walls = courses.map(course => {
    const { defect, wall, read, readings, limit, limitDays } = course;
    const like = defect.diameter?.value;
    const from = Number.isFinite(limitDays.low)
      ? `may be down to its limit from ${longDate(limitDays.low, region)}`
      : 'no day of its limit foreseen';
    const least = `${lengthDown(wall.low, like) ?? '0'} at the least`;
    return {
      words: `wall of ${defectName(defect)} ${least} on ${longDate(read, region)}, ${from}`,
      plot: {
        name: `wall of ${defectName(defect)}: ${least}`,
        note: from,
        unit: like?.unit ?? unitOf('m')!,
        readings: readings.map(({ day, wall: value }) => ({ day, value })),
        ahead: { from: read, on: (day: number) => wallOn(course, day) },
        limit: { value: limit.high, text: `limit ${lengthLike(limit.high, like)}` },
        fromZero: true,
      },
    };
  });
  const grown = sizes.map(({ size, records }) => {
    const rate = growth.find(one => one.size === size);
    const [first, last] = [records[0]!, records.at(-1)!];
    const note = rate ? readRanges(rateText(rate)) : 'no rate follows from these readings';
    return {
      words: `${size} ${first.words} on ${longDate(first.day, region)}, ${last.words} on ${longDate(last.day, region)}: ${note}`,
      plot: {
        name: `${size}: ${first.words}, then ${last.words}`,
        note,
        unit: last.like.unit ?? unitOf('m')!,
        readings: records.map(({ day, value }) => ({ day, value })),
        fromZero: false,
      },
    };
  });
  const ends = courses.map(({ limitDays }) => limitDays.low).filter(Number.isFinite);
  const { svg, description } = drawTimeline({
    title,
    today,
    region,
    events,
    plots: [...walls, ...grown].map(({ plot }) => plot),
    until: Math.max(Number.NEGATIVE_INFINITY, ...ends),
    words: [...walls, ...grown].map(({ words }) => words),
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
