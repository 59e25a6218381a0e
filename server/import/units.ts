/**
 * The units of columns of sizes: as headings and cells state them, else as they make a tree of the middle values. What
 * is stated is checked the same way: metres under a heading of centimetres are asked about.
 */

import { type LengthUnit, metresPer, type Size } from './meanings.ts';
import { notationSizes } from './notation.ts';
import { decimalSign, readSize } from './sizes.ts';
import { cellsOf, type Table } from './table.ts';

export type System = 'imperial' | 'metric';

/** A column that is read as a size, and what its heading says of its unit. */
export interface SizeColumn {
  readonly index: number;
  readonly kind: Size;
  readonly stated: LengthUnit | undefined;
}

export interface UnitChoice {
  readonly kind: Size;
  readonly unit: LengthUnit;
}

export interface UnitFound {
  readonly unit: LengthUnit;
  /** Why it has to be asked; undefined where it is sure. */
  readonly doubt?: string;
  /** What else it may be, the likeliest first. */
  readonly others: readonly UnitChoice[];
  /** What was concluded from the values, to be told. */
  readonly told?: string;
}

/**
 * Between what the middle value of a column lies, in metres: street, park and garden trees, whole towns or parts of
 * them. From memory, wide.
 */
const USUAL: Readonly<Record<Size, readonly [number, number]>> = {
  dbh: [0.02, 2],
  girth: [0.07, 7],
  height: [1.5, 45],
  crown: [0.8, 30],
  'crown-radius': [0.4, 15],
  'crown-base': [0.4, 20],
};

/**
 * Between what the height of the middle tree lies, in diameters. From memory: old trees in the open stand near 15, a
 * forest near 100.
 */
const SLENDERNESS = [12, 150] as const;

const UNITS: Readonly<Record<Size, Readonly<Record<System, readonly LengthUnit[]>>>> = {
  dbh: { imperial: ['in'], metric: ['cm', 'm', 'mm'] },
  girth: { imperial: ['in'], metric: ['cm', 'm', 'mm'] },
  height: { imperial: ['ft'], metric: ['m', 'cm'] },
  crown: { imperial: ['ft'], metric: ['m', 'cm'] },
  'crown-radius': { imperial: ['ft'], metric: ['m', 'cm'] },
  'crown-base': { imperial: ['ft'], metric: ['m', 'cm'] },
};

/** The units in which people state these sizes where they state none. */
const COMMON: Readonly<Record<Size, readonly LengthUnit[]>> = {
  dbh: ['in', 'cm'],
  girth: ['in', 'cm'],
  height: ['ft', 'm'],
  crown: ['ft', 'm'],
  'crown-radius': ['ft', 'm'],
  'crown-base': ['ft', 'm'],
};

const systemOf = (unit: LengthUnit): System => (unit === 'in' || unit === 'ft' ? 'imperial' : 'metric');

/** Undefined for an empty list. */
function median(values: readonly number[]): number | undefined {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor((sorted.length - 1) / 2)];
}

/** The greatest reading of each cell that has one without a unit of its own. */
function readings(table: Table, index: number): readonly number[] {
  const cells = cellsOf(table, index);
  const sign = decimalSign(cells, table.separator);
  return cells.flatMap(cell => {
    const read = readSize(cell, sign);
    if (read.kind !== 'sizes' || read.sizes.some(({ unit }) => unit !== undefined)) return [];
    const high = Math.max(...read.sizes.map(size => size.high));
    return high > 0 ? [high] : [];
  });
}

/** Whether no cell needs the unit of the column. */
function everyCellHasUnit(table: Table, { index, kind }: SizeColumn): boolean {
  const cells = cellsOf(table, index).filter(cell => cell !== '');
  const sign = decimalSign(cells, table.separator);
  return cells.every(cell => {
    if (notationSizes(kind, cell)) return true;
    const read = readSize(cell, sign);
    return read.kind !== 'sizes' || read.sizes.every(({ unit }) => unit !== undefined);
  });
}

