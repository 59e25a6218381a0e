/** Semantic tokens in the protocol's encoding: five numbers per token, relative to the previous one. */

import type { SemanticTokens, SemanticTokensLegend } from 'vscode-languageserver-types';
import type { Span } from '../../grammar/text.ts';
import type { FileSnapshot } from '../facts/workspace.ts';
import { semanticTokens, TOKEN_MODIFIERS, TOKEN_TYPES } from '../language/semantic-tokens';
import { toPosition, toSpan } from './convert.ts';
import { aboutFile, type Session } from './session.ts';

export const LEGEND: SemanticTokensLegend = {
  tokenTypes: [...TOKEN_TYPES],
  tokenModifiers: [...TOKEN_MODIFIERS],
};

export function registerSemanticTokens({ connection, ...rest }: Session): void {
  const session = { connection, ...rest };
  const none: SemanticTokens = { data: [] };
  const whole = aboutFile(session, 'semanticTokens', (_: { textDocument: { uri: string } }, { file }) =>
    packed(file, { start: 0, end: file.length }),
  );
  connection.languages.semanticTokens.on(async (params, token) => (await whole(params, token)) ?? none);
  const part = aboutFile(
    session,
    'semanticTokens/range',
    ({ range }: Parameters<Parameters<typeof connection.languages.semanticTokens.onRange>[0]>[0], { file }) =>
      packed(file, toSpan(file, range)),
  );
  connection.languages.semanticTokens.onRange(async (params, token) => (await part(params, token)) ?? none);
}

function packed(file: FileSnapshot, within: Span): SemanticTokens {
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
  return { data };
}
