/**
 * One row of a table → the lines of one tree. Long tables repeat most of what stands in their cells, and the notation
 * is asked once for each such text; what is each tree's own (tag, position, plain numbers, notes) is written so that
 * it is canonical as it stands.
 */

import { HEADS } from '../../grammar/fields.ts';
import { LINE_LIMIT } from '../../grammar/lexical-errors.ts';
import { dayPart, inspectionPart } from './day-part.ts';
import {
  factPart,
  type Leftover,
  leave,
  type PartReader,
  type TableColumn,
  type TreeDraft,
  textOf,
} from './draft.ts';
import { isDay, isWrittenMeaning, type Meaning } from './meanings.ts';
import { canonical, canonicalHead, fieldStart, writtenLine } from './notation.ts';
import { notePart, notesOf } from './note-part.ts';
import { gridPart, halvesPart, positionPart } from './position-part.ts';
import { repeatedPart } from './repeated-part.ts';
import { crownPart, sizePart } from './size-part.ts';
import { isNoValue } from './sizes.ts';
import { apartIn, type NamesOf, speciesPart } from './species-part.ts';
import { namelessColumn, type Separator, type TableRow } from './table.ts';
import { isName, type Tag } from './tags.ts';
import { memoized, oneLine, stringLiteral } from './text.ts';
import { isWordKind, meantBy, type WordKind } from './words.ts';

export interface TreeText {
  /** The head, then comments, then facts, each line with its end. */
  readonly text: string;
  readonly leftovers: readonly Leftover[];
  readonly tag: Tag;
  /** Why the row is no tree, where it is none; the text is a comment then. */
  readonly apart?: string;
  /** Whether the table calls the tree dead. */
  readonly isDead: boolean;
}

type Kind = Meaning['kind'];

/** @param tagOf gives each row its tag, by the cell that holds it (undefined where no column does) and its line */
export function treeWriter(
  columns: readonly TableColumn[],
  separator: Separator,
  tagOf: (cell: string | undefined, line: number) => Tag,
  names: NamesOf,
  rowsAre = 'Line',
): (row: TableRow) => TreeText {
  const of = (kind: Kind) => columns.find(({ meaning }) => meaning.kind === kind);
  const tagColumn = of('tag');
  const nameColumn = of('name');
  const parts = partsOf(columns, separator, names);
  const whyApart = apartReader(columns);
  return ({ line, cells }) => {
    const apart = whyApart(cells);
    if (apart !== undefined)
      return {
        text: apartText(`${rowsAre} ${line}`, apart, columns, cells),
        leftovers: [],
        tag: NO_TAG,
        apart,
        isDead: false,
      };
    const tag = tagOf(tagColumn && (cells[tagColumn.index] ?? ''), line);
    const former = tag.former === undefined ? [] : [tag.former];
    const draft: TreeDraft = { line, facts: '', heads: '', leftovers: [], empty: [], isDead: false, former };
    let text = `tree ${tag.tag}`;
    if (tagColumn) {
      const cell = textOf(cells, tagColumn);
      if (cell === '') draft.empty.push(tagColumn.name);
      else if (tag.reason !== undefined) leave(draft, tagColumn, cell, tag.reason);
    }
    if (nameColumn) {
      const cell = oneLine(textOf(cells, nameColumn));
      if (cell === '') draft.empty.push(nameColumn.name);
      else text += ` ${stringLiteral(cell)}`;
    }
    for (const part of parts) part(cells, draft);
    if (tagColumn && tag.respelled) draft.facts += notesOf(tagColumn.name, textOf(cells, tagColumn));
    for (let index = columns.length; index < cells.length; index++) {
      if (cells[index] !== '') draft.facts += notesOf(namelessColumn(index), cells[index]!);
    }
    text += '\n';
    // Comments stand below the head: at the end they would seem to belong to the next tree.
    for (const left of draft.leftovers) {
      text += `  # ${oneLine(left.column)} ${stringLiteral(oneLine(left.value))} left out: ${left.reason}\n`;
    }
    if (draft.empty.length > 0) text += `  # Empty in the table: ${draft.empty.map(oneLine).join(', ')}\n`;
    return { text: text + draft.facts + draft.heads, leftovers: draft.leftovers, tag, isDead: draft.isDead };
  };
}

/** What reads a row, in the order in which the fields of a tree are written. */
function partsOf(
  columns: readonly TableColumn[],
  separator: Separator,
  names: NamesOf,
): readonly PartReader[] {
  const of = (kind: Kind) => columns.find(({ meaning }) => meaning.kind === kind);
  const all = (kind: Kind) => columns.filter(({ meaning }) => meaning.kind === kind);
  const size = (kind: Kind) => {
    const column = of(kind);
    return column ? [sizePart(column, separator)] : [];
  };
  const words = (kind: Kind) => {
    const column = of(kind);
    return column ? [wordPart(column)] : [];
  };
  const position = of('position');
  return [
    speciesPart(
      {
        species: of('species'),
        genus: of('genus'),
        epithet: of('epithet'),
        cultivar: of('cultivar'),
        common: of('common-name'),
      },
      names,
    ),
    ...(position ? [positionPart(position)] : []),
    halvesPart(of('latitude'), of('longitude')),
    gridPart(of('easting'), of('northing')),
    ...size('dbh'),
    ...size('girth'),
    ...size('height'),
    crownPart(of('crown-base'), of('crown') ?? of('crown-radius'), separator),
    ...[...HEADS.get('tree')!.fields.keys()].flatMap(word =>
      word === 'formerly'
        ? [formerPart(of(word))]
        : word === 'vigor'
          ? [vigorPart(of('vigor'), of('status'))]
          : isDay(word)
            ? all(word).map(dayPart)
            : isWrittenMeaning(word) || word === 'age'
              ? words(word)
              : [],
    ),
    ...columns.filter(({ meaning }) => meaning.kind === 'repeated').map(one => repeatedPart(one, columns)),
    ...[...all('note'), ...all('count')].map(notePart),
    ...all('inspected').map(inspectionPart),
    ...all('job').map(jobPart),
  ];
}

