/** What each word of a file is, for highlighting by meaning. */

import { type FieldSpec, HEADS } from '../../grammar/fields.ts';
import type { Item, Line } from '../../grammar/syntax.ts';
import { sectionAt } from '../../grammar/syntax.ts';
import type { Span } from '../../grammar/text.ts';
import { blocksWithin } from '../facts/file.ts';
import type { FileSnapshot } from '../facts/workspace.ts';

/** Names of the protocol's own token types. */
export const TOKEN_TYPES = [
  'keyword',
  'property',
  'enumMember',
  'number',
  'string',
  'comment',
  'variable',
  'type',
] as const;
export type TokenType = (typeof TOKEN_TYPES)[number];

/** `declaration` where a name is given. */
export const TOKEN_MODIFIERS = ['declaration'] as const;

export interface SemanticToken extends Span {
  readonly type: TokenType;
  readonly declares: boolean;
}

/** The tokens that begin within the stretch, in order; none spans lines. */
export function semanticTokens(file: FileSnapshot, within: Span): readonly SemanticToken[] {
  const tokens: SemanticToken[] = [];
  for (const placed of blocksWithin(file, within)) {
    const { start, block } = placed;
    block.lines.forEach((line, index) => {
      const at = start + block.starts[index]!;
      if (at > within.end || at + line.syntax.text.length < within.start) return;
      const head = line.role === 'head' ? line.word : sectionAt(placed, index)?.word;
      addLineTokens(line, head, at, tokens);
    });
  }
  return tokens;
}

function addLineTokens(line: Line, headWord: string | undefined, at: number, tokens: SemanticToken[]): void {
  const { syntax, role, word, values } = line;
  const head = HEADS.get(headWord ?? '');
  const spec = role === 'head' ? head : head?.fields.get(word ?? '');
  const named = role === 'head' || role === 'field' ? word!.split(' ').length : 0;
  const add = (span: Span, type: TokenType, declares = false): void => {
    tokens.push({ start: at + span.start, end: at + span.end, type, declares });
  };
  let last: Span | undefined;
  for (const [index, item] of syntax.items.entries()) {
    if (item.kind === 'comma') continue;
    const value = values.find(({ start, end }) => start <= item.start && item.end <= end);
    if (index < named) add(item, role === 'head' ? 'keyword' : 'property');
    else if (!value || !spec) add(item, syntacticType(item));
    else if (value.type !== 'text' && value.type !== 'species')
      add(item, item.kind === 'word' ? 'enumMember' : syntacticType(item));
    else if (last !== value) {
      // A name of several parts, or a species, is one token.
      last = value;
      const type = value.type === 'species' ? 'type' : textType(item, spec, value.name);
      add(value, type, type === 'variable' && head?.declares !== undefined && role === 'head');
    }
  }
  if (syntax.comment) add(syntax.comment, 'comment');
}

function syntacticType(item: Item): TokenType {
  switch (item.kind) {
    case 'quantity':
    case 'date':
    case 'monthDays':
      return 'number';
    case 'text':
    case 'path':
      return 'string';
    case 'cultivar':
      return 'type';
    default:
      return 'keyword';
  }
}

function textType(item: Item, spec: FieldSpec, name: string): TokenType {
  if (item.kind === 'text' || item.kind === 'path') return 'string';
  return spec.values.get(name)?.kind === 'choice' ? 'enumMember' : 'variable';
}
