/** Field notes as the edits that write them. */

import { splitBlocks } from '../../grammar/blocks.ts';
import { HEADS } from '../../grammar/fields.ts';
import type { Block } from '../../grammar/syntax.ts';
import { lineEnd, splitLines } from '../../grammar/text.ts';
import { formatDate } from '../base/dates.ts';
import { type DatedWorkspace, type FileSnapshot, siteOf } from '../facts/workspace.ts';
import { DAY, FROM } from '../fix/note-words.ts';
import { fixNotes } from '../fix/notes.ts';
import type { KnownTree } from '../fix/tree-notes.ts';
import { adviceEdits, newRecord } from './advice.ts';
import type { Edit } from './snapshot.ts';
import { formatted, inspectedOn, type PlacedTree, type TakenDown, type Written } from './visit.ts';

const quoted = (text: string): string => `"${text.replaceAll('"', "'")}"`;

/** Field notes: about the tree of the place until another one is named. */
export function spokenEdits(
  { workspace, today }: DatedWorkspace,
  file: FileSnapshot,
  placed: PlacedTree | undefined,
  { spoken: notes = '', answers = {}, by }: TakenDown,
): Written {
  const trees = new Map(file.trees.map(tree => [tree.fact.tag.value, tree as PlacedTree]));
  const from = placed && inspectedOn(placed, today)?.from.value;
  const known = (tag: string): KnownTree | undefined => {
    const tree = trees.get(tag)?.fact;
    return (
      tree && {
        defects: tree.defects.map(({ id, kind }) => ({ id: id.value, kind: kind.value })),
        works: tree.prescriptions.map(({ id }) => id.value),
      }
    );
  };
  const { text, questions, left } = fixNotes(notes, {
    region: siteOf(workspace, file.path)?.region?.value,
    answers: new Map([
      [DAY, formatDate(today)],
      ...(from === undefined ? [] : [[FROM, from] as const]),
      ...Object.entries(answers),
    ]),
    tree: placed?.fact.tag.value,
    known,
    by,
  });
  const texts = splitLines(text).texts;
  const open = {
    questions: questions.map(({ key, asks, choices }) => ({ key, asks, choices })),
    left: left.map(({ line, message }) => `${texts[line]!.trim()}: ${message}`),
  };
  // Without it there is no inspection that the records could stand below.
  if (questions.some(({ key }) => key === FROM || key === DAY)) return { ...open, edits: [] };
  const end = lineEnd(file.text);
  const edits: Edit[] = [];
  let added = '';
  for (const { block } of splitBlocks(text)) {
    const tag = block.sections[0]?.word === 'tree' ? block.lines[0]!.values[0] : undefined;
    const tree = tag?.type === 'text' ? trees.get(tag.text) : undefined;
    if (tree) edits.push(...againAt(file, tree, today, block));
    else added += block.text.trim() === '' ? '' : `${end}${block.text.trimEnd().replaceAll('\n', end)}${end}`;
  }
  if (added !== '') {
    const at = file.text.length;
    const begin =
      file.text === '' ? added.slice(end.length) : file.text.endsWith('\n') ? added : `${end}${added}`;
    edits.push({ start: at, end: at, text: begin });
  }
  return { ...open, edits };
}

/** What notes tell of a tree on record: below the inspection of the day, or below a new one. */
function againAt(file: FileSnapshot, placed: PlacedTree, today: number, block: Block): readonly Edit[] {
  const { lines, sections } = block;
  const first = sections[1]?.head ?? lines.length;
  const second = sections[2]?.head ?? lines.length;
  const takes = HEADS.get('inspection')!.fields;
  const isSaid = ({ role }: (typeof lines)[number]) => role !== 'blank';
  const textOf = ({ syntax: { text } }: (typeof lines)[number]) => text.trim();
  const readings = lines
    .slice(1, first)
    .filter(isSaid)
    .map(line => {
      const { role, word, mistake } = line;
      const isReading = role === 'field' && !mistake && word !== undefined && takes.has(word);
      return isReading || role === 'comment' ? textOf(line) : `note ${quoted(textOf(line))}`;
    });
  const inspection = lines.slice(first, second).filter(isSaid).map(textOf);
  const records = lines.slice(second).map(textOf);
  const last = inspectedOn(placed, today);
  if (!last || inspection[0] !== `inspection ${formatDate(today)} from ${last.from.value}`)
    return [newRecord(file, placed, formatted([...inspection, ...readings, '', ...records]))];
  const below = formatted([...inspection, ...readings])
    .slice(inspection.length)
    .map(line => line.trim());
  return [
    ...(below.length > 0 ? adviceEdits(file, placed, { kind: 'reading', under: last.at, lines: below }) : []),
    ...(records.some(line => line !== '') ? [newRecord(file, placed, formatted(records))] : []),
  ];
}
