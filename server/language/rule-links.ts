/** Where a file names rules, whose pages editors can go to: exceptions and severities. */

import { type FieldSpec, HEADS } from '../../grammar/fields.ts';
import type { Span } from '../../grammar/text.ts';
import type { FileSnapshot } from '../facts/workspace.ts';
import { ruleNamed } from '../rules/registry.ts';
import { cursorAt, holds } from './cursor.ts';

/** Heads that name a rule, with the name of the value. */
const NAMING: ReadonlyMap<string, string> = new Map(
  [...HEADS.values()].flatMap(({ word, values }: FieldSpec) =>
    [...values].flatMap(([name, value]) =>
      value.kind === 'value' && value.type === 'rule' ? [[word, name] as const] : [],
    ),
  ),
);

const WORDS = [...NAMING.keys()];

export interface RuleLink extends Span {
  readonly rule: string;
}

export const ruleLinks = (file: FileSnapshot): readonly RuleLink[] =>
  file.blocks.flatMap(({ start, node }) => {
    // Most blocks name none, and need not be parsed to know; a damaged head may be misspelt.
    if (!node.isDamaged && !WORDS.some(word => node.text.includes(word))) return [];
    const { block } = node;
    return block.sections.flatMap(({ word, head }) => {
      const name = NAMING.get(word);
      if (name === undefined) return [];
      const value = block.lines[head]!.values.find(one => one.name === name);
      if (value?.type !== 'text' || !ruleNamed(value.text)) return [];
      const at = start + block.starts[head]!;
      return [{ start: at + value.start, end: at + value.end, rule: value.text }];
    });
  });

/** The rule named at an offset. */
export function ruleAt(file: FileSnapshot, offset: number): RuleLink | undefined {
  const { line, lineStart, column } = cursorAt(file, offset);
  const name = line.role === 'head' ? NAMING.get(line.word ?? '') : undefined;
  const value = line.values.find(one => one.name === name);
  if (value?.type !== 'text' || !holds(value, column) || !ruleNamed(value.text)) return undefined;
  return { start: lineStart + value.start, end: lineStart + value.end, rule: value.text };
}
