/**
 * Guesses what the columns of a table mean, from their headings and the cells that were read ahead. A heading that is
 * all about one thing, over cells that fit, is taken; whatever is likely only is a question. Long because the meanings of
 * columns depend on each other: which one is taken for one thing is not free for another.
 */

import { type DateOrder, dateOrderIn } from '../practice/date-orders.ts';
import { isKnownGenus, isLatin } from './botanical.ts';
import { dayOrderOf, holdsDays } from './day-part.ts';
import { gridIn, gridNamed, isDegrees, isKnownGrid } from './grid.ts';
import { type HeadingMatch, matchHeading, unitIn } from './heading.ts';
import type { Language } from './headings.ts';
import { type Mapping, showMeaning } from './mapping.ts';
import { isDay, isSize, isWrittenMeaning, type Kind, type Meaning } from './meanings.ts';
import { canonical, writtenLine } from './notation.ts';
import { countriesAt, isPlausiblePlace } from './places.ts';
import { readPoint } from './point.ts';
import { writtenBeside } from './repeated-part.ts';
import { isNoValue, readSize } from './sizes.ts';
import { treesNamed } from './species-part.ts';
import { cellsOf, isExport, type Table } from './table.ts';
import { isFormerTag, type TagColumns, tagColumns } from './tag-columns.ts';
import { type System, type UnitChoice, unitsOf } from './units.ts';
import { apartBy, isDeadTree, isWordKind, meantBy } from './words.ts';

export interface GuessContext {
  /** ISO 3166 code of the place. */
  readonly region?: string | undefined;
  /** The grid of eastings and northings: `EPSG:2263`. */
  readonly grid?: string | undefined;
}

/** Something that only people who know the table can tell. */
export interface ColumnQuestion {
  readonly column: string;
  readonly asks: string;
  /** The likeliest first. */
  readonly choices: readonly Meaning[];
  /** Whether the column may stay a note without an answer. */
  readonly isOptional: boolean;
}

/** A name in the cells that means several trees. */
export interface NameQuestion {
  readonly column: string;
  readonly name: string;
  readonly choices: readonly string[];
}

export interface Guess {
  /** Unknown columns map to `note`; what is open is marked so. */
  readonly mapping: Mapping;
  readonly questions: readonly ColumnQuestion[];
  readonly names: readonly NameQuestion[];
  /** What was concluded and should be known. */
  readonly told: readonly string[];
  readonly tags: TagColumns;
  /** The column by which most rows stand for several trees. */
  readonly counted: string | undefined;
  /** Whether no column says anything of the trees themselves. */
  readonly saysNothing: boolean;
}

/** Countries that measure trees in inches and feet. */
const IMPERIAL: ReadonlySet<string> = new Set(['US', 'LR', 'MM']);

const share = (cells: readonly string[], fits: (cell: string) => boolean): number =>
  cells.length === 0 ? 1 : cells.filter(fits).length / cells.length;
const distinct = (cells: readonly string[]): readonly string[] => [...new Set(cells)];
const number = (cell: string): number => (cell === '' ? Number.NaN : Number(cell.replace(',', '.')));
const isNumber = (cell: string): boolean => Number.isFinite(number(cell));

interface Column {
  readonly index: number;
  readonly name: string;
  /** Not empty, and no code for "no value". */
  readonly filled: readonly string[];
  readonly match: HeadingMatch | undefined;
}

interface Candidate extends Column {
  readonly kind: Kind;
  readonly isWhole: boolean;
  /** How well the cells fit, from 0 to 1. */
  readonly fit: number;
}