/** Whole numbers below ten only may be the classes of a key. */
const maybeClasses = (values: readonly number[]): boolean =>
  values.length >= 6 &&
  values.every(value => Number.isInteger(value) && value < 10) &&
  new Set(values).size > 1;

const inRange = (value: number, [low, high]: readonly [number, number]): boolean =>
  value >= low && value <= high;

/** Of a diameter, in metres; a circumference is one of a round stem. */
const diameterOf = ({ kind, unit }: UnitChoice, value: number): number =>
  (value * metresPer(unit)) / (kind === 'girth' ? Math.PI : 1);

const isUsual = ({ kind, unit }: UnitChoice, middle: number | undefined): boolean =>
  middle === undefined || inRange(middle * metresPer(unit), USUAL[kind]);

const choicesOf = (kind: Size, system: System | undefined): readonly UnitChoice[] => {
  const order: readonly System[] = system === 'imperial' ? ['imperial', 'metric'] : ['metric', 'imperial'];
  return order.flatMap(one => UNITS[kind][one].map(unit => ({ kind, unit })));
};

/** @param system in which the place measures trees, where it is known */
export function unitsOf(
  table: Table,
  columns: readonly SizeColumn[],
  system: System | undefined,
): ReadonlyMap<number, UnitFound> {
  const found = new Map<number, UnitFound>();
  const middles = new Map(columns.map(({ index }) => [index, median(readings(table, index))]));
  const open = columns.filter(column => {
    if (!everyCellHasUnit(table, column)) return true;
    found.set(column.index, {
      unit: column.stated ?? UNITS[column.kind][system ?? 'metric'][0]!,
      others: [],
    });
    return false;
  });
  const thick = open.filter(({ kind }) => kind === 'dbh' || kind === 'girth');
  const tall = open.find(({ kind }) => kind === 'height');
  const of = ({ kind, stated }: SizeColumn, middle: number | undefined): readonly UnitChoice[] => {
    if (stated !== undefined) return [{ kind, unit: stated }].filter(choice => isUsual(choice, middle));
    const usual = choicesOf(kind, system).filter(choice => isUsual(choice, middle));
    // Nobody leaves out the unit where it is a rare one, unless the values leave no doubt.
    const common = usual.filter(({ unit }) => COMMON[kind].includes(unit));
    return common.length > 0 ? common : usual;
  };
  const heights = tall ? of(tall, middles.get(tall.index)) : [];

  const isTree = (one: UnitChoice, value: number, height: UnitChoice, tallness: number): boolean =>
    inRange((tallness * metresPer(height.unit)) / diameterOf(one, value), SLENDERNESS);
  /** Units of a diameter that fit some unit of the height, within one system where any does. */
  const fitting = (choices: readonly UnitChoice[], value: number | undefined): readonly UnitChoice[] => {
    const tallness = tall && middles.get(tall.index);
    if (!tall || tallness === undefined || value === undefined) return choices;
    const pairs = choices.flatMap(one =>
      heights.flatMap(height =>
        isTree(one, value, height, tallness)
          ? [{ one, isOfOneSystem: systemOf(one.unit) === systemOf(height.unit) }]
          : [],
      ),
    );
    const best = pairs.some(({ isOfOneSystem }) => isOfOneSystem)
      ? pairs.filter(({ isOfOneSystem }) => isOfOneSystem)
      : pairs;
    return choices.filter(choice => best.some(({ one }) => one === choice));
  };

  /** Diameter and circumference of the same stems tell each other's units. */
  const settledThick: { readonly choice: UnitChoice; readonly value: number }[] = [];
  for (const column of [...thick].sort(
    (a, b) => Number(b.stated !== undefined) - Number(a.stated !== undefined),
  )) {
    const middle = middles.get(column.index);
    const usual = of(column, middle);
    let left = fitting(usual, middle);
    const [known] = settledThick;
    if (known && middle !== undefined)
      left = left.filter(choice =>
        inRange(diameterOf(choice, middle) / diameterOf(known.choice, known.value), [0.6, 1.6]),
      );
    const decided = decide(column, left, middle, system, readings(table, column.index));
    const other: Size = column.kind === 'dbh' ? 'girth' : 'dbh';
    const exchanged =
      left.length === 0
        ? fitting(
            choicesOf(other, system).filter(choice => isUsual(choice, middle)),
            middle,
          )
        : [];
    const isEnglishGirth = column.kind === 'girth';
    const result =
      decided.doubt === undefined
        ? decided
        : {
            ...decided,
            others: unique([
              ...exchanged,
              ...decided.others,
              ...(isEnglishGirth ? [{ kind: other, unit: decided.unit }] : []),
            ]),
          };
    found.set(column.index, result);
    if (result.doubt === undefined && middle !== undefined)
      settledThick.push({ choice: { kind: column.kind, unit: result.unit }, value: middle });
  }

  if (tall) {
    const middle = middles.get(tall.index);
    const left = heights.filter(
      height =>
        middle === undefined ||
        settledThick.length === 0 ||
        settledThick.every(({ choice, value }) => isTree(choice, value, height, middle)),
    );
    const partner = settledThick[0] && systemOf(settledThick[0].choice.unit);
    const same = left.filter(({ unit }) => partner === undefined || systemOf(unit) === partner);
    found.set(
      tall.index,
      decide(tall, same.length > 0 ? same : left, middle, system, readings(table, tall.index)),
    );
  }

  const heightUnit = tall && found.get(tall.index);
  const known = heightUnit && heightUnit.doubt === undefined ? systemOf(heightUnit.unit) : undefined;
  for (const column of open) {
    if (found.has(column.index)) continue;
    const middle = middles.get(column.index);
    found.set(
      column.index,
      decide(column, of(column, middle), middle, known ?? system, readings(table, column.index)),
    );
  }
  return found;
}

