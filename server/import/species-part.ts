import { treesCalled } from '../practice/common-names.ts';
import { lookupGenus } from '../practice/species.ts';
import { leave, type PartReader, type Refused, type TableColumn, type TreeDraft, textOf } from './draft.ts';
import { canonical } from './notation.ts';
import { notesOf } from './note-part.ts';
import { isNoValue } from './sizes.ts';
import { memoized, oneLine } from './text.ts';

/** The botanical name of a common name that means one tree everywhere. */
function botanicalOf(common: string): string | undefined {
  const names = treesCalled(common);
  return names.length === 1 ? names[0] : undefined;
}

/** Separators between a botanical and a common name in one cell. */
const BETWEEN_NAMES = /\s*(?:::|[()[\];|/,:]| [-–] )\s*/;

/** `Platanus X hispanica` → `Platanus × hispanica`. */
const hybridSign = (name: string): string => name.replace(/(^| )[xX] (?=\p{L})/gu, '$1× ');

const line = (name: string, comment = ''): string | undefined =>
  canonical(`species ${hybridSign(oneLine(name))}${comment}`);

/** Of several names in one cell: the one with a known genus, else the first valid botanical name. */
function oneOfSeveral(cell: string): string | undefined {
  const parts = cell.split(BETWEEN_NAMES).filter(part => part !== '');
  if (parts.length < 2) return undefined;
  const read = parts.filter(part => line(part) !== undefined);
  return read.find(part => lookupGenus(part.split(' ')[0]!) !== undefined) ?? read[0];
}

/** The species line of a cell, with the whole cell as a comment where it says more than the name. */
function speciesLine(cell: string): string | Refused {
  const common = botanicalOf(cell);
  if (common === undefined) {
    // A # would turn the rest of the name into a comment.
    const whole = cell.includes('#') ? undefined : line(cell);
    if (whole !== undefined) return whole;
  }
  const name = common ?? oneOfSeveral(cell);
  const found = name === undefined ? undefined : line(name, ` # ${oneLine(cell)}`);
  return found ?? { refused: 'it is no botanical name' };
}

const UNKNOWN_EPITHET = /^(?:n\.? ?)?spp?\.?$/i;

/** The botanical name from separate columns for genus, epithet and cultivar. */
function joinedName(genus: string, epithet: string, cultivar: string): string {
  const bare = cultivar.replace(/^['‘’"]+|['‘’"]+$/g, '');
  return [genus, UNKNOWN_EPITHET.test(epithet) ? 'sp.' : epithet, bare === '' ? '' : `'${bare}'`]
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

export function speciesPart({ species, genus, epithet, cultivar, common }: SpeciesColumns): PartReader {
  const read = memoized(speciesLine);
  const fromCommon = memoized((name: string) => {
    const botanical = botanicalOf(name);
    return botanical === undefined ? '' : line(botanical, ' # from the common name')!;
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
    if (!column || !isNoValue(cell)) return cell;
    if (cell !== '') leave(draft, column, cell, 'it says that there is no value');
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
      if (first !== '') draft.facts += notesOf(genus!.name, first);
      if (second !== '') draft.facts += notesOf(epithet!.name, second);
    } else if (first + second + third !== '') {
      stated = write(joinedName(first, second, third), [genus, epithet, cultivar], cells, draft);
    }
    if (!common) return;
    const cell = textOf(cells, common);
    if (cell === '') {
      draft.empty.push(common.name);
      return;
    }
    const found = stated ? '' : fromCommon(cell);
    if (found !== '') draft.facts += `${found}\n`;
    draft.facts += notesOf(common.name, cell);
  };
}