/** How well cells fit a meaning; below a half they are something else. */
function fitOf(kind: Kind, { filled }: Column, context: GuessContext, hasGenus: boolean): number {
  const names = distinct(filled).filter(cell => apartBy(cell) === undefined && !isDeadTree(cell));
  if (isSize(kind)) return share(filled, cell => readSize(cell, sign(filled)).kind !== 'unreadable');
  if (isDay(kind)) return share(filled, holdsDays);
  // One word that tells of a tree that is gone is enough to read them all.
  if (kind === 'status') return filled.some(cell => meantBy(kind, cell) !== undefined) ? 1 : 0;
  if (isWordKind(kind)) return share(filled, cell => meantBy(kind, cell) !== undefined);
  if (isWrittenMeaning(kind))
    return share(distinct(filled), cell => canonical(writtenLine(kind, cell)) !== undefined) === 1 ? 1 : 0;
  switch (kind) {
    case 'species':
      if (hasGenus && names.length > 0 && names.every(isEpithet)) return 0;
      return Math.max(
        share(names, cell => isLatin(cell) || cell.split(/::|[()/;]| - /).some(isLatin)),
        // Names of everyday in such a column are read as elsewhere, but a column of botanical names is the better one.
        share(names, cell => treesNamed(cell, context.region).length > 0) * 0.9,
      );
    case 'genus':
      return Math.max(
        share(names, isKnownGenus),
        share(
          names,
          cell => /^[A-Z]?[a-zë]+$|^[A-Z]+$|^×/.test(cell) && treesNamed(cell, context.region).length === 0,
        ),
      );
    case 'epithet':
      return share(names, isEpithet);
    case 'common-name':
    case 'cultivar':
      return share(names, cell => /\p{L}{2}/u.test(cell));
    case 'name':
      return names.length >= filled.length * 0.9 ? 1 : 0;
    case 'latitude':
    case 'longitude':
      return share(filled, cell => isNumber(cell) && Math.abs(number(cell)) <= 180);
    case 'easting':
    case 'northing':
    case 'count':
      return share(filled, isNumber);
    case 'position':
      return share(filled, cell => readPoint(cell) !== undefined);
    default:
      return 1;
  }
}

const sign = (cells: readonly string[]) =>
  cells.some(cell => /\d,\d/.test(cell) && !/\d\.\d/.test(cell)) ? 'comma' : undefined;

/** `rubrum`, `x hispanica`, `RUBRUM`, `sp.` */
const isEpithet = (cell: string): boolean =>
  /^(?:[xX×] *)?[\p{Ll}-]+\.?(?:\s|$)/u.test(cell) ||
  /^(?:n\.? )?spp?\.?$/i.test(cell) ||
  (/^(?:[X×] *)?[\p{Lu}-]{3,}$/u.test(cell) && !isKnownGenus(cell.charAt(0) + cell.slice(1).toLowerCase()));

const hasFit = ({ fit }: Candidate): boolean => fit >= 0.5;

/** Meanings of which one column is as good as another, so that a second is no question. */
const SAID_TWICE: ReadonlySet<Kind> = new Set([
  'name',
  'species',
  'common-name',
  'genus',
  'epithet',
  'cultivar',
  'latitude',
  'longitude',
  'position',
  'easting',
  'northing',
  'planted',
  'felled',
  'count',
  'note',
]);

/** Meanings that are not worth a question: their column says the same as a note. */
const NOT_ASKED: ReadonlySet<Kind> = new Set([
  'name',
  'count',
  'note',
  'cultivar',
  'common-name',
  'inspected',
  'status',
  'latitude',
  'longitude',
  'easting',
  'northing',
]);