/** A column whose cells hold what the notation has behind a word. */
function wordPart(column: TableColumn): PartReader {
  const { kind } = column.meaning;
  const refused = isWrittenMeaning(kind)
    ? `the notation does not allow it for ${kind}`
    : `the notation has no such word for ${kind}`;
  return factPart(
    column,
    memoized(cell => {
      const line = isWrittenMeaning(kind)
        ? writtenLine(kind, oneLine(cell))
        : `${kind} ${isWordKind(kind) ? wordIn(kind, column, cell) : cell}`;
      return canonical(line) ?? { refused };
    }),
  );
}

/** What a cell means: as somebody said, else as the notation or the tables of words have it. */
const wordIn = (kind: WordKind, column: TableColumn, cell: string): string =>
  column.meaning.values?.get(cell) ?? meantBy(kind, cell) ?? cell.toLowerCase();

/** The vigor, which the name or the status of a tree may tell as well. */
function vigorPart(column: TableColumn | undefined, status: TableColumn | undefined): PartReader {
  const read = column && wordPart(column);
  const dead = canonical('vigor dead')!;
  return (cells, draft) => {
    if (status) {
      const cell = textOf(cells, status);
      const word = cell === '' ? '' : wordIn('status', status, cell);
      if (word === 'dead') draft.isDead = true;
      else if (word !== 'alive' && cell !== '') draft.facts += notesOf(status.name, cell);
    }
    const isSaid = column !== undefined && wordIn('vigor', column, textOf(cells, column)) === 'dead';
    if (draft.isDead && !isSaid) {
      draft.facts += `${dead}\n`;
      const cell = textOf(cells, column);
      if (column && cell !== '') draft.facts += notesOf(column.name, cell);
      return;
    }
    if (isSaid) draft.isDead = true;
    read?.(cells, draft);
  };
}

/** What is to be done, as a prescription where the notation has its word, else as a note. */
function jobPart(column: TableColumn, index: number): PartReader {
  return (cells, draft) => {
    const cell = textOf(cells, column);
    if (cell === '' || isNoValue(cell)) return;
    const kind = wordIn('job', column, cell);
    const head = canonicalHead(`prescription R${index + 1} ${kind}`);
    if (head === undefined) draft.facts += notesOf(column.name, cell);
    else draft.heads += `\n${head}\n`;
  };
}

/** Why a row is no tree: by its name, its status, or the number of trees that it stands for. */
function apartReader(columns: readonly TableColumn[]): (cells: readonly string[]) => string | undefined {
  const names = columns.filter(({ meaning: { kind } }) =>
    ['tag', 'species', 'common-name', 'genus', 'name'].includes(kind),
  );
  const status = columns.find(({ meaning }) => meaning.kind === 'status');
  const count = columns.find(({ meaning }) => meaning.kind === 'count');
  return cells => {
    const named = apartIn(names, cells);
    if (named !== undefined) return named;
    const cell = textOf(cells, status);
    if (status && cell !== '' && wordIn('status', status, cell) === 'gone')
      return `${status.name} "${oneLine(cell)}": there is no tree there`;
    const trees = textOf(cells, count);
    if (count && trees !== '' && /^\d+(?:[.,]0+)?$/.test(trees) && Number.parseInt(trees, 10) !== 1)
      return `${count.name} ${trees}: it stands for ${Number.parseInt(trees, 10) === 0 ? 'no tree' : 'several trees'}`;
    return undefined;
  };
}

const NO_TAG: Tag = { tag: '' };

/** A row that is no tree, as a comment. */
function apartText(
  row: string,
  why: string,
  columns: readonly TableColumn[],
  cells: readonly string[],
): string {
  const filled = columns.flatMap(({ name, index }) => {
    const cell = oneLine(cells[index] ?? '');
    return cell === '' ? [] : [`${oneLine(name)} ${stringLiteral(cell)}`];
  });
  return `${`# ${row}, ${oneLine(why)}. ${filled.join(', ')}`.slice(0, LINE_LIMIT - 1).trimEnd()}\n`;
}

/** The tags that a tree had before: those of its column, and the one that could not be given again. */
const formerPart =
  (column: TableColumn | undefined): PartReader =>
  (cells, draft) => {
    for (const tag of draft.former) draft.facts += `${START_OF_FORMER}${tag}\n`;
    const cell = textOf(cells, column);
    if (!column || cell === '') return;
    const tags = cell.split(/[\s,;]+/);
    if (isNoValue(cell) || !tags.every(isName)) leave(draft, column, cell, 'it is not a valid tag');
    else for (const tag of tags) draft.facts += `${START_OF_FORMER}${tag}\n`;
  };

const START_OF_FORMER = fieldStart('formerly');
