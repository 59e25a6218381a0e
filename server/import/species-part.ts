import { lookupGenus, speciesTable } from '../practice/species.ts';
import { leave, type PartReader, type Refused, type TableColumn, type TreeDraft, textOf } from './draft.ts';
import { canonical } from './notation.ts';
import { notesOf } from './note-part.ts';
import { saysNothing } from './sizes.ts';
import { oneLine, remembered } from './text.ts';

/** Botanical names by common name, where only one species of the table bears it. */
const byCommonName = new Map<string, string | undefined>();
for (const { botanical, common } of speciesTable) {
  const key = common.toLowerCase();
  byCommonName.set(key, byCommonName.has(key) ? undefined : botanical);
}
const botanicalOf = (common: string): string | undefined => byCommonName.get(common.toLowerCase());

/** Marks that tables put between a botanical and a common name. */
const BETWEEN_NAMES = /\s*(?:::|[()[\];|/,:]| [-–] )\s*/;

/** `Platanus X hispanica` of a table that has no ×. */
const hybridSign = (name: string): string => name.replace(/(^| )[xX] (?=\p{L})/gu, '$1× ');

const line = (name: string, comment = ''): string | undefined =>
  canonical(`species ${hybridSign(oneLine(name))}${comment}`);

/** Where two names stand in one cell: the one of a genus that is known, else the first that looks botanical. */
function oneOfSeveral(cell: string): string | undefined {
  const parts = cell.split(BETWEEN_NAMES).filter(part => part !== '');
  if (parts.length < 2) return undefined;
  const read = parts.filter(part => line(part) !== undefined);
  return read.find(part => lookupGenus(part.split(' ')[0]!) !== undefined) ?? read[0];
}

/** The line of a cell, with the whole of the cell beside it where that says more than the name. */
function speciesLine(cell: string): string | Refused {
  const common = botanicalOf(cell);
  if (common === undefined) {
    // A comment sign would take what stands behind it out of the name.
    const whole = cell.includes('#') ? undefined : line(cell);
    if (whole !== undefined) return whole;
  }
  const name = common ?? oneOfSeveral(cell);
  const found = name === undefined ? undefined : line(name, ` # ${oneLine(cell)}`);
  return found ?? { refused: 'it is no botanical name' };
}

const UNKNOWN_EPITHET = /^(?:n\.? ?)?spp?\.?$/i;

/** The botanical name of a genus, an epithet and a cultivar that stand in columns of their own. */
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
  const read = remembered(speciesLine);
  const fromCommon = remembered((name: string) => {
    const botanical = botanicalOf(name);
    return botanical === undefined ? '' : line(botanical, ' # from the common name')!;
  });

  /** Writes the line of a botanical name; tells whether there was one. */
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
      if (column && !saysNothing(cell)) leave(draft, column, cell, found.refused);
    }
    return false;
  };

  /** The cell, if it holds something; what says that there is nothing is left out. */
  const filled = (column: TableColumn | undefined, cells: readonly string[], draft: TreeDraft): string => {
    const cell = textOf(cells, column);
    if (!column || !saysNothing(cell)) return cell;
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
