/** Exif metadata of a photograph, parsed from bytes. */

import exifr from 'exifr';

/** A value is absent if the file lacks it or it is implausible. */
export interface PhotoRecord {
  /** Pixels. */
  readonly imageWidth?: number;
  readonly imageHeight?: number;
  /** 35 mm-equivalent focal length, m. */
  readonly focalLength35?: number;
  /** Degrees, north and east positive. */
  readonly latitude?: number;
  readonly longitude?: number;
  /** Metres above sea level. */
  readonly altitude?: number;
  /** Local time of the camera without a time zone: YYYY-MM-DDThh:mm:ss. */
  readonly takenAt?: string;
  /** How far the clock of the camera was set ahead of UTC, minutes. */
  readonly clockOffset?: number;
  /** Time of the satellites, UTC: YYYY-MM-DDThh:mm:ss. */
  readonly satelliteTime?: string;
  /** Radius within which the receiver believed its position to be, m. */
  readonly positionError?: number;
  /** Direction that the camera looked in, degrees from true or magnetic north. */
  readonly facing?: number;
  readonly facingFrom?: 'true north' | 'magnetic north';
  /** Above 1 if the picture was enlarged without the lens. */
  readonly digitalZoom?: number;
  /** 1 to 8, as Exif counts them; from 5 on, width and height are exchanged when it is shown. */
  readonly orientation?: number;
}

/** Tags of Exif 3.0 (CIPA DC-008). Raw values: reviving a date would apply this machine's time zone. */
const OPTIONS = {
  ifd0: {},
  exif: true,
  gps: true,
  interop: false,
  makerNote: false,
  userComment: false,
  xmp: false,
  iptc: false,
  icc: false,
  jfif: false,
  ihdr: false,
  sanitize: true,
  mergeOutput: true,
  translateValues: false,
  reviveValues: false,
} as const;

type ExifTags = Readonly<Record<string, unknown>>;

/** GPSAltitudeRef: 0 above sea level, 1 below; a byte, or a byte in an array. */
const BELOW_SEA_LEVEL = 1;
const METRES_PER_MILLIMETRE = 1e-3;

function numberOf(tags: ExifTags, name: string, least: number, most: number): number | undefined {
  const value = tags[name];
  return typeof value === 'number' && value >= least && value <= most ? value : undefined;
}

const positive = (tags: ExifTags, name: string) => numberOf(tags, name, Number.MIN_VALUE, Number.MAX_VALUE);

function altitudeOf(tags: ExifTags): number | undefined {
  const altitude = positive(tags, 'GPSAltitude') ?? numberOf(tags, 'GPSAltitude', 0, 0);
  const reference = tags.GPSAltitudeRef;
  const below = reference instanceof Uint8Array ? reference[0] : reference;
  return altitude !== undefined && below === BELOW_SEA_LEVEL ? -altitude : altitude;
}

/** Exif writes "2026:05:30 09:15:00", blank or zero if the camera's clock was not set. */
function timeOf(tags: ExifTags): string | undefined {
  const written = tags.DateTimeOriginal ?? tags.CreateDate;
  const parts =
    typeof written === 'string' ? /^(\d{4}):(\d\d):(\d\d) (\d\d):(\d\d):(\d\d)/.exec(written) : null;
  if (!parts) return undefined;
  const [, year, month, day, hour, minute, second] = parts;
  const time = `${year}-${month}-${day}T${hour}:${minute}:${second}`;
  const read = new Date(`${time}Z`);
  return !Number.isNaN(read.getTime()) && read.toISOString().startsWith(time) ? time : undefined;
}

/** "+02:00", written where a zone was set. */
function offsetOf(tags: ExifTags): number | undefined {
  const written = tags.OffsetTimeOriginal ?? tags.OffsetTimeDigitized ?? tags.OffsetTime;
  const parts = typeof written === 'string' ? /^([+-])(\d\d):(\d\d)/.exec(written) : null;
  if (!parts) return undefined;
  const minutes = Number(parts[2]) * 60 + Number(parts[3]);
  // Zones reach from -12:00 to +14:00.
  if (minutes > 14 * 60) return undefined;
  return parts[1] === '-' ? -minutes : minutes;
}