export function guessMapping(table: Table, context: GuessContext = {}): Guess {
  const columns = table.columns.map((name, index): Column => {
    const filled = cellsOf(table, index).filter(cell => !isNoValue(cell));
    return { name, index, filled, match: isFormerTag(name) ? undefined : matchHeading(name) };
  });
  const meanings = new Map<number, Meaning>();
  const questions: ColumnQuestion[] = [];
  const told: string[] = [];
  for (const { name, index } of columns) {
    if (isFormerTag(name)) meanings.set(index, { kind: 'formerly' });
    else if (writtenBeside(name).some(written => table.columns.includes(written)))
      meanings.set(index, { kind: 'repeated' });
  }
  const hasGenus = columns.some(({ match }) => match?.kind === 'genus' && match.whole);
  const byKind = new Map<Kind, Candidate[]>();
  for (const column of columns) {
    const { match, index } = column;
    if (!match || meanings.has(index)) continue;
    const add = (kind: Kind, isWhole = match.whole) => {
      const fit = isExport(table) && isWhole ? 1 : fitOf(kind, column, context, hasGenus);
      byKind.set(kind, [...(byKind.get(kind) ?? []), { ...column, kind, isWhole, fit }]);
    };
    if (match.kind === 'species' && hasGenus && column.filled.length > 0 && column.filled.every(isEpithet))
      add('epithet');
    else add(match.kind);
    // A name may be that of the kind of tree.
    if (match.kind === 'name' && match.whole && fitOf('species', column, context, hasGenus) >= 0.5)
      add('species', false);
  }

  const ask = (column: string, asks: string, choices: readonly Meaning[], isOptional = false) =>
    questions.push({ column, asks, choices, isOptional });
  const places = placeOf(columns, byKind, context);
  const system = systemOf(columns, context, places);

  for (const [kind, all] of byKind) {
    if (
      kind === 'easting' ||
      kind === 'northing' ||
      kind === 'latitude' ||
      kind === 'longitude' ||
      kind === 'position'
    )
      continue;
    const fitting = all.filter(hasFit).filter(({ index }) => !meanings.has(index));
    const whole = fitting.filter(({ isWhole }) => isWhole);
    const chosen = best(kind, whole);
    if (chosen) {
      if (kind === 'note') for (const { index } of whole) meanings.set(index, { kind });
      else if (kind === 'inspected' || kind === 'job')
        for (const { index } of whole.filter(isOfInspection)) meanings.set(index, { kind });
      else meanings.set(chosen.index, { kind });
      const rivals = SAID_TWICE.has(kind)
        ? []
        : whole.filter(one => one !== chosen && one.filled.length > 0 && !sameCells(table, one, chosen));
      if (
        rivals.length > 0 &&
        kind !== 'inspected' &&
        kind !== 'job' &&
        chosen.filled.length > 0 &&
        !chosen.match!.isInWords
      )
        ask(
          chosen.name,
          `${rivals.map(({ name }) => `"${name}"`).join(' and ')} may also be the ${wordsFor(kind)}; which column is it? The others become notes`,
          [{ kind }, { kind: 'note' }],
        );
      continue;
    }
    const [likely] = [...fitting].sort((a, b) => b.fit - a.fit);
    if (!likely || likely.filled.length === 0) continue;
    const isProven = kind === 'species' && likely.fit >= 0.8 && likely.match!.kind === 'species';
    if (isProven) meanings.set(likely.index, { kind });
    else if (kind === 'species' || !NOT_ASKED.has(kind)) {
      meanings.set(likely.index, { kind });
      ask(likely.name, `its heading may mean the ${wordsFor(kind)} of the tree, or something else`, [
        { kind },
        { kind: 'note' },
      ]);
    }
  }

  setPosition(table, columns, byKind, meanings, context, ask, told);
  setUnheaded(table, columns, meanings, context, ask);
  setSizes(table, meanings, questions, system, told);
  setDays(table, columns, meanings, context, places, ask);

  const tags = tagColumns(
    table,
    index => !meanings.has(index) && (columns[index]!.match === undefined || !columns[index]!.match!.whole),
  );
  const mapping = new Map<string, Meaning>();
  const open = new Set(questions.filter(({ isOptional }) => !isOptional).map(({ column }) => column));
  for (const { name, index } of columns) {
    const meaning =
      name === tags.taken ? { kind: 'tag' as const } : (meanings.get(index) ?? { kind: 'note' as const });
    mapping.set(name, open.has(name) ? { ...meaning, isOpen: true } : meaning);
  }
  const kinds = [...meanings.values()].map(({ kind }) => kind);
  return {
    mapping,
    questions,
    names: nameQuestions(table, mapping, context.region ?? (places.length === 1 ? places[0] : undefined)),
    told,
    tags,
    counted: columns.find(
      ({ index, filled }) =>
        meanings.get(index)?.kind === 'count' &&
        share(filled, cell => number(cell) > 1) > 0.5 &&
        filled.length > 0,
    )?.name,
    saysNothing:
      [...mapping.values()].some(({ kind }) => kind === 'note') &&
      !kinds.some(kind => kind !== 'note' && kind !== 'name' && kind !== 'repeated' && kind !== 'formerly'),
  };
}

/** `Survey date` is the day of a list, not of an inspection of each tree. */
const isOfInspection = ({ kind, name }: Candidate): boolean =>
  kind !== 'inspected' || !/inven|survey|collect|erfass|aufnahme|rilievo|releve|mesure/i.test(name);

