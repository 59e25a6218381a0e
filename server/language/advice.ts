/** The edits that apply advice: lines below a head, replacing those of the same field. */

import { HEADS } from '../../grammar/fields.ts';
import { placedLine, sectionAt } from '../../grammar/syntax.ts';
import { lastAtMost, lineEnd } from '../../grammar/text.ts';
import type { FileSnapshot, PlacedFact } from '../facts/workspace.ts';
import type { Advice } from '../rules/rule.ts';
import { lastFilled } from './cursor.ts';
import type { Edit } from './snapshot.ts';

/** Indentation of fields below a head that has none yet. */
const INDENT = 2;

export function adviceEdits(file: FileSnapshot, placed: PlacedFact, advice: Advice): readonly Edit[] {
  const { under, head: newHead, lines } = advice;
  if (newHead !== undefined) return [newRecord(file, placed, [newHead, ...lines.map(line => `  ${line}`)])];
  const { block, start } = placed;
  const section = sectionAt(placed, lastAtMost(block.starts, under.start));
  const head = section && HEADS.get(section.word);
  if (!section || !head) return [];
  const headLine = placedLine(block, section.head).syntax.text;
  const fields = section.fields.map(index => placedLine(block, index));
  const own = fields.find(({ role }) => role === 'field')?.syntax.text ?? `${' '.repeat(INDENT)}${headLine}`;
  const added: string[] = [];
  const edits: Edit[] = [];
  for (const line of lines) {
    const word = line.split(' ')[0]!;
    const old = head.fields.get(word)?.many ? undefined : fields.find(field => field.word === word);
    const [first, last] = [old?.syntax.items[0], old?.syntax.items.at(-1)];
    if (!old || !first || !last) added.push(`${lineEnd(file.text)}${indentOf(own)}${line}`);
    else
      edits.push({ start: start + old.start + first.start, end: start + old.start + last.end, text: line });
  }
  const behindHead = start + block.starts[section.head]! + headLine.length;
  return added.length > 0 ? [{ start: behindHead, end: behindHead, text: added.join('') }, ...edits] : edits;
}

const indentOf = (line: string): string => line.slice(0, line.length - line.trimStart().length);

/** Inserts a head with its fields after the last line of a tree. */
export function newRecord(file: FileSnapshot, { start, block }: PlacedFact, lines: readonly string[]): Edit {
  const end = lineEnd(file.text);
  const last = placedLine(block, lastFilled(block.lines, 0, block.lines.length));
  const at = start + last.start + last.syntax.text.length;
  return {
    start: at,
    end: at,
    text: `${end}${end}${lines.map(line => (line === '' ? '' : `  ${line}`)).join(end)}`,
  };
}
