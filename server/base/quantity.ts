/**
 * Literals with a unit. What the writer wrote stays visible (unit, form); the number inside is SI.
 */

export type Dimension =
  | 'length'
  | 'share'
  | 'angle'
  | 'speed'
  | 'mass'
  | 'force'
  | 'duration'
  | 'voltage'
  /** A plain number: a ratio, a count, a coordinate. It takes no unit. */
  | 'number';

export interface Unit {
  readonly symbol: string;
  /** How the unit of one is written where that differs: `1 year`. */
  readonly one?: string;
  readonly dimension: Dimension;
  /** What one of it is in the inside unit: m, share of one, degree, m/s, kg, N, day, V. */
  readonly factor: number;
  readonly name: string;
  /** What people also write; an error with a quick fix, so that files stay uniform. */
  readonly said: readonly string[];
}

/** Standard gravity, m/s² (exact). */
const STANDARD_GRAVITY = 9.80665;

/** International yard and pound agreement, 1959 (exact). */
export const METRES_PER_INCH = 0.0254;
export const METRES_PER_FOOT = 0.3048;
export const KILOGRAMS_PER_POUND = 0.45359237;
/** Mean Gregorian year. */
export const DAYS_PER_YEAR = 365.2425;

export const UNITS: readonly Unit[] = [
  {
    symbol: 'in',
    dimension: 'length',
    factor: METRES_PER_INCH,
    name: 'inch',
    said: ['inch', 'inches', 'ins', 'zoll'],
  },
  {
    symbol: 'ft',
    dimension: 'length',
    factor: METRES_PER_FOOT,
    name: 'foot',
    said: ['feet', 'foot', 'fts', 'Ft', 'FT'],
  },
  {
    symbol: 'mm',
    dimension: 'length',
    factor: 0.001,
    name: 'millimeter',
    said: ['millimetres', 'millimeters'],
  },
  {
    symbol: 'cm',
    dimension: 'length',
    factor: 0.01,
    name: 'centimeter',
    said: ['centimetres', 'centimeters'],
  },
  {
    symbol: 'm',
    dimension: 'length',
    factor: 1,
    name: 'meter',
    said: ['metre', 'metres', 'meter', 'meters', 'M', 'mtr'],
  },
  { symbol: '%', dimension: 'share', factor: 0.01, name: 'percent', said: ['percent', 'pct'] },
  { symbol: 'deg', dimension: 'angle', factor: 1, name: 'degree', said: ['degree', 'degrees', '°'] },
  { symbol: 'm/s', dimension: 'speed', factor: 1, name: 'meter per second', said: ['mps'] },
  { symbol: 'km/h', dimension: 'speed', factor: 1 / 3.6, name: 'kilometer per hour', said: ['kph', 'kmh'] },
  { symbol: 'mph', dimension: 'speed', factor: 0.44704, name: 'mile per hour', said: ['mi/h'] },
  { symbol: 'kg', dimension: 'mass', factor: 1, name: 'kilogram', said: ['kilo', 'kilos', 'kgs', 'KG'] },
  {
    symbol: 'lb',
    dimension: 'mass',
    factor: KILOGRAMS_PER_POUND,
    name: 'pound',
    said: ['lbs', 'pound', 'pounds'],
  },
  { symbol: 't', dimension: 'mass', factor: 1000, name: 'metric ton', said: ['tonne', 'tonnes'] },
  { symbol: 'kN', dimension: 'force', factor: 1000, name: 'kilonewton', said: ['kn', 'KN', 'kilonewtons'] },
  { symbol: 'N', dimension: 'force', factor: 1, name: 'newton', said: ['newtons'] },
  {
    symbol: 'lbf',
    dimension: 'force',
    factor: KILOGRAMS_PER_POUND * STANDARD_GRAVITY,
    name: 'pound-force',
    said: ['pounds-force'],
  },
  { symbol: 'days', one: 'day', dimension: 'duration', factor: 1, name: 'day', said: [] },
  { symbol: 'weeks', one: 'week', dimension: 'duration', factor: 7, name: 'week', said: [] },
  /** A month counts as a twelfth of the mean Gregorian year where it has to be compared with days. */
  { symbol: 'months', one: 'month', dimension: 'duration', factor: 30.436875, name: 'month', said: [] },
  {
    symbol: 'years',
    one: 'year',
    dimension: 'duration',
    factor: DAYS_PER_YEAR,
    name: 'year',
    said: ['yr', 'yrs'],
  },
  { symbol: 'kV', dimension: 'voltage', factor: 1000, name: 'kilovolt', said: ['kv', 'KV'] },
  { symbol: 'V', dimension: 'voltage', factor: 1, name: 'volt', said: ['v', 'volt', 'volts'] },
];