const WORDS_FOR: Partial<Readonly<Record<Kind, string>>> = {
  dbh: 'diameter at breast height',
  girth: 'circumference at breast height',
  crown: 'crown spread',
  'crown-radius': 'crown radius',
  'crown-base': 'height of the crown base',
  vigor: 'vigor (good, fair, poor, dead)',
  age: 'life stage',
  planted: 'day of planting',
  felled: 'day of felling',
  inspected: 'day of an inspection',
  job: 'work to be done',
};
const wordsFor = (kind: Kind): string => WORDS_FOR[kind] ?? kind;

/** The best of the columns with a whole heading: in words rather than in codes, with the cells that fit best. */
const best = (_kind: Kind, whole: readonly Candidate[]): Candidate | undefined =>
  [...whole].sort(
    (a, b) =>
      Number(b.match!.isInWords) - Number(a.match!.isInWords) ||
      Number(b.filled.length > 0) - Number(a.filled.length > 0) ||
      b.fit - a.fit ||
      b.match!.words - a.match!.words ||
      a.index - b.index,
  )[0];

const sameCells = (table: Table, a: Column, b: Column): boolean =>
  table.rows.every(({ cells }) => (cells[a.index] ?? '') === (cells[b.index] ?? ''));

const LANGUAGES_OF_METRES: ReadonlySet<Language> = new Set(['de', 'fr', 'es', 'it', 'nl', 'pt']);

/** How trees are measured where the table is from; undefined where nothing tells. */
function systemOf(
  columns: readonly Column[],
  { region }: GuessContext,
  places: readonly string[],
): System | undefined {
  const country = region?.split('-')[0];
  if (country !== undefined) return IMPERIAL.has(country) ? 'imperial' : 'metric';
  const languages = columns.flatMap(({ match }) =>
    match?.whole && match.kind !== 'note' ? [match.language] : [],
  );
  if (languages.some(language => LANGUAGES_OF_METRES.has(language)) && !places.includes('US'))
    return 'metric';
  if (places.length === 0) return undefined;
  if (!places.some(place => IMPERIAL.has(place))) return 'metric';
  return places.length === 1 ? 'imperial' : undefined;
}

