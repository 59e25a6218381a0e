/**
 * Positions on the plane of a grid → latitude and longitude. The definitions are those of the EPSG registry, written for
 * proj4js; the shifts between datums are the registry's common ones, good to a few metres. From memory, except those of
 * New York, Maryland and California 3, which the published tables of New York, Baltimore and San Francisco confirm: they
 * have both kinds of position.
 */

import proj4 from 'proj4';

const GRS80 = '+ellps=GRS80 +towgs84=0,0,0 +units=m +no_defs';
const lambert = (lat0: string, lon0: string, lat1: string, lat2: string, rest: string) =>
  `+proj=lcc +lat_0=${lat0} +lon_0=${lon0} +lat_1=${lat1} +lat_2=${lat2} ${rest}`;
const feet = (x: string, y = '0') => `+x_0=${x} +y_0=${y} +datum=NAD83 +units=us-ft +no_defs`;
const GERMAN = '+ellps=bessel +towgs84=598.1,73.7,418.2,0.202,0.045,-2.455,6.7 +units=m +no_defs';
const AUSTRIAN =
  '+k=1 +x_0=0 +y_0=-5000000 +ellps=bessel +towgs84=577.326,90.129,463.919,5.137,1.474,5.297,2.4232 +units=m +no_defs';
const SWISS =
  '+proj=somerc +lat_0=46.9524055555556 +lon_0=7.43958333333333 +k_0=1 +ellps=bessel +towgs84=674.374,15.056,405.346 +units=m +no_defs';
const IRISH =
  '+proj=tmerc +lat_0=53.5 +lon_0=-8 +k=1.000035 +x_0=200000 +y_0=250000 +ellps=mod_airy +towgs84=482.5,-130.6,564.6,-1.042,-0.214,-0.631,8.15 +units=m +no_defs';
const ROMAN = '+ellps=intl +towgs84=-104.1,-49.1,-9.9,0.971,-2.917,0.714,-11.68 +units=m +no_defs';

