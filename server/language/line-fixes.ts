/** Fixes that move or remove whole lines: a field below the wrong head, an unfinished merge, what a remedy takes out. */

import { HEADS } from '../../grammar/fields.ts';
import { type BlockSection, placedLine } from '../../grammar/syntax.ts';
import { lineEnd, splitLines } from '../../grammar/text.ts';
import type { FileSnapshot } from '../facts/workspace.ts';
import type { Finding } from '../rules/check.ts';
import { type Cursor, cursorAt, linesOfSection } from './cursor.ts';
import type { Edit, Fix } from './snapshot.ts';

export function lineFixes(file: FileSnapshot, finding: Finding): readonly Fix[] {
  const offered = (title: string, edits: readonly Edit[]): Fix => ({
    title,
    edits,
    finding,
    preferred: false,
  });
  if (finding.rule === 'merge-conflict') return mergeFixes(file, finding, offered);
  if (finding.accepted) return [];
  const cursor = cursorAt(file, finding.start);
  if (finding.rule === 'out-of-place') return moves(file, cursor, offered);
  if (finding.grade === 'syntax') return [];
  return removals(file, cursor, finding.remedy, offered);
}

type Offer = (title: string, edits: readonly Edit[]) => Fix;

/** Each head of the block that has this field, and not yet a line of it. */
function moves(
  file: FileSnapshot,
  { placed, line, lineIndex, lineStart }: Cursor,
  offered: Offer,
): readonly Fix[] {
  const { block, start } = placed;
  const word = line.syntax.items[0];
  if (word?.kind !== 'word') return [];
  const text = line.syntax.text.slice(word.start);
  return block.sections.flatMap(section => {
    const field = HEADS.get(section.word)?.fields.get(word.text);
    const isStated = section.fields.some(index => block.lines[index]!.word === word.text);
    if (!field || section.head === lineIndex || (isStated && !field.many)) return [];
    const last = placedLine(block, section.fields.at(-1) ?? section.head);
    const own = section.fields.length > 0 ? last.syntax.text : `  ${last.syntax.text}`;
    const indent = own.slice(0, own.length - own.trimStart().length);
    const at = start + last.start + last.syntax.text.length;
    const named = block.lines[section.head]!.syntax.text.trim();
    return [
      offered(`Move it below ${named}`, [
        { start: at, end: at, text: `${lineEnd(file.text)}${indent}${text.trimEnd()}` },
        withoutLines(file, lineStart, lineStart + line.syntax.text.length),
      ]),
    ];
  });
}

/** The edit that removes lines, from the start of the first to the end of the last, with the line end behind them. */
function withoutLines(file: FileSnapshot, start: number, end: number): Edit {
  const behind = /^\r\n|^[\r\n]/.exec(file.text.slice(end, end + 2))?.[0].length ?? 0;
  return { start, end: end + behind, text: '' };
}

/** What a remedy says to remove: a field where it names one, else the line or the record that the finding is about. */
function removals(
  file: FileSnapshot,
  { placed, section, lineIndex, line, lineStart }: Cursor,
  remedy: string,
  offered: Offer,
): readonly Fix[] {
  const { block, start } = placed;
  const remove = (title: string, first: number, last: number) => {
    const end = placedLine(block, last);
    return offered(title, [
      withoutLines(file, start + block.starts[first]!, start + end.start + end.syntax.text.length),
    ]);
  };
  const field = /\bremove (replaces|or)\b/i.exec(remedy)?.[1];
  if (field !== undefined) {
    const index = section?.fields.find(one => block.lines[one]!.word === field);
    return index === undefined ? [] : [remove(`Remove the ${field} line`, index, index)];
  }
  if (/^Keep one of the two\b/.test(remedy)) {
    const first = firstOf(
      section,
      block.lines[lineIndex]!.word,
      lineIndex,
      index => block.lines[index]!.word,
    );
    if (first !== undefined)
      return [
        remove(`Keep ${block.lines[first]!.syntax.text.trim()}`, lineIndex, lineIndex),
        remove(`Keep ${line.syntax.text.trim()}`, first, first),
      ];
  } else if (!/\bremove the (?:line|risk|exception)\b|^Remove it\b|\. Otherwise remove it\b/i.test(remedy))
    return [];
  if (!section || (section.head !== lineIndex && !RECORDS.has(section.word)))
    return [offered('Remove the line', [withoutLines(file, lineStart, lineStart + line.syntax.text.length)])];
  const { first, last } = linesOfSection(placed, section);
  return [remove(`Remove ${block.lines[first]!.syntax.text.trim()}`, first, last)];
}

/** Heads that go as a whole, whichever of their lines is told of. */
const RECORDS: ReadonlySet<string> = new Set(['limit', 'season', 'approach', 'severity', 'accept']);

/** The line of the same field that stands first in a section. */
function firstOf(
  section: BlockSection | undefined,
  word: string | undefined,
  own: number,
  wordOf: (index: number) => string | undefined,
): number | undefined {
  if (!section || section.head === own) return undefined;
  const found = section.fields.find(index => wordOf(index) === word);
  return found === own ? undefined : found;
}

/** Both versions of an unfinished merge, from the markers round the finding. */
function mergeFixes(file: FileSnapshot, { line }: Finding, offered: Offer): readonly Fix[] {
  const { texts, starts } = splitLines(file.text);
  const isMark = (index: number, mark: string) => new RegExp(`^[${mark}]{7}(?: |$)`).test(texts[index] ?? '');
  const own = line - 1;
  let first = own;
  while (first >= 0 && !isMark(first, '<')) first--;
  let last = own;
  while (last < texts.length && !isMark(last, '>')) last++;
  let middle = first;
  while (middle < last && !isMark(middle, '=')) middle++;
  if (first < 0 || last === texts.length || middle === last) return [];
  let base = first;
  while (base < middle && !isMark(base, '|')) base++;
  const all = { start: starts[first]!, end: starts[last + 1] ?? file.text.length };
  const between = (from: number, to: number) => file.text.slice(starts[from], starts[to]);
  return [
    offered('Keep the version above', [{ ...all, text: between(first + 1, base) }]),
    offered('Keep the version below', [{ ...all, text: between(middle + 1, last) }]),
  ];
}