/** Countries that have the middle tree, by its position. */
function placeOf(
  columns: readonly Column[],
  byKind: ReadonlyMap<Kind, readonly Candidate[]>,
  { region }: GuessContext,
): readonly string[] {
  if (region !== undefined) return [region.split('-')[0]!];
  const numbersOf = (kind: Kind) =>
    byKind
      .get(kind)
      ?.find(one => one.isWhole && hasFit(one))
      ?.filled.map(number);
  const middle = (values: readonly number[]) =>
    [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
  const [north, east] = [middle(numbersOf('latitude') ?? []), middle(numbersOf('longitude') ?? [])];
  if (north !== undefined && east !== undefined) return countriesAt(north, east);
  const points = columns.flatMap(({ filled }) => {
    const [cell] = filled;
    const point = cell === undefined || isNumber(cell) ? undefined : readPoint(cell);
    return point ? [point] : [];
  });
  const [point] = points;
  if (!point || (point.crs !== undefined && !isDegrees(point.crs))) return [];
  const [first, second] = [Number(point.first), Number(point.second)];
  if (point.order === 'longitude-first') return countriesAt(second, first);
  const straight = countriesAt(first, second);
  const turned = countriesAt(second, first);
  return turned.length === 0 ? straight : straight.length === 0 ? turned : [];
}

type Ask = (column: string, asks: string, choices: readonly Meaning[], isOptional?: boolean) => void;

/** Where the trees stand: two columns of degrees, one with both, or two of a grid. */
function setPosition(
  table: Table,
  columns: readonly Column[],
  byKind: ReadonlyMap<Kind, readonly Candidate[]>,
  meanings: Map<number, Meaning>,
  { region, grid }: GuessContext,
  ask: Ask,
  told: string[],
): void {
  const first = (kind: Kind) =>
    byKind.get(kind)?.find(one => one.isWhole && hasFit(one) && one.filled.length > 0);
  const set = (latitude: Column, longitude: Column) => {
    meanings.set(latitude.index, { kind: 'latitude' });
    meanings.set(longitude.index, { kind: 'longitude' });
  };
  const pairs = (one: Column, other: Column) =>
    table.rows.flatMap(({ cells }) => {
      const [a, b] = [number(cells[one.index] ?? ''), number(cells[other.index] ?? '')];
      return Number.isFinite(a) && Number.isFinite(b) && (a !== 0 || b !== 0) ? [[a, b] as const] : [];
    });
  const most = (points: readonly (readonly [number, number])[], fits: (a: number, b: number) => boolean) =>
    points.length > 0 && points.filter(([a, b]) => fits(a, b)).length >= points.length * 0.8;
  const place = (a: number, b: number) => isPlausiblePlace(a, b, region);
  const turned = (a: number, b: number) => place(b, a);
  const north = first('latitude') ?? byKind.get('latitude')?.find(({ isWhole }) => isWhole);
  const east = first('longitude') ?? byKind.get('longitude')?.find(({ isWhole }) => isWhole);
  if (north && east) {
    const points = pairs(north, east);
    const isTurned = most(points, turned) && !most(points, place);
    if (isTurned && most(points, a => Math.abs(a) > 90)) {
      set(east, north);
      told.push(`"${north.name}" has longitudes and "${east.name}" latitudes: they are read that way.`);
    } else set(north, east);
    if (isTurned && points.length >= 3 && points.every(([a]) => Math.abs(a) <= 90))
      ask(
        north.name,
        `with "${east.name}" it gives places outside the country, and the other way around it does not`,
        [{ kind: 'latitude' }, { kind: 'longitude' }],
      );
    return;
  }
  // One half alone makes no position; it is left over with the reason.
  if (north) meanings.set(north.index, { kind: 'latitude' });
  if (east) meanings.set(east.index, { kind: 'longitude' });

  const points = byKind.get('position')?.filter(one => hasFit(one) && one.filled.length > 0) ?? [];
  const headless = columns.filter(
    ({ index, match, filled }) =>
      !match &&
      !meanings.has(index) &&
      filled.length > 0 &&
      filled.every(cell => readPoint(cell)?.order !== undefined),
  );
  const point = points.find(({ isWhole }) => isWhole) ?? points[0] ?? headless[0];
  if (point) {
    const read = point.filled.flatMap(cell => readPoint(cell) ?? []);
    const onGrid = read.some(one => one.crs === undefined && Math.abs(Number(one.first)) > 180);
    const numbers = read
      .filter(one => one.order === undefined && one.crs === undefined)
      .map(one => [Number(one.first), Number(one.second)] as const);
    const straight = most(numbers, place);
    const reversed = most(numbers, turned);
    if (onGrid) {
      const crs = gridOf(table, point.name, grid);
      const isKnown = crs !== undefined && isKnownGrid(crs);
      meanings.set(point.index, isKnown ? { kind: 'position', crs } : { kind: 'note' });
      if (isKnown) told.push(`"${point.name}" is read on the grid ${crs}.`);
      else ask(point.name, GRID_ASKED, [{ kind: 'note' }], true);
    } else if (numbers.length === 0) meanings.set(point.index, { kind: 'position' });
    else if (numbers.some(([a]) => Math.abs(a) > 90) || (reversed && !straight))
      meanings.set(point.index, { kind: 'position', order: 'longitude-first' });
    else if (numbers.some(([, b]) => Math.abs(b) > 90) || (straight && !reversed))
      meanings.set(point.index, { kind: 'position' });
    else {
      const orders: readonly Meaning[] = [
        { kind: 'position', order: 'latitude-first' },
        { kind: 'position', order: 'longitude-first' },
        { kind: 'note' },
      ];
      meanings.set(point.index, orders[0]!);
      ask(point.name, `either of its numbers may be the latitude, as in ${point.filled[0]}`, orders);
    }
    return;
  }

  const x = pairOf(byKind.get('easting'), byKind.get('northing'));
  if (!x || north || east) return;
  const [easting, northing] = x;
  const values = pairs(easting, northing);
  if (most(values, (a, b) => Math.abs(a) <= 180 && Math.abs(b) <= 90)) {
    if (most(values, turned)) set(northing, easting);
    else if (most(values, place)) {
      set(easting, northing);
      told.push(`"${easting.name}" has latitudes and "${northing.name}" longitudes: they are read that way.`);
    }
    return;
  }
  const crs = gridOf(table, `${easting.name} ${northing.name}`, grid);
  if (crs !== undefined && isKnownGrid(crs)) {
    meanings.set(easting.index, { kind: 'easting', crs });
    meanings.set(northing.index, { kind: 'northing', crs });
    told.push(`"${easting.name}" and "${northing.name}" are read on the grid ${crs}.`);
  } else if (values.length > 0) ask(easting.name, GRID_ASKED, [{ kind: 'note' }], true);
}

const GRID_ASKED =
  'it has coordinates on a grid that the table does not name; pass its code, such as --crs EPSG:25833, to read them as positions';

/** The first easting that has a northing by the same pattern of heading, else the first of each. */
function pairOf(
  eastings: readonly Candidate[] | undefined,
  northings: readonly Candidate[] | undefined,
): readonly [Candidate, Candidate] | undefined {
  const usable = (all: readonly Candidate[] | undefined) =>
    all?.filter(one => one.isWhole && hasFit(one) && one.filled.length > 0) ?? [];
  const [xs, ys] = [usable(eastings), usable(northings)];
  const bare = (name: string) => name.toLowerCase().replace(/[xy]|east|north|ing|e\b|n\b/g, '');
  const pair = xs.flatMap(x => ys.filter(y => bare(x.name) === bare(y.name)).map(y => [x, y] as const))[0];
  return pair ?? (xs[0] && ys[0] ? [xs[0], ys[0]] : undefined);
}

/** The grid as somebody says, or as headings, the lines above them or a column name it. */
function gridOf(table: Table, headings: string, given: string | undefined): string | undefined {
  if (given !== undefined) return given;
  const named = gridIn(headings) ?? gridNamed(headings) ?? gridIn(table.above.join(' '));
  if (named !== undefined) return named;
  const column = table.columns.findIndex(name => /^(?:epsg|srid|crs|srs)(?:[ _]?code)?$/i.test(name));
  if (column < 0) return undefined;
  const codes = distinct(cellsOf(table, column).filter(cell => cell !== ''));
  return codes.length === 1 ? (gridIn(codes[0]!) ?? gridIn(`EPSG:${codes[0]}`)) : undefined;
}

/** Botanical names under a heading that does not say so. */
function setUnheaded(
  table: Table,
  columns: readonly Column[],
  meanings: Map<number, Meaning>,
  { region }: GuessContext,
  ask: Ask,
): void {
  const kinds = [...meanings.values()].map(({ kind }) => kind);
  if (
    table.rows.length < 3 ||
    kinds.includes('species') ||
    kinds.includes('genus') ||
    kinds.includes('common-name')
  )
    return;
  const free = columns.filter(({ index, filled }) => !meanings.has(index) && filled.length > 0);
  const latin = free.find(
    ({ filled }) =>
      share(distinct(filled), isLatin) >= 0.8 &&
      share(distinct(filled), cell => isKnownGenus(cell.split(' ')[0]!)) >= 0.5,
  );
  if (latin) {
    meanings.set(latin.index, { kind: 'species' });
    ask(latin.name, 'its cells look like botanical names', [{ kind: 'species' }, { kind: 'note' }]);
    return;
  }
  const common = free.find(
    ({ filled }) => share(distinct(filled), cell => treesNamed(cell, region).length > 0) >= 0.5,
  );
  if (!common) return;
  meanings.set(common.index, { kind: 'common-name' });
  ask(common.name, 'its cells look like names of trees', [{ kind: 'common-name' }, { kind: 'note' }]);
}

function setSizes(
  table: Table,
  meanings: Map<number, Meaning>,
  questions: ColumnQuestion[],
  system: System | undefined,
  told: string[],
): void {
  const sizes = [...meanings].flatMap(([index, { kind }]) =>
    isSize(kind) ? [{ index, kind, stated: unitIn(table.columns[index]!) }] : [],
  );
  const units = unitsOf(table, sizes, system);
  for (const { index, kind } of sizes) {
    const { unit, doubt, others, told: concluded } = units.get(index)!;
    const column = table.columns[index]!;
    const meaning: Meaning = { kind, unit };
    const at = questions.findIndex(question => question.column === column);
    // What the values make impossible is not proposed.
    const choices =
      doubt === undefined ? [meaning, { kind: 'note' } as const] : choicesOf(meaning, others, doubt);
    meanings.set(index, choices[0]!.kind === 'note' ? meaning : choices[0]!);
    if (at >= 0) questions[at] = { ...questions[at]!, choices: choicesOf(meaning, others, doubt) };
    else if (doubt !== undefined)
      questions.push({ column, asks: `as ${wordsFor(kind)}, ${doubt}`, choices, isOptional: false });
    else if (concluded !== undefined) told.push(`Column "${column}" ${concluded}.`);
  }
}

const MOST_CHOICES = 5;
function choicesOf(
  meaning: Meaning,
  others: readonly UnitChoice[],
  doubt: string | undefined,
): readonly Meaning[] {
  const isImpossible = doubt?.includes('usual tree') ?? false;
  const all: readonly Meaning[] = isImpossible
    ? [...others.slice(0, 3), meaning, ...others.slice(3)]
    : [meaning, ...others];
  return [...all.slice(0, MOST_CHOICES), { kind: 'note' }];
}

/** The order of the numbers in days. */
function setDays(
  table: Table,
  columns: readonly Column[],
  meanings: Map<number, Meaning>,
  { region }: GuessContext,
  places: readonly string[],
  ask: Ask,
): void {
  for (const [index, meaning] of meanings) {
    if (!isDay(meaning.kind)) continue;
    const { name, filled } = columns[index]!;
    const order = dayOrderOf(filled);
    if (order === 'none' || order === 'mixed') continue;
    const ofPlace: DateOrder | undefined = dateOrderIn(region) ?? onlyOrder(places);
    const days = order ?? ofPlace ?? onlyOrderIn(table, columns);
    if (days !== undefined && days !== 'year first') meanings.set(index, { ...meaning, days });
    else
      ask(
        name,
        `its days may begin with the day or the month, as in ${filled.find(cell => /^\d{1,2}[/.-]/.test(cell))}`,
        [
          { kind: meaning.kind, days: 'day first' },
          { kind: meaning.kind, days: 'month first' },
          { kind: 'note' },
        ],
      );
  }
}

function onlyOrder(places: readonly string[]): DateOrder | undefined {
  const orders = new Set(places.map(dateOrderIn));
  return orders.size === 1 ? [...orders][0] : undefined;
}

/** The order of another column of days in the table. */
function onlyOrderIn(_table: Table, columns: readonly Column[]): DateOrder | undefined {
  const orders = new Set(
    columns.flatMap(({ filled }) => {
      const order = filled.length > 0 && filled.every(holdsDays) ? dayOrderOf(filled) : undefined;
      return order === 'day first' || order === 'month first' ? [order] : [];
    }),
  );
  return orders.size === 1 ? [...orders][0] : undefined;
}

const MOST_NAMES = 12;

/** Names that mean several trees, where nothing else names the tree. */
function nameQuestions(table: Table, mapping: Mapping, region: string | undefined): readonly NameQuestion[] {
  const kinds = [...mapping.values()].map(({ kind }) => kind);
  const kind = kinds.includes('species') ? 'species' : kinds.includes('genus') ? undefined : 'common-name';
  const column = table.columns.find(name => mapping.get(name)?.kind === kind);
  if (kind === undefined || column === undefined) return [];
  const names = distinct(cellsOf(table, table.columns.indexOf(column)).filter(cell => !isNoValue(cell)));
  return names
    .flatMap(name => {
      if (isLatin(name) && treesNamed(name, region).length < 2) return [];
      const choices = treesNamed(name, region);
      return choices.length > 1 ? [{ column, name, choices }] : [];
    })
    .slice(0, MOST_NAMES);
}

/** What is asked of a column, in one line. */
export const questionWords = ({ column, asks, choices }: ColumnQuestion): string =>
  `Column "${column}": ${asks}. Meanings: ${choices.map(choice => `"${showMeaning(choice)}"`).join(', ')}.`;
