/** A size measured in a photograph, with all that makes it uncertain in words. */

import { type Interval, interval } from '../base/interval.ts';
import { inUnit, plainNumber, type Quantity, showQuantity, type Unit, unitOf } from '../base/quantity.ts';
import { UserError } from '../base/user-error.ts';
import { valuesOf } from '../facts/interval.ts';
import type { PhotoRecord } from '../facts/photos.ts';
import type { Settings } from '../facts/settings.ts';
import {
  lengthAt,
  lengthBeside,
  type PictureSize,
  type PointPair,
  type Sighting,
} from '../mechanics/measure.ts';
import { asShown } from '../mechanics/picture-size.ts';
import {
  BESIDE_ERROR,
  DISTANCE_ERROR,
  LENS_ERROR,
  LENS_ROUNDING,
  POINT_ERROR,
  USUAL_LENSES,
  USUAL_OBLIQUENESS,
} from '../practice/photographs.ts';

/** What the file of a photograph says of its camera and its size. */
export interface MeasuredPicture {
  readonly record: PhotoRecord | undefined;
  /** As its pixels are stored; undefined where the file did not tell. */
  readonly stored: PictureSize | undefined;
}

export interface Measuring {
  /** Pixels from the left and the top of the picture as it is shown upright. */
  readonly points: PointPair;
  readonly distance?: Quantity;
  readonly known?: { readonly length: Quantity; readonly points: PointPair };
  /** Equivalent focal length, in place of that of the file. */
  readonly lens?: Quantity;
  /** Degrees. */
  readonly oblique?: Quantity;
  /** Height of the thing above the camera, which looks up at it, m. */
  readonly above?: Interval;
}

export interface Measured {
  readonly length: Interval;
  /** In the notation: `9.1..11.8 in`. */
  readonly written: string;
  /** What it rests on, a line each. */
  readonly grounds: readonly string[];
  /** What may make it wrong. */
  readonly doubts: readonly string[];
}

const RADIANS = Math.PI / 180;
/** Shapes of one picture that differ by more than its rounding. */
const SAME_SHAPE = 0.01;

/** The picture as it is shown. @throws UserError if nothing tells its size. */
function shownSize({ record, stored }: MeasuredPicture): PictureSize {
  const { imageWidth: width, imageHeight: height, orientation } = record ?? {};
  const size = stored ?? (width !== undefined && height !== undefined ? { width, height } : undefined);
  if (!size)
    throw new UserError('its file does not state its width and height in pixels: save it as JPEG or PNG.');
  return asShown(size, orientation);
}

/** @throws UserError if it can't be measured, with what is missing. */
export function measureInPicture(picture: MeasuredPicture, wanted: Measuring, settings: Settings): Measured {
  const { points, distance, known } = wanted;
  if (!distance === !known)
    throw new UserError(
      distance
        ? 'state either the distance or a known length, not both.'
        : 'the size needs the distance to the subject, or a known length beside it in the picture.',
    );
  const size = shownSize(picture);
  const doubts: string[] = [];
  const lens = lensOf(picture, wanted, settings, doubts);
  const { obliqueness, said } = turnOf(wanted, settings);
  const pointError = Math.max(POINT_ERROR.pixels, POINT_ERROR.share * Math.max(size.width, size.height));
  const sighting: Sighting = {
    size,
    focalLength35: lens.focalLength35,
    points,
    pointError,
    obliqueness: obliqueness * RADIANS,
  };
  const [one, other] = points;
  const grounds = [
    `between the pixels ${one.x}, ${one.y} and ${other.x}, ${other.y} of ${size.width} by ${size.height}, each within ${plainNumber(pointError, 1)} px`,
    lens.said,
  ];
  try {
    const length = distance
      ? lengthAt(distanceOf(distance, settings, grounds), sighting)
      : lengthBeside({ ...knownOf(known!, settings, grounds), apart: BESIDE_ERROR }, sighting);
    grounds.push(said);
    return { length, written: writtenLength(length, (distance ?? known?.length)?.unit), grounds, doubts };
  } catch (error) {
    if (error instanceof RangeError) throw new UserError(`it cannot be measured: ${error.message}.`);
    throw error;
  }
}

interface Lens {
  readonly focalLength35: Interval;
  readonly said: string;
}

const millimetres = ({ low, high }: Interval): string => {
  const [least, most] = [low, high].map(value => inUnit(value, unitOf('mm')!, 0));
  return least === most ? least! : `${least!.split(' ')[0]}..${most}`;
};