/** Every unit as it may be written. */
export const unitWords = ({ symbol, one }: Unit): readonly string[] =>
  one === undefined ? [symbol] : [symbol, one];

const bySymbol = new Map(UNITS.flatMap(unit => unitWords(unit).map(word => [word, unit] as const)));
const bySaid = new Map(UNITS.flatMap(unit => unit.said.map(word => [word, unit] as const)));

export const unitOf = (symbol: string): Unit | undefined => bySymbol.get(symbol);
/** Feet for a length of whole feet, else metres: the unit in which a rule was written. */
export function lengthUnitOf(metres: number): Unit {
  const feet = metres / METRES_PER_FOOT;
  return bySymbol.get(Math.abs(feet - Math.round(feet)) < 1e-9 ? 'ft' : 'm')!;
}
/** The unit that somebody meant by a word that is not one (`inches`), if it is known. */
export const unitMeant = (word: string): Unit | undefined => bySaid.get(word);
export const unitsFor = (dimension: Dimension): readonly Unit[] =>
  UNITS.filter(unit => unit.dimension === dimension);

/** How a quantity was written: `26 in`, `~26 in`, `2..4 in`, `> 11 in`, `< 2 in`, `unseen`. */
export type QuantityForm = 'exact' | 'about' | 'range' | 'above' | 'below' | 'unseen';

/**
 * A quantity as written. `low` and `high` are in the inside unit of the dimension. `about` keeps the value
 * written at both ends (its margin is a matter of practice); `above` has no upper end (Infinity); `below`
 * has 0 as its low end; `unseen` is 0 to Infinity until the physics says more.
 */
export interface Quantity {
  readonly form: QuantityForm;
  readonly low: number;
  readonly high: number;
  readonly dimension: Dimension;
  /** The writer's unit (the last one written of `5 ft 6 in`); undefined for plain numbers and `unseen`. */
  readonly unit: Unit | undefined;
  /** Of a diameter: a girth was taped, and this is that divided by π. */
  readonly taped?: true;
}

export const UNSEEN = (dimension: Dimension): Quantity => ({
  form: 'unseen',
  low: 0,
  high: Number.POSITIVE_INFINITY,
  dimension,
  unit: undefined,
});

/** One figure in the unit of another quantity. */
export const exactly = (like: Quantity, value: number): Quantity => ({
  ...like,
  form: 'exact',
  low: value,
  high: value,
});

/** Up to `digits` decimals without trailing zeros, and never with an exponent. */
export function plainNumber(value: number, digits: number): string {
  const shown = String(Number(value.toFixed(digits)));
  return shown.includes('e+') ? BigInt(value).toString() : shown;
}

/** A number as it is written, with its unit: `2.6 in`, `1 year`. */
export const withUnit = (number: string, { symbol, one = symbol }: Unit): string =>
  `${number} ${number === '1' ? one : symbol}`;

/** An inside value in the given unit, for people: `2.6 in`. */
export const inUnit = (value: number, unit: Unit, digits = 1): string =>
  withUnit(plainNumber(value / unit.factor, digits), unit);

/** Decimals to which a diameter is known that was taped around the stem. */
const TAPED = 1;

/** A quantity for people, as it was written: `2..4 in`, `> 11 in`, `unseen`. */
export function showQuantity(quantity: Quantity, digits = quantity.taped ? TAPED : 2): string {
  const { form, low, high, unit } = quantity;
  const tail = unit ? ` ${unit.symbol}` : '';
  const number = (value: number) => plainNumber(unit ? value / unit.factor : value, digits);
  switch (form) {
    case 'exact':
      return unit ? withUnit(number(low), unit) : number(low);
    case 'about':
      return `~${number(low)}${tail}`;
    case 'range':
      return `${number(low)}..${number(high)}${tail}`;
    case 'above':
      return `> ${number(low)}${tail}`;
    case 'below':
      return `< ${number(high)}${tail}`;
    case 'unseen':
      return 'unseen';
  }
}
