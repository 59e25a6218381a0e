/**
 * One row for each tree: what the tables have in common. Sizes stand as written, and beside that with both ends of
 * what they may be, in metres to the micrometre: an estimate with its margin, an open end empty.
 */

import { printValues } from '../../grammar/tidy.ts';
import { openDefects } from '../assess/evidence.ts';
import { openPrescriptionsOfAnyKind } from '../assess/prescriptions.ts';
import { formatDate } from '../base/dates.ts';
import { plainNumber, type Quantity } from '../base/quantity.ts';
import { counted } from '../base/words.ts';
import type { PlacedFact } from '../facts/file.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Placed, Site, Tree } from '../facts/types.ts';

export interface ExportTree {
  readonly placed: PlacedFact<Tree>;
  /** As shown to people, with slashes. */
  readonly file: string;
  readonly site: Site | undefined;
  readonly settings: Settings;
}

type Cell = string | number | undefined;

export interface Column {
  readonly name: string;
  readonly type: 'text' | 'number' | 'count';
  readonly of: (tree: ExportTree) => Cell;
}

/** What stands behind a word of the tree itself, where the line counts: the first without a mistake. */
function written({ placed }: ExportTree, ...words: readonly string[]): string | undefined {
  const { lines, sections } = placed.block;
  const line = sections[0]!.fields
    .map(index => lines[index]!)
    .find(({ word, mistake }) => !mistake && words.includes(word!));
  // A word that may stand alone says itself.
  return line && (printValues(line) || line.word);
}

/** A size that counts, as it was written: by the tree itself, else by the inspection that measured it. */
function size(tree: ExportTree, word: string, counts: Placed<Quantity> | undefined): string | undefined {
  const own = written(tree, word);
  if (own !== undefined || !counts) return own;
  const { block } = tree.placed;
  const index = block.starts.findLastIndex(start => start <= counts.start);
  const line = block.lines[index]!;
  return line.word === word ? printValues(line) : undefined;
}

/** A part of `from 12 ft, 54 ft wide`. */
const crown = (tree: ExportTree, part: RegExp): string | undefined =>
  written(tree, 'crown')
    ?.split(', ')
    .flatMap(text => part.exec(text)?.[1] ?? [])[0];

const micrometres = (metres: number): number => Number(plainNumber(metres, 6));
/** A hundred millionth of a degree is a millimetre. */
export const degrees = (value: number): number => Number(plainNumber(value, 8));

type Sizes = (tree: Tree) => readonly Placed<Quantity>[];

/** Both ends of a size; of several stems, those of the stoutest. */
function ends(name: string, sizes: Sizes): readonly Column[] {
  const end = (side: 'low' | 'high'): Column => ({
    name: `${name}_${side}_m`,
    type: 'number',
    of({ placed, settings }) {
      const metres = sizes(placed.fact).map(({ value }) => valuesOf(value, settings)[side]);
      const greatest = Math.max(...metres);
      return Number.isFinite(greatest) ? micrometres(greatest) : undefined;
    },
  });
  return [end('low'), end('high')];
}

const one = (quantity: Placed<Quantity> | undefined) => (quantity ? [quantity] : []);

const text = (name: string, of: (tree: ExportTree) => string | undefined): Column => ({
  name,
  type: 'text',
  of,
});
const asWritten = (name: string, ...words: readonly string[]): Column =>
  text(name, tree => written(tree, ...words));

/** Control characters and runs of white space can't be told apart in a table: they become one space. */
const oneSpaced = (value: string): string => value.replace(/[\s\0-\x1F\x7F\uFFFD]+/g, ' ').trim();

