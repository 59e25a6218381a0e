/** Inventories that keep to the notation and are otherwise as odd as hands can make them. */

import fc from 'fast-check';
import { formatDate, parseDate } from '../../server/base/dates.ts';
import { unitOf, unitsFor } from '../../server/base/quantity.ts';
import { type PhotoFile, type PhotoIndex, photoPaths } from '../../server/facts/photos.ts';
import { readFile } from '../../server/facts/workspace.ts';
import { limits } from '../../server/practice/limits.ts';
import { RULES } from '../../server/rules/registry.ts';
import { type SampleFile, sampleFiles } from '../samples/sample-files.ts';

export interface Inventory {
  readonly files: readonly SampleFile[];
  readonly photos: PhotoIndex;
  /** Day number. */
  readonly today: number;
}

const COURT = sampleFiles('fernhollow');
const ERRORS = sampleFiles('errors');
const SHARED = ERRORS.find(({ path }) => path === 'site.wood')!;
const LINES = [...COURT, ...ERRORS]
  .flatMap(({ text }) => text.split('\n'))
  .filter(line => line.trim() !== '');

const FIRST = parseDate('2023-01-01')!;
const LAST = parseDate('2028-12-31')!;
const day = fc.integer({ min: FIRST, max: LAST });

const QUANTITY =
  /(?<![\w.-])(?:[~<>] ?)?\d+(?:\.\d+)?(?:\.\.\d+(?:\.\d+)?)? (in|ft|mm|cm|m|deg|mph|m\/s|km\/h|lb|kg|kV|%)(?![\w/])/g;
const DATE = /\d{4}-\d{2}-\d{2}/g;

const amount = fc.oneof(
  fc.constantFrom('0', '1', '0.001', '0.5', '1000000', '99999999999', '100', '50', '33.3', '-1', '-20'),
  fc.integer({ min: 0, max: 120 }).map(String),
  fc.integer({ min: 1, max: 4000 }).map(tenths => String(tenths / 10)),
);

/** Lengths may change their unit, the others keep it: a foreign one is a mistake of the notation. */
const unitLike = (unit: string) => {
  const { dimension } = unitOf(unit)!;
  return fc.constantFrom(...unitsFor(dimension).map(({ symbol }) => symbol));
};

const quantityLike = (unit: string, before: string): fc.Arbitrary<string> =>
  fc.oneof(
    fc.constant('unseen'),
    fc
      .tuple(fc.constantFrom('', '', '~', '> ', '< '), amount, unitLike(unit))
      .map(([mark, value, symbol]) => `${mark}${value} ${symbol}`),
    fc
      .tuple(amount, amount, unitLike(unit))
      .map(([a, b, symbol]) => `${[a, b].sort((x, y) => Number(x) - Number(y)).join('..')} ${symbol}`),
    fc
      .constantFrom(0.1, 10)
      .map(factor =>
        before.replace(/\d+(?:\.\d+)?/g, value => String(Number((Number(value) * factor).toPrecision(6)))),
      ),
  );

const way = fc.constantFrom(
  ...(['quantity', 'quantity', 'quantity', 'date', 'date', 'drop', 'double', 'move', 'borrow'] as const),
);

/** One change to the lines of a file. */
function change(lines: readonly string[], gen: fc.GeneratorValue): readonly string[] {
  const at = gen(fc.nat, { max: lines.length - 1 });
  const line = lines[at]!;
  switch (gen(() => way)) {
    case 'drop':
      return lines.length > 1 ? lines.toSpliced(at, 1) : lines;
    case 'double':
      return lines.toSpliced(at, 0, line);
    case 'move':
      return lines.toSpliced(at, 1).toSpliced(gen(fc.nat, { max: lines.length - 1 }), 0, line);
    case 'borrow':
      return lines.toSpliced(at, 0, gen(fc.constantFrom, ...LINES));
    case 'date':
      return replaceOne(lines, DATE, gen, () => formatDate(gen(() => day)));
    case 'quantity':
      return replaceOne(lines, QUANTITY, gen, ([before, unit]) => gen(quantityLike, unit!, before!));
  }
}

function replaceOne(
  lines: readonly string[],
  what: RegExp,
  gen: fc.GeneratorValue,
  by: (match: RegExpExecArray) => string,
): readonly string[] {
  const places = lines.flatMap((line, at) => [...line.matchAll(what)].map(match => ({ at, match })));
  if (places.length === 0) return lines;
  const { at, match } = gen(fc.constantFrom, ...places);
  const line = lines[at]!;
  const end = match.index + match[0].length;
  return lines.with(at, line.slice(0, match.index) + by(match) + line.slice(end));
}

/** Limits, seasons and severities that an office may ask for, the extremes among them. */
function practice(gen: fc.GeneratorValue): string {
  const chosen = gen(() => fc.subarray([...limits], { maxLength: 12 }));
  const severities = gen(() =>
    fc.subarray(
      RULES.map(({ name }) => name),
      { maxLength: 3 },
    ),
  );
  return [
    'practice "Odd limits"',
    ...chosen.flatMap(({ name, unit }) => {
      const value = gen(fc.constantFrom, '0', '0.01', '1', '7.5', '50', '100', '10000');
      return [`  limit ${name} ${value}${unit === '' ? '' : ` ${unit}`}`, '    because "as the owners wish"'];
    }),
    `  season nesting ${gen(fc.constantFrom, '02-01..08-31', '11-15..02-10', '01-01..12-31', '06-01..06-01')}`,
    '    because "seen here"',
    ...severities.flatMap(name => [
      `  severity ${name} ${gen(fc.constantFrom, 'note', 'warning', 'error', 'off')}`,
      '    because "weighed"',
    ]),
    '',
  ].join('\n');
}

/** What a camera may have written, sense and nonsense. */
const photoFile: fc.Arbitrary<PhotoFile> = fc.oneof(
  fc.constant<PhotoFile>({ state: 'missing' }),
  fc.constant<PhotoFile>({ state: 'unreadable', reason: 'cannot be read: permission denied' }),
  fc
    .record(
      {
        takenAt: day.map(number => `${formatDate(number)}T12:00:00`),
        latitude: fc.double({ min: -90, max: 90, noNaN: true }),
        longitude: fc.double({ min: -180, max: 180, noNaN: true }),
        imageWidth: fc.constantFrom(1, 640, 4000, 99999),
        imageHeight: fc.constantFrom(1, 480, 3000),
        focalLength35: fc.constantFrom(0.001, 0.024, 0.3, 65.535),
      },
      { requiredKeys: [] },
    )
    .map((record): PhotoFile => ({ state: 'read', record })),
);

export const inventory: fc.Arbitrary<Inventory> = fc.gen().map(gen => {
  const court = gen(fc.nat, { max: 4 }) === 0;
  const chosen = court
    ? COURT
    : [SHARED, ...gen(() => fc.subarray([...ERRORS], { minLength: 1, maxLength: 3 }))];
  const files = [...new Set(chosen)].map(({ path, text }) => {
    let lines: readonly string[] = text.split('\n');
    const changes = gen(fc.nat, { max: court ? 3 : 8 });
    for (let i = 0; i < changes; i++) lines = change(lines, gen);
    return { path, text: lines.join('\n') };
  });
  const practices = gen(fc.nat, { max: 2 });
  for (let i = 0; i < practices; i++) files.push({ path: `practice-${i}.wood`, text: practice(gen) });
  const named = files.flatMap(({ path, text }) => photoPaths(readFile(path, text)));
  return { files, photos: new Map(named.map(path => [path, gen(() => photoFile)])), today: gen(() => day) };
});