function lensOf(
  { record, stored }: MeasuredPicture,
  { lens, known }: Measuring,
  settings: Settings,
  doubts: string[],
): Lens {
  const within = (read: Interval, from: string): Lens => ({
    focalLength35: interval(
      (read.low - LENS_ROUNDING) * (1 - LENS_ERROR),
      (read.high + LENS_ROUNDING) * (1 + LENS_ERROR),
    ),
    said: `lens: ${millimetres(read)} as on 35 mm film by the diagonal (${from}), within half a millimeter and ${LENS_ERROR * 100} %`,
  });
  if (lens) {
    const read = valuesOf(lens, settings);
    if (!(read.low > LENS_ROUNDING && read.high < Infinity))
      throw new UserError(`${showQuantity(lens)} is not a focal length: state it as 26 mm.`);
    return within(read, 'as stated');
  }
  const unknown = (why: string): Lens => {
    if (known)
      return {
        focalLength35: USUAL_LENSES,
        said: `lens: unknown, because ${why}; any of ${millimetres(USUAL_LENSES)} as on 35 mm film`,
      };
    throw new UserError(`${why}: state the lens as on 35 mm film (--lens 26mm), or a known length.`);
  };
  const focal = record?.focalLength35;
  if (focal === undefined) return unknown('its file does not state the lens');
  const { imageWidth, imageHeight, digitalZoom = 1 } = record ?? {};
  if (stored && imageWidth !== undefined && imageHeight !== undefined) {
    const [was, is] = [
      `${imageWidth} by ${imageHeight} px when it was taken`,
      `${stored.width} by ${stored.height} now`,
    ];
    const shape = (wide: number, high: number) => Math.max(wide, high) / Math.min(wide, high);
    const change = shape(stored.width, stored.height) / shape(imageWidth, imageHeight);
    if (Math.abs(change - 1) > SAME_SHAPE) return unknown(`it was cropped (${was}, ${is})`);
    if (Math.max(stored.width, stored.height) < Math.max(imageWidth, imageHeight))
      doubts.push(
        `The picture had ${was} and has ${is}. Scaling it down does no harm. If it was cropped to the same shape, the size is wrong.`,
      );
  }
  if (digitalZoom > 1)
    doubts.push(
      `The picture was enlarged ${plainNumber(digitalZoom, 1)} times by the camera, and files differ in whether the lens figure includes that. The size allows for both.`,
    );
  return within(interval(focal, focal * digitalZoom), 'from the file');
}

function distanceOf(distance: Quantity, settings: Settings, grounds: string[]): Interval {
  const read = valuesOf(distance, settings);
  if (distance.form !== 'exact') {
    grounds.push(`distance: ${showQuantity(distance)}`);
    return read;
  }
  grounds.push(`distance: ${showQuantity(distance)}, within ${DISTANCE_ERROR * 100} %`);
  return interval(read.low * (1 - DISTANCE_ERROR), read.high * (1 + DISTANCE_ERROR));
}

function knownOf(
  { length, points }: NonNullable<Measuring['known']>,
  settings: Settings,
  grounds: string[],
): { readonly length: Interval; readonly points: PointPair } {
  const [one, other] = points;
  grounds.push(
    `known: ${showQuantity(length)} between the pixels ${one.x}, ${one.y} and ${other.x}, ${other.y}, as far away as the subject within ${BESIDE_ERROR * 100} %`,
  );
  return { length: valuesOf(length, settings), points };
}

/** Degrees that the thing may be turned: along a stem at least by the angle at which the camera looks up. */
function turnOf(
  { oblique, distance, above }: Measuring,
  settings: Settings,
): { readonly obliqueness: number; readonly said: string } {
  if (oblique) {
    const { high } = valuesOf(oblique, settings);
    if (!(high >= 0 && high < 90))
      throw new UserError(`turned by ${showQuantity(oblique)}: state less than 90 deg.`);
    return {
      obliqueness: high,
      said: `turned by ${plainNumber(high, 1)} deg at most from square to the line of sight, as stated`,
    };
  }
  const away = distance && valuesOf(distance, settings);
  const up = above && away && away.low > 0 ? Math.asin(Math.min(0.999, above.high / away.low)) / RADIANS : 0;
  const obliqueness = Math.ceil(Math.max(USUAL_OBLIQUENESS, up));
  return {
    obliqueness,
    said: `turned by ${obliqueness} deg at most from square to the line of sight (${up > USUAL_OBLIQUENESS ? 'the camera looked up that steeply' : 'assumed; --oblique states another'})`,
  };
}

/** Shorter lengths are written in the small unit. */
const SMALL = 1;

/** An interval of length in the notation, rounded outward, in inches or centimeters if it is short. */
function writtenLength({ low, high }: Interval, like: Unit | undefined): string {
  const isImperial = like === undefined || like.symbol === 'ft' || like.symbol === 'in';
  const short = high < SMALL || (high === Infinity && low < SMALL);
  const unit = unitOf(isImperial ? (short ? 'in' : 'ft') : short ? 'cm' : 'm')!;
  const digits = unit.symbol === 'm' ? 2 : 1;
  const scaled = (value: number, round: (value: number) => number) =>
    plainNumber(round((value / unit.factor) * 10 ** digits) / 10 ** digits, digits);
  const least = scaled(low, Math.floor);
  if (high === Infinity) return `> ${least} ${unit.symbol}`;
  const most = scaled(high, Math.ceil);
  return least === '0' ? `< ${most} ${unit.symbol}` : `${least}..${most} ${unit.symbol}`;
}
