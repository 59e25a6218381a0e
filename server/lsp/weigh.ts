/**
 * A tree in pictures and figures: the request `soundwood/preview`, and the command `soundwood.weigh`, which takes the
 * URI of a file and a tag, shows the options for the tree in a message, and answers with the same preview.
 */

import type { TextDocumentPositionParams } from 'vscode-languageserver';
import { assess, contextIn } from '../assess/assessment.ts';
import { plainText } from '../language/markdown.ts';
import type { TreePreview } from '../language/preview.ts';
import { supportText } from '../show/weigh.ts';
import { toOffset } from './convert.ts';
import { WEIGH } from './features.ts';
import { PREVIEW } from './requests.ts';
import { aboutFile, answering, type Session, snapshotOf, toldOf } from './session.ts';

/** Loaded where somebody asks for it: most of it is a package for outlines. */
const previews = () => import('../language/preview.ts');

export function registerWeigh(session: Session): void {
  const { connection, store } = session;
  const preview = aboutFile(
    session,
    PREVIEW,
    async ({ position }: TextDocumentPositionParams, { file, snapshot }): Promise<TreePreview | null> => {
      const { previewAt, wordsOnly } = await previews();
      return toldOf(
        session,
        PREVIEW,
        () => previewAt(snapshot, file, toOffset(file, position)) ?? null,
        markdown => wordsOnly('Not computed', markdown),
      );
    },
  );
  connection.onRequest(PREVIEW, preview);
  connection.onExecuteCommand(
    answering(session, 'executeCommand', async ({ command, arguments: given = [] }) => {
      const [uri, tag] = given;
      const { previewOf, wordsOnly } = await previews();
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
          const lines = options.map(
            ({ option, support, because }) => `${option}: ${supportText(support)}. ${because}`,
          );
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
