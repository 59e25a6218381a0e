/** What the values of a few lines become, where they are not themselves the members of the fact. */

import type { FieldEntry } from '../../grammar/entries.ts';
import type { BlockLine, Value } from '../../grammar/syntax.ts';
import { append, endOf, startOf } from './lines.ts';
import type { Defect, GeoPosition, Prescription, Sizes, Tree } from './types.ts';

type LineDraft<T> = { -readonly [K in keyof T]: T[K] };

/** Puts what a line states into the fact. */
export type SpecialReader = (line: BlockLine, fact: object) => void;

function quantityOf(line: BlockLine, name: string): number | undefined {
  const value = line.values.find(one => one.name === name);
  return value?.type === 'quantity' ? value.quantity.low : undefined;
}

function position(line: BlockLine, fact: object): void {
  const read: GeoPosition = {
    start: startOf(line),
    end: endOf(line),
    latitude: quantityOf(line, 'latitude')!,
    longitude: quantityOf(line, 'longitude')!,
  };
  (fact as LineDraft<Tree>).position = read;
}

/** The diameters of circles with these circumferences; a diameter that was taped directly counts before. */
function girth(line: BlockLine, fact: object): void {
  const sizes = fact as LineDraft<Sizes>;
  if (sizes.diameters.length > 0) return;
  for (const value of line.values) {
    if (value.type !== 'quantity') continue;
    const { quantity } = value;
    const [start, end] = [line.start + value.start, line.start + value.end];
    if (value.name === 'measuredAt') sizes.measuredAt = { value: quantity, start, end };
    else {
      const diameter = {
        ...quantity,
        low: quantity.low / Math.PI,
        high: quantity.high / Math.PI,
        taped: true,
      } as const;
      sizes.diameters = append(sizes.diameters, { value: diameter, start, end });
    }
  }
}

/** Each reading of the wall takes the bearing that follows it. */
function walls(line: BlockLine, fact: object): void {
  const { values } = line;
  const bearingAfter = (value: Value | undefined) => (value?.type === 'bearing' ? value.degrees : undefined);
  (fact as LineDraft<Defect>).walls = values.flatMap((value, i) => {
    if (value.type !== 'quantity') return [];
    const [start, end] = [line.start + value.start, line.start + value.end];
    return {
      start,
      end,
      thickness: { value: value.quantity, start, end },
      bearing: bearingAfter(values[i + 1]),
    };
  });
}

function replacement(line: BlockLine, fact: object): void {
  const species = line.values.find(({ type }) => type === 'species');
  const text = line.values.find(({ type }) => type === 'text');
  (fact as LineDraft<Prescription>).replacement = {
    start: startOf(line),
    end: endOf(line),
    count: quantityOf(line, 'count') ?? 0,
    species: species?.type === 'species' ? species.species : undefined,
    text: text?.type === 'text' ? text.text : undefined,
  };
}

export const SPECIAL_READERS: Readonly<Record<NonNullable<FieldEntry['reader']>, SpecialReader>> = {
  position,
  girth,
  walls,
  replacement,
};
