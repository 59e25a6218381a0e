/**
 * Semantic tokens in the protocol's encoding: five numbers per token, relative to the previous one. What a block has is
 * kept with it, and after an edit only what it changed is sent.
 */

import type { SemanticTokens, SemanticTokensDelta, SemanticTokensLegend } from 'vscode-languageserver-types';
import type { Span } from '../../grammar/text.ts';
import { memo } from '../base/memo.ts';
import { type BlockNode, difference, fileOf } from '../facts/file.ts';
import type { FileSnapshot } from '../facts/workspace.ts';
import { semanticTokens, TOKEN_MODIFIERS, TOKEN_TYPES } from '../language/semantic-tokens';
import { toPosition, toSpan } from './convert.ts';
import { aboutFile, aboutFileInTurns, type Session } from './session.ts';

export const LEGEND: SemanticTokensLegend = {
  tokenTypes: [...TOKEN_TYPES],
  tokenModifiers: [...TOKEN_MODIFIERS],
};

/** Numbers per token. */
const STRIDE = 5;

interface Given {
  readonly textDocument: { readonly uri: string };
}

/** Tokens that a client has. */
interface Sent {
  readonly resultId: string;
  readonly nodes: readonly BlockNode[];
}

export function registerSemanticTokens(session: Session): void {
  const { connection, store } = session;
  const { semanticTokens: on } = connection.languages;
  const none: SemanticTokens = { data: [] };
  /** By the URI of the document. */
  const last = new Map<string, Sent>();
  let count = 0;
  const sent = (uri: string, { nodes }: FileSnapshot): string => {
    for (const known of last.keys()) if (!store.document(known)) last.delete(known);
    const before = last.get(uri);
    // The same tokens get the same name.
    const resultId = before?.nodes === nodes ? before.resultId : String(++count);
    last.set(uri, { resultId, nodes });
    return resultId;
  };

  const whole = aboutFileInTurns(session, 'semanticTokens', function* ({ textDocument }: Given, { file }) {
    const all = new TokenRun(file);
    for (let i = 0; i < file.nodes.length; i++) {
      all.add(i);
      yield;
    }
    return { resultId: sent(textDocument.uri, file), data: all.data };
  });
  on.on(async (params, token) => (await whole(params, token)) ?? none);

  const delta = aboutFileInTurns(
    session,
    'semanticTokens/delta',
    function* (
      { textDocument, previousResultId }: Given & { readonly previousResultId: string },
      { file },
    ): Generator<unknown, SemanticTokensDelta | undefined> {
      const before = last.get(textDocument.uri);
      if (before?.resultId !== previousResultId) return undefined;
      const edits = yield* editsBetween(before.nodes, file);
      return { resultId: sent(textDocument.uri, file), edits };
    },
  );
  on.onDelta(async (params, token) => (await delta(params, token)) ?? (await whole(params, token)) ?? none);

  const part = aboutFile(
    session,
    'semanticTokens/range',
    ({ range }: Given & { readonly range: Parameters<typeof toSpan>[1] }, { file }) => ({
      data: packed(file, toSpan(file, range)),
    }),
  );
  on.onRange(async (params, token) => (await part(params, token)) ?? none);
}

/** From one list of blocks to the next: at most one edit. The first token behind what changed follows another one. */
function* editsBetween(
  before: readonly BlockNode[],
  file: FileSnapshot,
): Generator<unknown, SemanticTokensDelta['edits']> {
  const { nodes } = file;
  const { from, oldEnd, newEnd } = difference(before, nodes);
  if (from === oldEnd && from === newEnd) return [];
  let more = 0;
  while (newEnd + more < nodes.length && tokensOf(nodes[newEnd + more]!).length === 0) more++;
  if (newEnd + more < nodes.length) more++;
  const sizeOf = (list: readonly BlockNode[], first: number, end: number) => {
    let size = 0;
    for (let i = first; i < end; i++) size += tokensOf(list[i]!).length;
    return size;
  };
  const run = new TokenRun(file, from);
  for (let i = from; i < newEnd + more; i++) {
    run.add(i);
    yield;
  }
  return [
    {
      start: sizeOf(before, 0, from),
      deleteCount: sizeOf(before, from, oldEnd + more),
      data: run.data,
    },
  ];
}

/** The tokens of blocks that follow each other. */
class TokenRun {
  readonly data: number[] = [];
  /** Of the last token. */
  private line = 0;

  /** @param from the first block */
  constructor(
    private readonly file: FileSnapshot,
    from = 0,
  ) {
    for (let i = from - 1; i >= 0; i--) {
      const tokens = tokensOf(file.nodes[i]!);
      if (tokens.length === 0) continue;
      this.line = file.firstLines[i]! + lastLine(tokens);
      return;
    }
  }

  add(i: number): void {
    const tokens = tokensOf(this.file.nodes[i]!);
    if (tokens.length === 0) return;
    const first = this.file.firstLines[i]!;
    this.data.push(first + tokens[0]! - this.line);
    for (let at = 1; at < tokens.length; at++) this.data.push(tokens[at]!);
    this.line = first + lastLine(tokens);
  }
}

type Numbers = Uint8Array | Uint32Array;

/** The tokens of a block by itself: nearly always small numbers. */
const tokensOf = memo((node: BlockNode): Numbers => {
  const data = packed(fileOf('', [node]), { start: 0, end: node.length });
  return data.every(number => number < 256) ? Uint8Array.from(data) : Uint32Array.from(data);
});

function lastLine(tokens: Numbers): number {
  let line = 0;
  for (let at = 0; at < tokens.length; at += STRIDE) line += tokens[at]!;
  return line;
}

function packed(file: FileSnapshot, within: Span): number[] {
  const data: number[] = [];
  let line = 0;
  let character = 0;
  for (const { start, end, type, declares } of semanticTokens(file, within)) {
    const at = toPosition(file, start);
    const sameLine = at.line === line;
    data.push(
      at.line - line,
      sameLine ? at.character - character : at.character,
      end - start,
      TOKEN_TYPES.indexOf(type),
      declares ? 1 : 0,
    );
    line = at.line;
    character = at.character;
  }
  return data;
}