/** By EPSG code. */
const GRIDS: ReadonlyMap<number, string> = new Map([
  // Britain, Ireland.
  [
    27700,
    '+proj=tmerc +lat_0=49 +lon_0=-2 +k=0.9996012717 +x_0=400000 +y_0=-100000 +ellps=airy +towgs84=446.448,-125.157,542.06,0.15,0.247,0.842,-20.489 +units=m +no_defs',
  ],
  [29902, IRISH],
  [29903, IRISH],
  [2157, `+proj=tmerc +lat_0=53.5 +lon_0=-8 +k=0.99982 +x_0=600000 +y_0=750000 ${GRS80}`],
  // France, Belgium, the Netherlands.
  [2154, lambert('46.5', '3', '49', '44', `+x_0=700000 +y_0=6600000 ${GRS80}`)],
  [
    31370,
    lambert(
      '90',
      '4.36748666666667',
      '51.1666672333333',
      '49.8333339',
      '+x_0=150000.013 +y_0=5400088.438 +ellps=intl +towgs84=-106.8686,52.2978,-103.7239,0.3366,-0.457,1.8422,-1.2747 +units=m +no_defs',
    ),
  ],
  [
    28992,
    '+proj=sterea +lat_0=52.1561605555556 +lon_0=5.38763888888889 +k=0.9999079 +x_0=155000 +y_0=463000 +ellps=bessel +towgs84=565.2369,50.0087,465.658,-0.406857,0.350733,-1.87035,4.0812 +units=m +no_defs',
  ],
  // Germany, Austria, Switzerland.
  [31466, `+proj=tmerc +lat_0=0 +lon_0=6 +k=1 +x_0=2500000 +y_0=0 ${GERMAN}`],
  [31467, `+proj=tmerc +lat_0=0 +lon_0=9 +k=1 +x_0=3500000 +y_0=0 ${GERMAN}`],
  [31468, `+proj=tmerc +lat_0=0 +lon_0=12 +k=1 +x_0=4500000 +y_0=0 ${GERMAN}`],
  [31469, `+proj=tmerc +lat_0=0 +lon_0=15 +k=1 +x_0=5500000 +y_0=0 ${GERMAN}`],
  [3068, `+proj=cass +lat_0=52.4186482777778 +lon_0=13.6272036666667 +x_0=40000 +y_0=10000 ${GERMAN}`],
  [31254, `+proj=tmerc +lat_0=0 +lon_0=10.3333333333333 ${AUSTRIAN}`],
  [31255, `+proj=tmerc +lat_0=0 +lon_0=13.3333333333333 ${AUSTRIAN}`],
  [31256, `+proj=tmerc +lat_0=0 +lon_0=16.3333333333333 ${AUSTRIAN}`],
  [2056, `${SWISS} +x_0=2600000 +y_0=1200000`],
  [21781, `${SWISS} +x_0=600000 +y_0=200000`],
  // Italy, Spain, Portugal.
  [3003, `+proj=tmerc +lat_0=0 +lon_0=9 +k=0.9996 +x_0=1500000 +y_0=0 ${ROMAN}`],
  [3004, `+proj=tmerc +lat_0=0 +lon_0=15 +k=0.9996 +x_0=2520000 +y_0=0 ${ROMAN}`],
  [23030, '+proj=utm +zone=30 +ellps=intl +towgs84=-87,-98,-121 +units=m +no_defs'],
  [23031, '+proj=utm +zone=31 +ellps=intl +towgs84=-87,-98,-121 +units=m +no_defs'],
  [3763, `+proj=tmerc +lat_0=39.6682583333333 +lon_0=-8.13310833333333 +k=1 +x_0=0 +y_0=0 ${GRS80}`],
  // Europe, Sweden, New Zealand.
  [3035, `+proj=laea +lat_0=52 +lon_0=10 +x_0=4321000 +y_0=3210000 ${GRS80}`],
  [3006, `+proj=utm +zone=33 ${GRS80}`],
  [2193, `+proj=tmerc +lat_0=0 +lon_0=173 +k=0.9996 +x_0=1600000 +y_0=10000000 ${GRS80}`],
  // The whole earth, as on maps of the web.
  [
    3857,
    '+proj=merc +a=6378137 +b=6378137 +lat_ts=0 +lon_0=0 +x_0=0 +y_0=0 +k=1 +units=m +nadgrids=@null +no_defs',
  ],
  // State planes of the United States in feet, and Toronto's.
  [2263, lambert('40.1666666666667', '-74', '41.0333333333333', '40.6666666666667', feet('300000'))],
  [2261, `+proj=tmerc +lat_0=40 +lon_0=-76.5833333333333 +k=0.9999375 ${feet('249999.9998983998')}`],
  [
    2227,
    lambert(
      '36.5',
      '-120.5',
      '38.4333333333333',
      '37.0666666666667',
      feet('2000000.0001016', '500000.0001016'),
    ),
  ],
  [
    2229,
    lambert(
      '33.5',
      '-118',
      '35.4666666666667',
      '34.0333333333333',
      feet('2000000.0001016', '500000.0001016'),
    ),
  ],
  [2248, lambert('37.6666666666667', '-77', '39.45', '38.3', feet('399999.999898399'))],
  [2249, lambert('41', '-71.5', '42.6833333333333', '41.7166666666667', feet('200000.0001016', '750000'))],
  [2272, lambert('39.3333333333333', '-77.75', '40.9666666666667', '39.9333333333333', feet('600000'))],
  [
    2277,
    lambert(
      '29.6666666666667',
      '-100.333333333333',
      '31.8833333333333',
      '30.1166666666667',
      feet('700000', '3000000'),
    ),
  ],
  [2285, lambert('47', '-120.833333333333', '48.7333333333333', '47.5', feet('500000.0001016'))],
  [2926, lambert('47', '-120.833333333333', '48.7333333333333', '47.5', feet('500000.0001016'))],
  [3435, `+proj=tmerc +lat_0=36.6666666666667 +lon_0=-88.3333333333333 +k=0.999975 ${feet('300000')}`],
  [2952, `+proj=tmerc +lat_0=0 +lon_0=-79.5 +k=0.9999 +x_0=304800 +y_0=0 ${GRS80}`],
]);

