/**
 * A tree in pictures and figures: the request `soundwood/preview`, and the command `soundwood.weigh`, which takes the
 * URI of a file and a tag, shows the options for the tree in a message, and answers with the same preview.
 */

import type { TextDocumentPositionParams } from 'vscode-languageserver';
import { assess, contextIn } from '../assess/assessment.ts';
import { plainText } from '../language/markdown.ts';
import { previewAt, previewOf, type TreePreview, wordsOnly } from '../language/preview.ts';
import { toOffset } from './convert.ts';
import { WEIGH } from './features.ts';
import { PREVIEW } from './requests.ts';
import { aboutFile, answering, type Session, snapshotOf, toldOf } from './session.ts';

export function registerWeigh(session: Session): void {
  const { connection, store } = session;
  const preview = aboutFile(
    session,
    PREVIEW,
    ({ position }: TextDocumentPositionParams, { file, snapshot }): TreePreview | null =>
      toldOf(
        session,
        PREVIEW,
        () => previewAt(snapshot, file, toOffset(file, position)) ?? null,
        markdown => wordsOnly('Not computed', markdown),
      ),
  );
  connection.onRequest(PREVIEW, preview);
  connection.onExecuteCommand(
    answering(session, 'executeCommand', ({ command, arguments: given = [] }) => {
      const [uri, tag] = given;
      if (command !== WEIGH || typeof uri !== 'string') return null;
      const located = store.find(uri);
      const tree = located?.file.trees.find(({ fact }) => fact.tag.value === tag);
      if (!located || !tree) return null;
      const snapshot = snapshotOf(session, located.root);
      const title = `Tree ${tree.fact.tag.value}`;
      return toldOf(
        session,
        WEIGH,
        () => {
          const { options } = assess(contextIn(snapshot, located.file.path, tree.fact));
          const lines = options.map(({ option, support, because }) => `${option}: ${support}. ${because}`);
          const preview = previewOf(snapshot, located.file, tree);
          connection.window.showInformationMessage([title, ...lines].join('\n'));
          return preview;
        },
        markdown => {
          connection.window.showErrorMessage(`${title}: ${plainText(markdown)}`);
          return wordsOnly(title, markdown);
        },
      );
    }),
  );
}