/** Readings from which something can be held against a unit that the heading states. */
const ENOUGH = 3;

function unique(choices: readonly UnitChoice[]): readonly UnitChoice[] {
  return choices.filter(
    (one, i) => choices.findIndex(({ kind, unit }) => kind === one.kind && unit === one.unit) === i,
  );
}

/** The unit of a column, of those that make trees of it. */
function decide(
  { kind, stated }: SizeColumn,
  left: readonly UnitChoice[],
  middle: number | undefined,
  system: System | undefined,
  values: readonly number[],
): UnitFound {
  const all = choicesOf(kind, system);
  const first = left.find(({ unit }) => systemOf(unit) === system) ?? left[0];
  const unit = stated ?? first?.unit ?? all[0]!.unit;
  const others = unique([...left, ...all]).filter(choice => choice.unit !== unit);
  const shown = middle === undefined ? '' : `its middle value is ${middle}`;
  if (middle === undefined || (stated !== undefined && values.length < ENOUGH)) return { unit, others };
  if (maybeClasses(values) && kind !== 'crown-base' && kind !== 'crown-radius')
    return { unit, others, doubt: `all its values are whole numbers below ten, which may be classes` };
  if (left.length === 0) {
    const why =
      stated === undefined ? 'no unit makes that a usual tree' : `in ${stated} that is not a usual tree`;
    return { unit, others, doubt: `${shown}, and ${why}` };
  }
  if (stated !== undefined) return { unit, others };
  const likely = system === undefined ? left : left.filter(choice => systemOf(choice.unit) === system);
  if (likely.length === 1)
    return {
      unit: likely[0]!.unit,
      others,
      told: `states no unit; ${shown}, so it is read in ${likely[0]!.unit}`,
    };
  return { unit, others, doubt: `it states no unit, and ${shown}` };
}
