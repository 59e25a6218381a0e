/** The species of a tree: in one column or several, by botanical or common name. */

import { quoted } from '../base/words.ts';
import { treesCalled } from '../practice/common-names.ts';
import { lookupGenus } from '../practice/species.ts';
import { botanicalName, isLatin, mayBeLatin } from './botanical.ts';
import { leave, type PartReader, type Refused, type TableColumn, type TreeDraft, textOf } from './draft.ts';
import { canonical } from './notation.ts';
import { notesOf } from './note-part.ts';
import { isNoValue } from './sizes.ts';
import { memoized, oneLine } from './text.ts';
import { apartBy, isDeadTree } from './words.ts';

/** Separators between a botanical and a common name in one cell. */
const BETWEEN_NAMES = /\s*(?:::|[()[\];|/:]| [-–] )\s*/;

/** `maple, red` → `red maple`. */
const inOrder = (name: string): string => name.replace(/^([^,]+),\s*([^,]+)$/, '$2 $1');

/** Trees that a common name can mean; the kind alone of `maple, Norway` if the whole is not known. */
export const treesNamed = (name: string, region: string | undefined): readonly string[] => {
  const found = treesCalled(inOrder(name), region);
  return found.length > 0 ? found : treesCalled(name, region);
};

/** Of several names in one cell: the one with a known genus, else the first that looks Latin. */
function latinPart(cell: string): string | undefined {
  const parts = cell.split(BETWEEN_NAMES).filter(part => part !== '');
  // One word of several is a genus only where it is known: it may be an author.
  const read = parts.filter(part => isLatin(part) && (part.includes(' ') || lookupGenus(part) !== undefined));
  return read.find(part => lookupGenus(botanicalName(part)!.genus) !== undefined) ?? read[0];
}

const line = (name: string, comment = ''): string | undefined => canonical(`species ${name}${comment}`);

/** What is known of the names of a table. */
export interface NamesOf {
  /** ISO 3166 code of the place. */
  readonly region: string | undefined;
  /** Whether most names of the species are botanical ones. */
  readonly isLatin: boolean;
  /** Whether the table is an export, whose names are in the notation. */
  readonly isExport: boolean;
}

interface NamesContext extends NamesOf {
  /** What somebody said that a name means. */
  readonly values: ReadonlyMap<string, string> | undefined;
}

/** The species line of a cell, with the whole cell as a comment where it says more than the name. */
function speciesLine(
  cell: string,
  { region, isExport, isLatin: areLatin, values }: NamesContext,
): string | Refused {
  const own = isExport ? line(cell) : undefined;
  if (own !== undefined) return own;
  const comment = ` # ${oneLine(cell)}`;
  const said = values?.get(cell);
  if (said !== undefined)
    return line(said, comment) ?? { refused: `the mapping calls it ${said}, which is not a botanical name` };
  const whole = botanicalName(cell);
  if (whole && (areLatin ? mayBeLatin(cell) : isLatin(cell)))
    return line(whole.name, whole.isWhole ? '' : comment)!;
  const part = latinPart(cell);
  if (part !== undefined) return line(botanicalName(part)!.name, comment)!;
  const called = treesNamed(cell, region);
  if (called.length === 1) return line(called[0]!, comment)!;
  if (called.length > 1) return { refused: `it can mean ${called.join(' or ')}` };
  const others = cell.split(BETWEEN_NAMES).filter(name => name !== '' && name !== cell);
  const found = others.flatMap(name => {
    const meant = treesNamed(name, region);
    return meant.length === 1 ? meant : [];
  })[0];
  return found === undefined ? { refused: 'it is not a botanical name' } : line(found, comment)!;
}

const UNKNOWN_EPITHET = /^(?:n\.? ?)?spp?\.?$/i;