/** "2026:05:30" and hours, minutes and seconds, each a rational number. */
function satelliteTimeOf(tags: ExifTags): string | undefined {
  const { GPSDateStamp: day, GPSTimeStamp: time } = tags;
  const date = typeof day === 'string' ? /^(\d{4})[:-](\d\d)[:-](\d\d)/.exec(day) : null;
  if (!date || !Array.isArray(time) || time.length !== 3) return undefined;
  const [hours, minutes, seconds] = time.map(part =>
    typeof part === 'number' ? Math.floor(part) : Number.NaN,
  );
  const at = new Date(
    Date.UTC(Number(date[1]), Number(date[2]) - 1, Number(date[3]), hours, minutes, seconds),
  );
  const isWhole =
    hours! >= 0 && hours! < 24 && minutes! >= 0 && minutes! < 60 && seconds! >= 0 && seconds! <= 60;
  if (!isWhole || Number.isNaN(at.getTime())) return undefined;
  return at.toISOString().slice(0, 'YYYY-MM-DDThh:mm:ss'.length);
}

function facingOf(tags: ExifTags): Pick<PhotoRecord, 'facing' | 'facingFrom'> {
  const facing = numberOf(tags, 'GPSImgDirection', 0, 360);
  if (facing === undefined) return {};
  const from = tags.GPSImgDirectionRef === 'M' ? 'magnetic north' : 'true north';
  return { facing: facing % 360, facingFrom: from };
}

function recordOf(tags: ExifTags): PhotoRecord | undefined {
  // The library's name for FocalLengthIn35mmFilm.
  const millimetres = positive(tags, 'FocalLengthIn35mmFormat');
  const values = {
    imageWidth: positive(tags, 'ExifImageWidth') ?? positive(tags, 'ImageWidth'),
    imageHeight: positive(tags, 'ExifImageHeight') ?? positive(tags, 'ImageHeight'),
    focalLength35: millimetres === undefined ? undefined : millimetres * METRES_PER_MILLIMETRE,
    latitude: numberOf(tags, 'latitude', -90, 90),
    longitude: numberOf(tags, 'longitude', -180, 180),
    altitude: altitudeOf(tags),
    takenAt: timeOf(tags),
    clockOffset: offsetOf(tags),
    satelliteTime: satelliteTimeOf(tags),
    // Zero is a receiver that did not say.
    positionError: numberOf(tags, 'GPSHPositioningError', 0.01, 100_000),
    ...facingOf(tags),
    digitalZoom: numberOf(tags, 'DigitalZoomRatio', 1.001, 1000),
    orientation: numberOf(tags, 'Orientation', 1, 8),
  };
  const known = Object.entries(values).filter(([, value]) => value !== undefined);
  return known.length === 0 ? undefined : (Object.fromEntries(known) as PhotoRecord);
}

/**
 * Undefined if there is no readable Exif. Never throws.
 * @param source bytes, or, in Node, the path of a file, of which only the parts with the record are read
 */
export async function readPhotoRecord(source: Uint8Array | string): Promise<PhotoRecord | undefined> {
  try {
    const tags: unknown = await exifr.parse(source, OPTIONS);
    return typeof tags === 'object' && tags !== null ? recordOf(tags as ExifTags) : undefined;
  } catch {
    return undefined;
  }
}

/** The JPEG that a camera puts beside the tags, about 160 pixels wide; undefined if there is none. Never throws. */
export async function readThumbnail(bytes: Uint8Array): Promise<Uint8Array | undefined> {
  try {
    return await exifr.thumbnail(bytes);
  } catch {
    return undefined;
  }
}
