/**
 * Finds the column with the tags, the number or word by which a tree is known on the ground. Headings vary
 * (`Tree #`, `N°`, `Baum-Nr`, `OBJECTID`) and can be misleading, so the cells are examined as well. A wrong guess
 * ends in work on the wrong tree, so anything unclear is reported or left to the user.
 */

import { quoted } from '../base/words.ts';
import { isNoValue } from './sizes.ts';
import { cellsOf, type Table } from './table.ts';
import { tagIn } from './tags.ts';

export interface TagColumns {
  /** The column used as the tag. */
  readonly taken: string | undefined;
  /** Other candidates, the most likely first. */
  readonly others: readonly string[];
  /** Whether the user should confirm the choice. */
  readonly doubtful: boolean;
  /** A sentence on what to check. */
  readonly warning: string | undefined;
  /** A sentence where the choice is clear but the heading is not a plain word for a tag. */
  readonly note: string | undefined;
}

/** Words without accents, in the languages of common inventories. */
const words = (text: string): ReadonlySet<string> => new Set(text.split(/\s+/));
const LABEL = words(
  'tag tags label plate plaque disc disk badge marker etikett etiquette etiqueta etichetta plakette marke',
);
const TREE = words(
  't tree trees plant plants asset inventory inv baum baume arbre arbol albero arvore boom trad trae tre drzewo strom puu item',
);
const NUMBER = words(
  'number numbers no nr num nbr nmbr nummer numero numer nro num id ids ident identifier code ref reference nos codigo codice codi kennung kennzeichen matricola registro',
);
/** Keys and row numbers of a database, which are rarely on the tree itself. */
const KEY = words(
  'objectid oid fid gid uid uuid guid globalid rowid object feature record row line unique global key index pk serial sr sl s',
);
const FILLER = words(
  'of the a an and or field physical metal current present new own local official on in de des du del d l la le el der die das',
);
const FORMER = words(
  'old former formerly previous prev prior earlier legacy alias alt alte alter ancien ancienne antiguo vecchio oud',
);

const KNOWN = [LABEL, TREE, NUMBER, KEY, FILLER, FORMER];
const isKnown = (word: string): boolean => KNOWN.some(set => set.has(word)) || /^\d+$/.test(word);
/** `Number of trees` is a count. */
const COUNTED = words('trees plants tags labels items');

