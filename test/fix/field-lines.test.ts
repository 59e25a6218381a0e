/**
 * Lines of which the meaning is known, written as people write them: what `fix` makes of each says the same or is asked,
 * and never says anything else.
 */

import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseBlock } from '../../grammar/blocks.ts';
import { SAID } from '../../grammar/said.ts';
import type { Value } from '../../grammar/syntax.ts';
import { fixText } from '../../server/fix/fix.ts';
import { treesCalled } from '../../server/practice/common-names.ts';
import { speciesTable } from '../../server/practice/species.ts';

const LINES = Number(process.env.FIELD_LINES ?? 2000);
const SEED = Number(process.env.PROPERTY_SEED ?? 20_260_316);

/** What is meant, in the notation, and how somebody writes it. */
interface FieldLine {
  readonly below: string;
  readonly meant: string;
  readonly written: string;
}

const pick = <T>(...values: readonly T[]) => fc.constantFrom(...values);

const UNITS: Readonly<Record<string, readonly string[]>> = {
  ft: ["'", ' ft', 'ft', ' feet', ' foot', ' FT', ' ft.', '’'],
  in: ['"', ' in', 'in', ' inches', ' inch', ' in.', '”', ' IN'],
  m: [' m', 'm', ' meters', ' metres', ' M', ' mtr'],
  cm: [' cm', 'cm', ' CM', ' centimeters'],
};

/** A length, and ways to write it. */
const length = (units: readonly string[]) =>
  fc
    .record({
      form: pick('exact', 'about', 'range', 'above', 'below'),
      low: fc.integer({ min: 13, max: 60 }),
      more: fc.integer({ min: 1, max: 30 }),
      unit: fc.constantFrom(...units),
      style: fc.nat(1000),
    })
    .map(({ form, low, more, unit, style }) => {
      const of = (words: readonly string[], salt: number) => words[(style + salt) % words.length]!;
      const written = of(UNITS[unit]!, 0);
      const high = low + more;
      switch (form) {
        case 'exact':
          return { meant: `${low} ${unit}`, written: `${low}${written}` };
        case 'about':
          return {
            meant: `~${low} ${unit}`,
            written: `${of(['abt ', 'about ', 'approx. ', 'ca. ', '~', 'approx ', 'circa ', '+/- ', 'est '], 1)}${low}${written}`,
          };
        case 'range':
          return {
            meant: `${low}..${high} ${unit}`,
            written: `${low}${of(['-', ' - ', ' to ', '–', ' – '], 2)}${high}${written}`,
          };
        case 'above':
          return {
            meant: `> ${low} ${unit}`,
            written: `${of(['over ', 'more than ', 'at least ', '>', '≥'], 3)}${low}${written}`,
          };
        default:
          return {
            meant: `< ${low} ${unit}`,
            written: `${of(['under ', 'less than ', '<', 'below '], 4)}${low}${written}`,
          };
      }
    });

const feetAndInches = fc
  .record({ feet: fc.integer({ min: 1, max: 9 }), inches: fc.integer({ min: 0, max: 11 }), style: fc.nat(4) })
  .map(({ feet, inches, style }) => ({
    meant: `${feet} ft ${inches} in`,
    written: [
      `${feet}'${inches}"`,
      `${feet}' ${inches}"`,
      `${feet}'-${inches}"`,
      `${feet}’${inches}”`,
      `${feet} ft ${inches} in`,
    ][style]!,
  }));

const field = (
  below: string,
  word: string,
  said: readonly string[],
  units: readonly string[],
  frame = '{}',
) =>
  fc.tuple(length(units), fc.constantFrom(...said)).map(
    ([{ meant, written }, first]): FieldLine => ({
      below,
      meant: `${word} ${frame.replace('{}', meant)}`,
      written: `${first} ${frame.replace('{}', written)}`,
    }),
  );