/** Zones of the universal transverse Mercator: on ETRS89, NAD83 and WGS 84, and Australia's. */
const ZONES = [
  { from: 25828, to: 25838, zone: 28, south: false },
  { from: 26901, to: 26923, zone: 1, south: false },
  { from: 32601, to: 32660, zone: 1, south: false },
  { from: 32701, to: 32760, zone: 1, south: true },
  { from: 28348, to: 28358, zone: 48, south: true },
  { from: 7846, to: 7859, zone: 46, south: true },
] as const;

function definitionOf(code: number): string | undefined {
  const known = GRIDS.get(code);
  if (known !== undefined) return known;
  const zones = ZONES.find(({ from, to }) => code >= from && code <= to);
  if (!zones) return undefined;
  return `+proj=utm +zone=${code - zones.from + zones.zone}${zones.south ? ' +south' : ''} ${GRS80}`;
}

const CODE = /^(?:EPSG:{1,2}|urn:ogc:def:crs:EPSG::|SRID=)?(\d{4,5})$/i;

/** `epsg:2263` or `2263` → `EPSG:2263`. */
export const readGrid = (text: string): string | undefined => {
  const code = CODE.exec(text.trim())?.[1];
  return code === undefined ? undefined : `EPSG:${code}`;
};

const codeOf = (crs: string): number => Number(crs.slice('EPSG:'.length));
/** Latitude and longitude themselves: WGS 84, ETRS89, NAD83 and the like. */
export const isDegrees = (crs: string): boolean => [4326, 4258, 4269, 4617, 4283, 7844].includes(codeOf(crs));
export const isKnownGrid = (crs: string): boolean => definitionOf(codeOf(crs)) !== undefined;

/** The EPSG code that a text names. */
export const gridIn = (text: string): string | undefined => {
  const code = /\bEPSG[:\s]*(\d{4,5})\b|\bSRID=(\d{4,5})\b/i.exec(text);
  return code ? `EPSG:${code[1] ?? code[2]}` : undefined;
};

/** Names by which headings call the grid of a country. */
const NAMES: ReadonlyMap<string, string> = new Map([
  ['rd', 'EPSG:28992'],
  ['rdnew', 'EPSG:28992'],
  ['lambert93', 'EPSG:2154'],
  ['l93', 'EPSG:2154'],
  ['lambert72', 'EPSG:31370'],
  ['lv95', 'EPSG:2056'],
  ['lv03', 'EPSG:21781'],
  ['osgb', 'EPSG:27700'],
  ['osgb36', 'EPSG:27700'],
  ['bng', 'EPSG:27700'],
  ['webmercator', 'EPSG:3857'],
]);

/** The grid that the words of headings name. */
export const gridNamed = (headings: string): string | undefined =>
  headings
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .flatMap(word => NAMES.get(word) ?? [])[0];

type Point = readonly [east: number, north: number];
const converters = new Map<string, (point: Point) => Point>();

/** Degrees of a point on a grid. */
export function degreesOn(
  crs: string,
  point: Point,
): { readonly latitude: number; readonly longitude: number } | undefined {
  let convert = converters.get(crs);
  if (!convert) {
    const grid = proj4(definitionOf(codeOf(crs))!, 'WGS84');
    convert = ([east, north]) => {
      const [x, y] = grid.forward([east, north]);
      return [x!, y!];
    };
    converters.set(crs, convert);
  }
  const [longitude, latitude] = convert(point);
  return Number.isFinite(latitude) && Number.isFinite(longitude)
    ? { latitude: rounded(latitude), longitude: rounded(longitude) }
    : undefined;
}

/** To a centimetre. */
const rounded = (degrees: number): number => Math.round(degrees * 1e7) / 1e7;
