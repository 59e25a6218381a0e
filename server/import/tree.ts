/**
 * One row of a table → the lines of one tree. Long tables repeat most of what stands in their cells, and the notation
 * is asked once for each such text; what is each tree's own (tag, position, plain numbers, notes) is written so that
 * it is canonical as it stands.
 */

import { HEADS } from '../../grammar/fields.ts';
import {
  factPart,
  type Leftover,
  leave,
  type PartReader,
  type TableColumn,
  type TreeDraft,
  textOf,
} from './draft.ts';
import { isWrittenMeaning, type Meaning } from './meanings.ts';
import { canonical, fieldStart, writtenLine } from './notation.ts';
import { notePart, notesOf } from './note-part.ts';
import { halvesPart, positionPart } from './position-part.ts';
import { repeatedPart } from './repeated-part.ts';
import { crownPart, sizePart } from './size-part.ts';
import { isNoValue } from './sizes.ts';
import { speciesPart } from './species-part.ts';
import { namelessColumn, type Separator, type TableRow } from './table.ts';
import { isName, type Tag } from './tags.ts';
import { memoized, oneLine, stringLiteral } from './text.ts';

export interface TreeText {
  /** The head, then comments, then facts, each line with its end. */
  readonly text: string;
  readonly leftovers: readonly Leftover[];
  readonly tag: Tag;
}

type Kind = Meaning['kind'];

/** @param tagOf gives each row its tag, by the cell that holds it (undefined where no column does) and its line */
export function treeWriter(
  columns: readonly TableColumn[],
  separator: Separator,
  tagOf: (cell: string | undefined, line: number) => Tag,
): (row: TableRow) => TreeText {
  const of = (kind: Kind) => columns.find(({ meaning }) => meaning.kind === kind);
  const tagColumn = of('tag');
  const nameColumn = of('name');
  const parts = partsOf(columns, separator);
  return ({ line, cells }) => {
    const tag = tagOf(tagColumn && (cells[tagColumn.index] ?? ''), line);
    const former = tag.former === undefined ? [] : [tag.former];
    const draft: TreeDraft = { line, facts: '', leftovers: [], empty: [], former };
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
    return { text: text + draft.facts, leftovers: draft.leftovers, tag };
  };
}

/** What reads a row, in the order in which the fields of a tree are written. */
function partsOf(columns: readonly TableColumn[], separator: Separator): readonly PartReader[] {
  const of = (kind: Kind) => columns.find(({ meaning }) => meaning.kind === kind);
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
    speciesPart({
      species: of('species'),
      genus: of('genus'),
      epithet: of('epithet'),
      cultivar: of('cultivar'),
      common: of('common-name'),
    }),
    ...(position ? [positionPart(position)] : []),
    halvesPart(of('latitude'), of('longitude')),
    ...size('dbh'),
    ...size('girth'),
    ...size('height'),
    crownPart(of('crown-base'), of('crown'), separator),
    ...[...HEADS.get('tree')!.fields.keys()].flatMap(word =>
      word === 'formerly'
        ? [formerPart(of(word))]
        : isWrittenMeaning(word) || word === 'age' || word === 'vigor'
          ? words(word)
          : [],
    ),
    ...columns.filter(({ meaning }) => meaning.kind === 'repeated').map(one => repeatedPart(one, columns)),
    ...columns.filter(({ meaning }) => meaning.kind === 'note').map(notePart),
  ];
}

/** A column whose cells hold what the notation has behind a word. */
function wordPart(column: TableColumn): PartReader {
  const { kind } = column.meaning;
  const refused = isWrittenMeaning(kind)
    ? `the notation does not have it for ${kind}`
    : `it is no word that the notation has for ${kind}`;
  return factPart(
    column,
    memoized(cell => {
      const line = isWrittenMeaning(kind)
        ? writtenLine(kind, oneLine(cell))
        : `${kind} ${cell.toLowerCase()}`;
      return canonical(line) ?? { refused };
    }),
  );
}

/** The tags that a tree had before: those of its column, and the one that could not be given again. */
const formerPart =
  (column: TableColumn | undefined): PartReader =>
  (cells, draft) => {
    for (const tag of draft.former) draft.facts += `${START_OF_FORMER}${tag}\n`;
    const cell = textOf(cells, column);
    if (!column || cell === '') return;
    const tags = cell.split(/[\s,;]+/);
    if (isNoValue(cell) || !tags.every(isName)) leave(draft, column, cell, 'it is no tag');
    else for (const tag of tags) draft.facts += `${START_OF_FORMER}${tag}\n`;
  };

const START_OF_FORMER = fieldStart('formerly');
