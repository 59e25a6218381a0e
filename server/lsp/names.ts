/** Requests about names across all files of a folder: definitions, references, rename, and moves of photographs. */

import type { FileRename } from 'vscode-languageserver';
import { DocumentHighlightKind, type TextEdit, type WorkspaceEdit } from 'vscode-languageserver-types';
import { definitions, highlights, references } from '../language/names.ts';
import { photoEdits } from '../language/photos.ts';
import { renamable, rename } from '../language/rename.ts';
import { ruleAt } from '../language/rule-links.ts';
import type { PlacedEdit } from '../language/snapshot.ts';
import { searchSymbols } from '../language/symbols.ts';
import { SYMBOL_KINDS, toEdit, toLocation, toOffset, toRange } from './convert.ts';
import { aboutFile, answering, refusal, type Session } from './session.ts';
import type { Root, Store } from './store.ts';
import { normalizeUri, pathIn } from './uris.ts';

/** The beginning of a page. */
const TOP = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

export function registerNameFeatures(session: Session): void {
  const { connection, store } = session;
  connection.onDefinition(
    aboutFile(
      session,
      'definition',
      ({ position }, { file, root }) => {
        const at = toOffset(file, position);
        const named = ruleAt(file, at);
        const page = named && session.host.pageOf(named.rule);
        if (page !== undefined) return [{ uri: page, range: TOP }];
        return definitions(root.workspace, file, at).map(place => toLocation(store, root, place));
      },
      'whole',
    ),
  );
  connection.onReferences(
    aboutFile(
      session,
      'references',
      ({ position, context }, { file, root }) =>
        references(root.workspace, file, toOffset(file, position), context.includeDeclaration).map(place =>
          toLocation(store, root, place),
        ),
      'whole',
    ),
  );
  connection.onDocumentHighlight(
    aboutFile(session, 'documentHighlight', ({ position }, { file, root }) =>
      highlights(root.workspace, file, toOffset(file, position)).map(place => ({
        range: toRange(file, place),
        kind: place.given ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
      })),
    ),
  );
  registerRename(session);
  connection.onWorkspaceSymbol(
    answering(
      session,
      'workspace/symbol',
      ({ query }, token) =>
        store.all().flatMap(root =>
          searchSymbols(root.workspace, query, () => token.isCancellationRequested).map(
            ({ name, kind, container, ...place }) => ({
              name,
              kind: SYMBOL_KINDS[kind],
              containerName: container,
              location: toLocation(store, root, place),
            }),
          ),
        ),
      'whole',
    ),
  );
  connection.workspace.onWillRenameFiles(
    answering(session, 'workspace/willRenameFiles', ({ files }) => photoRenames(store, files), 'whole'),
  );
}

function registerRename(session: Session): void {
  const { connection, store } = session;
  connection.onPrepareRename(
    aboutFile(session, 'prepareRename', ({ position }, { file, root }) => {
      const found = renamable(root.workspace, file, toOffset(file, position));
      return found ? { range: toRange(file, found), placeholder: found.name } : null;
    }),
  );
  connection.onRenameRequest(
    aboutFile(
      session,
      'rename',
      ({ position, newName }, { file, root }) => {
        const renaming = rename(root.workspace, file, toOffset(file, position), newName);
        if ('refused' in renaming) throw refusal(renaming.refused);
        return toWorkspaceEdit(store, root, renaming.edits);
      },
      'whole',
    ),
  );
}

/** Edits to the paths of photographs that the moves make wrong; null if there are none. */
function photoRenames(store: Store, files: readonly FileRename[]): WorkspaceEdit | null {
  const changes: Record<string, TextEdit[]> = {};
  for (const root of store.all()) {
    const moves = files.flatMap(({ oldUri, newUri }) => {
      const from = pathIn(root.base, normalizeUri(oldUri));
      const to = pathIn(root.base, normalizeUri(newUri));
      return from === undefined || to === undefined ? [] : [{ from, to }];
    });
    if (moves.length > 0)
      Object.assign(changes, toWorkspaceEdit(store, root, photoEdits(root.workspace, moves)).changes);
  }
  return Object.keys(changes).length > 0 ? { changes } : null;
}

function toWorkspaceEdit(store: Store, root: Root, edits: readonly PlacedEdit[]): WorkspaceEdit {
  const changes: Record<string, TextEdit[]> = {};
  for (const edit of edits) {
    const uri = store.uriOf(root, edit.path);
    const file = root.workspace.files.get(edit.path)!;
    (changes[uri] ??= []).push(toEdit(file, edit));
  }
  return { changes };
}