/** The words of a heading; `TreeID`, `TREENO` and `baumnummer` are two words each. */
function headingWords(heading: string): readonly string[] {
  const plain = heading
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .toLowerCase()
    .replace(/[#№]|(?<!\p{L})n\.?[°º]/gu, ' number ')
    .normalize('NFD')
    .replace(/\p{M}/gu, '');
  return plain
    .split(/[^\p{L}\p{N}]+/u)
    .filter(word => word !== '')
    .flatMap(splitCompound);
}

/** Splits an unknown compound into two known words. */
function splitCompound(word: string): readonly string[] {
  if (isKnown(word)) return [word];
  for (let at = word.length - 1; at > 1; at--) {
    const [first, second] = [word.slice(0, at), word.slice(at)];
    // German compounds may have a linking letter: Plakettennummer.
    const whole = [first, first.replace(/[ns]$/, '')].find(
      part => TREE.has(part) || LABEL.has(part) || KEY.has(part),
    );
    if (whole !== undefined && (NUMBER.has(second) || LABEL.has(second))) return [whole, second];
  }
  return [word];
}

/** Rank of a heading: 4 label, 3 tree number, 2 number, 1 tree, 0 key; undefined for others. */
function rankOf(heading: string): number | undefined {
  const all = headingWords(heading);
  const has = (set: ReadonlySet<string>) => all.some(word => set.has(word));
  const first = (set: ReadonlySet<string>) => all.findIndex(word => set.has(word));
  if (has(FORMER) || (has(NUMBER) && has(COUNTED) && first(NUMBER) < first(COUNTED))) return undefined;
  // `Parks tree no` is a tree number; `plot no` is not.
  const pair = all.some((word, i) => (TREE.has(word) || LABEL.has(word)) && NUMBER.has(all[i + 1] ?? ''));
  const unknown = all.filter(word => !isKnown(word)).length;
  if (all.length === 0 || unknown > (pair ? all.length / 2 : 0)) return undefined;
  if (has(LABEL)) return 4;
  if (has(KEY)) return 0;
  if (has(TREE)) return has(NUMBER) ? 3 : 1;
  return has(NUMBER) ? 2 : undefined;
}

/** Whether a heading is for former tags. */
export function isFormerTag(heading: string): boolean {
  const all = headingWords(heading);
  return all.some(word => FORMER.has(word)) && all.every(isKnown);
}

interface Candidate {
  readonly column: string;
  readonly rank: number;
  readonly rows: number;
  /** Numbers of rows without a tag, and of rows that repeat another. */
  readonly missing: number;
  readonly repeated: number;
  /** Whether all tags contain a number, or, for ranks 0 and 1, consist of one. */
  readonly numbered: boolean;
}

/** `12`, `T-014`, `A 9`, `12b`; not a measure or a word. */
const NUMBERED = /^#? ?\p{L}{0,8}[-. _/]?\d{1,12}\p{L}?$/u;

function candidateOf(table: Table, index: number, rank: number): Candidate {
  const cells = cellsOf(table, index);
  const tags = cells.filter(cell => !isNoValue(cell));
  const names = tags.flatMap(cell => tagIn(cell) ?? []);
  const shape = rank > 1 ? /\d/ : NUMBERED;
  return {
    column: table.columns[index]!,
    rank,
    rows: cells.length,
    missing: cells.length - names.length,
    repeated: names.length - new Set(names).size,
    numbered: tags.every(cell => shape.test(cell)),
  };
}

const isWhole = ({ missing, repeated, numbered, rank }: Candidate): boolean =>
  missing === 0 && repeated === 0 && (numbered || rank > 2);

/** Whether most rows have a unique tag, so that a typing error does not rule a column out, nor a stem count pass. */
function isPlausible(one: Candidate): boolean {
  const { rank, rows, missing, repeated, numbered } = one;
  if (rank <= 1) return isWhole(one);
  return rows === 0 || (missing * 2 < rows && repeated * 2 < rows - missing && (numbered || rank > 2));
}

/** Headings of numbers that are never tags. */
const OTHER_NUMBERS =
  /^(?:[xyzen]|lat|lon.*)$|east|north|coord|year|date|zip|post|phone|stem|count|price|cost|value|height|hoehe|höhe|haut|altura|altezza|hoogte|diam|girth|umfang|circ|width|spread|condition|rating|class|level|range/i;

/**
 * Finds the tag column by headings and cells.
 * @param free whether a column has no other meaning
 */
export function tagColumns(table: Table, free: (index: number) => boolean): TagColumns {
  const indices = table.columns.map((_, index) => index).filter(free);
  const named = indices
    .flatMap(index => {
      const rank = rankOf(table.columns[index]!);
      return rank === undefined ? [] : [candidateOf(table, index, rank)];
    })
    .sort((a, b) => b.rank - a.rank || Number(isWhole(b)) - Number(isWhole(a)));
  const fitting = named.filter(isPlausible);
  const [best] = fitting;
  if (!best)
    return noneTaken([
      ...named.filter(({ missing, rows }) => missing < rows),
      ...unnamed(table, indices, named),
    ]);
  // A database key next to a tree number is not a rival; a label that few trees have is.
  const rivals = named.filter(
    one =>
      one !== best &&
      ((one.rank > 0 && fitting.includes(one)) || (one.rank > best.rank && one.missing < one.rows)),
  );
  const isPlain = isWhole(best) || best.rank > 2;
  const warning = warningOf(best, rivals, isPlain);
  return {
    taken: best.column,
    others: rivals.map(({ column }) => column),
    doubtful: rivals.length > 0 || !isPlain,
    warning,
    note: warning === undefined && !isPlainHeading(best.column) ? `${takenWords(best)}.` : undefined,
  };
}

/** Columns without a tag heading whose cells are all different numbers, in enough rows not to be chance. */
function unnamed(
  table: Table,
  indices: readonly number[],
  named: readonly Candidate[],
): readonly Candidate[] {
  if (table.rows.length < 3) return [];
  return indices
    .filter(index => !named.some(({ column }) => column === table.columns[index]))
    .filter(index => !OTHER_NUMBERS.test(table.columns[index]!))
    .filter(index => cellsOf(table, index).every(cell => NUMBERED.test(cell)))
    .map(index => candidateOf(table, index, 1))
    .filter(isPlausible);
}

const listed = (columns: readonly string[]): string => columns.map(quoted).join(', ');
const option = (column: string): string => `--tag ${quoted(column)}`;

/** Why a column is doubtful, in words. */
function faultsOf({ missing, repeated, numbered, rank, rows }: Candidate): string {
  const faults = [
    ...(missing > 0 ? [`${missing} of ${rows} rows have none`] : []),
    ...(repeated > 0 ? [`${repeated} of ${rows} rows repeat another`] : []),
    ...(rank <= 2 && !numbered ? ['not all of them are numbers'] : []),
  ];
  return faults.join(', ');
}

/** Headings that are unambiguous in a tree inventory. */
const PLAIN = /^(?:tree )?(?:tag|id|no|nr|number|ref|reference|label)$|^tag (?:no|nr|number)$/;
const isPlainHeading = (column: string): boolean =>
  PLAIN.test(
    column
      .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
      .toLowerCase()
      .replace(/[^\p{L}\p{N}#№°º]+/gu, ' ')
      .trim(),
  );

const takenWords = ({ column }: Candidate): string => `Column ${quoted(column)} is read as the tag`;

function warningOf(best: Candidate, rivals: readonly Candidate[], isPlain: boolean): string | undefined {
  const taken = takenWords(best);
  if (rivals.length > 0) {
    const others = rivals.map(rival => rival.column);
    return `${taken}; ${listed(others)} may also be it, and ${others.length === 1 ? 'becomes a note' : 'become notes'}. Pass ${option(others[0]!)} if those are the tags.`;
  }
  if (!isPlain)
    return `${taken}, though ${faultsOf(best)}. Pass --no-tag if it is something else, to assign new tags.`;
  return best.rank < 3 && !isPlainHeading(best.column)
    ? `${taken}: each of its values is unique. Pass --no-tag if those are not the tags.`
    : undefined;
}

function noneTaken(candidates: readonly Candidate[]): TagColumns {
  const others = candidates.map(({ column }) => column);
  const reasons = candidates.map(one => {
    const faults = faultsOf(one);
    return faults === '' ? quoted(one.column) : `${quoted(one.column)} (${faults})`;
  });
  return {
    taken: undefined,
    others,
    doubtful: others.length > 0,
    note: undefined,
    warning:
      others.length === 0
        ? undefined
        : `No column is read as the tag; ${reasons.join(', ')} may be it. Pass ${option(others[0]!)} if those are the tags, --no-tag if there are none.`,
  };
}