const POINTS: readonly (readonly [string, readonly string[]])[] = [
  ['N', ['N', 'n', 'north', 'North', 'the north']],
  ['SW', ['SW', 'sw', 'southwest', 'south-west', 'Southwest']],
  ['ENE', ['ENE', 'ene']],
  ['S', ['S', 'south', 'South']],
];
const point = fc.constantFrom(
  ...POINTS.flatMap(([meant, said]) => said.map(written => ({ meant, written }))),
);

const pad = (value: number) => String(value).padStart(2, '0');
const dates = fc
  .record({
    year: fc.integer({ min: 2000, max: 2049 }),
    month: fc.integer({ min: 1, max: 12 }),
    day: fc.integer({ min: 1, max: 28 }),
    style: fc.nat(5),
  })
  .map(({ year, month, day, style }): FieldLine => {
    const short = String(year).slice(2);
    return {
      below: 'tree',
      meant: `felled ${year}-${pad(month)}-${pad(day)}`,
      // In Oregon: the month first.
      written: `felled ${[`${month}/${day}/${short}`, `${month}/${day}/${year}`, `${pad(month)}/${pad(day)}/${short}`, `${year}/${month}/${day}`, `${['Jan', 'February', 'Mar', 'April', 'May', 'June', 'Jul', 'Aug', 'Sept', 'October', 'Nov', 'December'][month - 1]} ${day}, ${year}`, `${year}-${month}-${day}`][style]}`,
    };
  });

const said = (below: string, before: string, words: readonly string[]) =>
  fc.constantFrom(
    ...SAID.flatMap(({ said: all, meant }) =>
      meant.filter(one => words.includes(one)).flatMap(one => all.map(written => ({ meant: one, written }))),
    ).map(
      ({ meant, written }): FieldLine => ({
        below,
        meant: `${before} ${meant}`,
        written: `${before} ${written}`,
      }),
    ),
  );

const named = speciesTable.filter(({ common }) => treesCalled(common, 'US-OR').length > 0);