/** The botanical name from separate columns for genus, epithet and cultivar. */
function joinedName(genus: string, epithet: string, cultivar: string): string {
  const bare = cultivar.replace(/^['‘’"]+|['‘’"]+$/g, '');
  // The second column may hold the whole name.
  const isWhole = epithet.toLowerCase().startsWith(`${genus.toLowerCase()} `);
  return [
    isWhole ? '' : genus,
    UNKNOWN_EPITHET.test(epithet) ? 'sp.' : epithet,
    bare === '' ? '' : `'${bare}'`,
  ]
    .filter(part => part !== '')
    .join(' ');
}

export interface SpeciesColumns {
  readonly species: TableColumn | undefined;
  readonly genus: TableColumn | undefined;
  readonly epithet: TableColumn | undefined;
  readonly cultivar: TableColumn | undefined;
  readonly common: TableColumn | undefined;
}

export function speciesPart(
  { species, genus, epithet, cultivar, common }: SpeciesColumns,
  names: NamesOf,
): PartReader {
  const { region } = names;
  const values = species?.meaning.values;
  const read = memoized((cell: string) => speciesLine(cell, { ...names, values }));
  const saidCommon = common?.meaning.values;
  const fromCommon = memoized((name: string) => {
    const said = saidCommon?.get(name);
    const botanical = said === undefined ? treesNamed(name, region) : [said];
    return botanical.length === 1 ? (line(botanical[0]!, ' # from the common name') ?? '') : '';
  });

  /** Writes the species line; returns whether there was one. */
  const write = (
    name: string,
    columns: readonly (TableColumn | undefined)[],
    cells: readonly string[],
    draft: TreeDraft,
  ): boolean => {
    const found = read(name);
    if (typeof found === 'string') {
      draft.facts += `${found}\n`;
      return true;
    }
    for (const column of columns) {
      const cell = textOf(cells, column);
      if (column && !isNoValue(cell)) leave(draft, column, cell, found.refused);
    }
    return false;
  };

  /** The cell, unless it is empty or a code for "no value". */
  const filled = (column: TableColumn | undefined, cells: readonly string[], draft: TreeDraft): string => {
    const cell = textOf(cells, column);
    if (column && isDeadTree(cell)) {
      draft.isDead = true;
      draft.facts += notesOf(column.name, cell);
      return '';
    }
    if (!column || !isNoValue(cell)) return cell;
    if (cell !== '') leave(draft, column, cell, 'it means that there is no value');
    else if (column !== cultivar) draft.empty.push(column.name);
    return '';
  };

  return (cells, draft) => {
    const whole = filled(species, cells, draft);
    const [first = '', second = '', third = ''] = [genus, epithet, cultivar].map(column =>
      filled(column, cells, draft),
    );
    let stated = false;
    if (whole !== '') {
      stated = write(joinedName(whole, '', third), [species!, cultivar], cells, draft);
      if (first !== '' && !whole.startsWith(first)) draft.facts += notesOf(genus!.name, first);
      if (second !== '') draft.facts += notesOf(epithet!.name, second);
    } else if (first + second + third !== '') {
      // Without its genus an epithet names no tree, unless its column has whole names.
      const name = first === '' && !/^[\p{Lu}×]/u.test(second) ? '' : joinedName(first, second, third);
      stated = write(name, [genus, epithet, cultivar], cells, draft);
    }
    if (!common) return;
    const cell = textOf(cells, common);
    if (cell === '') {
      draft.empty.push(common.name);
      return;
    }
    if (isDeadTree(cell)) draft.isDead = true;
    const found = stated ? '' : fromCommon(cell);
    if (found !== '') draft.facts += `${found}\n`;
    draft.facts += notesOf(common.name, cell);
  };
}

/** The columns whose cells name the tree, by which a row may turn out to be none. */
export const apartIn = (columns: readonly TableColumn[], cells: readonly string[]): string | undefined =>
  columns.flatMap(column => {
    const what = apartBy(textOf(cells, column));
    return what === undefined ? [] : [`${column.name} ${quoted(textOf(cells, column))}: ${what}`];
  })[0];