/** What an import of the table gives back. */
export const RECORD_COLUMNS: readonly Column[] = [
  text('tag', ({ placed }) => placed.fact.tag.value),
  text('name', ({ placed }) => placed.fact.name && oneSpaced(placed.fact.name.value)),
  asWritten('species', 'species'),
  {
    name: 'latitude_deg',
    type: 'number',
    of: ({ placed }) => placed.fact.position && degrees(placed.fact.position.latitude),
  },
  {
    name: 'longitude_deg',
    type: 'number',
    of: ({ placed }) => placed.fact.position && degrees(placed.fact.position.longitude),
  },
  text('dbh', tree => size(tree, 'dbh', tree.placed.fact.diameters[0])),
  text('girth', tree => size(tree, 'girth', tree.placed.fact.diameters[0])),
  // From the girth where no diameter was taped.
  ...ends('dbh', ({ diameters }) => diameters),
  text('height', tree => size(tree, 'height', tree.placed.fact.height)),
  ...ends('height', ({ height }) => one(height)),
  text('crown_base', tree => crown(tree, /^from (.+)$/)),
  ...ends('crown_base', ({ crownBase }) => one(crownBase)),
  text('crown_spread', tree => crown(tree, /^(.+) wide$/)),
  ...ends('crown_spread', ({ crownSpread }) => one(crownSpread)),
  asWritten('live_crown', 'live-crown'),
  asWritten('lean', 'lean'),
  asWritten('soil', 'soil'),
  asWritten('age', 'age'),
  asWritten('vigor', 'vigor', 'vigour'),
  asWritten('stressed', 'stressed'),
  asWritten('protected', 'protected'),
  text('formerly', ({ placed }) => placed.fact.formerly.map(({ value }) => value).join(', ') || undefined),
  asWritten('felled', 'felled'),
  // One in each line of the cell.
  text('notes', ({ placed }) =>
    placed.fact.notes
      ?.map(({ value }) => oneSpaced(value))
      .filter(note => note !== '')
      .join('\n'),
  ),
];

/** Where a tree stands in the inventory, and what is open of it: for maps and queries. */
export const CONTEXT_COLUMNS: readonly Column[] = [
  text('file', ({ file }) => file),
  { name: 'line', type: 'count', of: ({ placed }) => placed.firstLine + 1 },
  text('site', ({ site }) => site?.name.value),
  text('last_inspection', ({ placed }) => {
    const days = placed.fact.inspections.map(({ date }) => date.value);
    return days.length === 0 ? undefined : formatDate(Math.max(...days));
  }),
  { name: 'open_defects', type: 'count', of: ({ placed }) => openDefects(placed.fact).length },
  {
    name: 'open_prescriptions',
    type: 'count',
    of: ({ placed }) => openPrescriptionsOfAnyKind(placed.fact).length,
  },
];

/** What stands below a tree and has no column, in words; undefined where there is nothing of the kind. */
export function withoutColumn(trees: readonly ExportTree[]): string | undefined {
  const kinds = BELOW_A_TREE.flatMap(([of, one, many]) => {
    const count = trees.reduce((sum, { placed }) => sum + of(placed.fact).length, 0);
    return count > 0 ? [counted(count, one, many)] : [];
  });
  return kinds.length > 0 ? kinds.join(', ') : undefined;
}

const BELOW_A_TREE: readonly (readonly [
  of: (tree: Tree) => readonly unknown[],
  one: string,
  many?: string,
])[] = [
  [({ photos }) => photos, 'photograph'],
  [({ inspections }) => inspections, 'inspection'],
  [({ parts }) => parts, 'part'],
  [({ defects }) => defects, 'defect'],
  [({ joined }) => joined, 'joined hollow'],
  [({ targets }) => targets, 'target'],
  [({ risks }) => risks, 'risk'],
  [({ conductors }) => conductors, 'conductor'],
  [({ nestChecks }) => nestChecks, 'nest check'],
  [({ batChecks }) => batChecks, 'bat check'],
  [({ views }) => views, 'view'],
  [({ prescriptions }) => prescriptions, 'prescription'],
  [({ works }) => works, 'job done', 'jobs done'],
  [({ followUps }) => followUps, 'follow-up'],
  [({ accepts }) => accepts, 'exception'],
];