const line: fc.Arbitrary<FieldLine> = fc.oneof(
  field('tree', 'height', ['height', 'ht', 'HEIGHT', 'Height:', 'hgt'], ['ft', 'm']),
  field('tree', 'dbh', ['DBH', 'dbh', 'Dbh', 'dbh:', 'diam'], ['in', 'cm']),
  field('tree', 'girth', ['girth', 'circumference', 'GBH'], ['in', 'cm']),
  field('tree', 'crown', ['spread', 'crown spread', 'canopy spread'], ['ft', 'm']).map(one => ({
    ...one,
    meant: `${one.meant} wide`,
  })),
  field('tree', 'crown', ['crown', 'Crown'], ['ft', 'm'], 'from {}'),
  field('defect A cavity', 'wall', ['wall', 'shell', 'Wall', 'sound wall'], ['in', 'cm']),
  field('defect A cavity', 'depth', ['depth', 'Depth:'], ['in', 'cm']),
  field('target "Path"', 'distance', ['distance', 'dist', 'Distance:'], ['ft', 'm']),
  feetAndInches.map(
    ({ meant, written }): FieldLine => ({
      below: 'defect A cavity',
      meant: `on trunk at ${meant}`,
      written: `on trunk at ${written}`,
    }),
  ),
  fc.tuple(length(['ft', 'm']), point).map(
    ([height, side]): FieldLine => ({
      below: 'defect A cavity',
      meant: `on trunk at ${height.meant}, facing ${side.meant}`,
      written: `on trunk at ${height.written} ${height.written.endsWith('t') ? 'up ' : ''}facing ${side.written}`,
    }),
  ),
  fc
    .tuple(
      fc.integer({ min: 1, max: 40 }),
      point,
      pick('°', ' deg', ' degrees'),
      pick(' toward ', ' to ', ' '),
    )
    .map(
      ([angle, side, unit, to]): FieldLine => ({
        below: 'tree',
        meant: `lean ${angle} deg toward ${side.meant}`,
        written: `lean ${angle}${unit}${to}${side.written}`,
      }),
    ),
  fc
    .tuple(
      fc.integer({ min: 2, max: 30 }),
      fc.integer({ min: 2, max: 30 }),
      pick('"', ' in', ' cm'),
      pick(' x ', 'x', ' by ', ' × '),
    )
    .map(([wide, tall, unit, by]): FieldLine => {
      const symbol = unit === '"' ? 'in' : unit.trim();
      return {
        below: 'defect A cavity',
        meant: `opening ${wide} ${symbol} wide, ${tall} ${symbol} tall`,
        written: `opening ${wide}${by}${tall}${unit}`,
      };
    }),
  fc.array(fc.integer({ min: 4, max: 30 }), { minLength: 2, maxLength: 4 }).chain(stems =>
    pick(
      `${stems.join(', ')} in`,
      `${stems.join(' + ')}"`,
      `${stems.join('", ')}"`,
      `${stems.slice(0, -1).join(', ')} and ${stems.at(-1)} inches`,
    ).map(
      (written): FieldLine => ({
        below: 'tree',
        meant: `dbh ${stems.map(one => `${one} in`).join(', ')}`,
        written: `dbh ${written}`,
      }),
    ),
  ),
  dates,
  fc.constantFrom(...named).map(
    ({ botanical, common }): FieldLine => ({
      below: 'tree',
      meant: `species ${botanical}`,
      written: `species ${common}`,
    }),
  ),
  said('', 'defect A', [
    'cavity',
    'decay',
    'crack',
    'fungus',
    'hanger',
    'dead wood',
    'included bark',
    'root decay',
    'weak union',
    'wound',
    'canker',
    'root loss',
    'loose bark',
  ]),
  said('', 'prescription R1', [
    'reduce',
    'thin',
    'raise',
    'clean',
    'fell',
    'cable',
    'watch',
    'keep',
    'investigate',
  ]),
  said('target "Path"', 'occupied', ['rare', 'occasional', 'frequent', 'constant']),
  said('tree', 'vigor', ['good', 'fair', 'poor', 'dead']),
  said('tree', 'age', ['mature', 'over-mature', 'veteran', 'semi-mature']),
  fc
    .constantFrom(
      'gate code from the office',
      "don't cut before may",
      'owner wants 3 quotes',
      'oak, by the gate',
    )
    .map((text): FieldLine => ({ below: 'tree', meant: `note "${text}"`, written: `note ${text}` })),
);

const values = (all: readonly Value[]) => all.map(({ start, end, ...value }) => value);

const read = (text: string) => {
  const last = parseBlock(text).lines.at(-1)!;
  return { word: last.word, values: values(last.values), mistake: last.mistake };
};

test(`${LINES} field lines: the meaning is kept, or asked`, () => {
  const wrong: string[] = [];
  const left: string[] = [];
  let kept = 0;
  for (const { below, meant, written } of fc.sample(line, { numRuns: LINES, seed: SEED })) {
    const above = below === 'tree' || below === '' ? 'tree 1' : `tree 1\n${below}`;
    const wanted = read(`${above}\n${meant}`);
    expect(wanted.mistake, meant).toBeUndefined();
    const fixed = fixText(`${above}\n${written}`, { region: 'US-OR' });
    expect(fixText(fixed.text, { region: 'US-OR' }).text, `again: ${written}`).toBe(fixed.text);
    if (fixed.questions.length > 0) continue;
    if (fixed.left.length > 0) left.push(written);
    else if (isDeepStrictEqual(read(fixed.text), wanted)) kept++;
    else wrong.push(`${written} → ${fixed.text.split('\n').at(-1)}`);
  }
  expect(wrong).toEqual([]);
  // What is left as written is an error of the check.
  expect(left.length, left.join('\n')).toBeLessThan(LINES / 100);
  expect(kept).toBeGreaterThan(LINES / 2);
});
