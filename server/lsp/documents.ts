/** What the editor and the disk tell of changes. */

import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Publisher } from './diagnostics.ts';
import { reasonOf, type Session } from './session.ts';
import { normal } from './uris.ts';

/** LSP 3.17, FileChangeType. */
const DELETED = 3;

export function onChanges(session: Session, publisher: Publisher): void {
  const { connection, store, surroundings } = session;
  const texts = new Map<string, TextDocument>();
  const keep = (document: TextDocument) => {
    texts.set(normal(document.uri), document);
    store.openDocument({ uri: document.uri, version: document.version, text: document.getText() });
  };
  connection.onDidOpenTextDocument(({ textDocument: { uri, languageId, version, text } }) => {
    keep(TextDocument.create(uri, languageId, version, text));
    publisher.changed(uri);
  });
  connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) => {
    const document = texts.get(normal(uri));
    if (!document) return;
    keep(TextDocument.update(document, contentChanges, version));
    publisher.changed(uri);
  });
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) => {
    texts.delete(normal(uri));
    store.closeDocument(uri);
    publisher.changed(undefined);
  });
  connection.onDidChangeWatchedFiles(async ({ changes }) => {
    await session.ready;
    for (const { uri, type } of changes) {
      try {
        if (type === DELETED) {
          for (const path of [uri, ...store.pathsUnder(uri)]) store.fileOnDisk(path, undefined);
        } else if (uri.endsWith('.wood')) store.fileOnDisk(uri, await surroundings.files.read(uri));
      } catch (error) {
        connection.console.error(`${uri} could not be read: ${reasonOf(error)}`);
      }
    }
    publisher.changed(undefined);
  });
}

/** Reads a folder into the store; what can't be read is a line of the log. */
export async function readFolder({ connection, store, surroundings }: Session, uri: string): Promise<void> {
  try {
    const content = await surroundings.files.folder(uri);
    for (const problem of content.problems) connection.console.warn(problem);
    store.addFolder(uri, content);
  } catch (error) {
    connection.console.error(`${uri} could not be read: ${reasonOf(error)}`);
    store.addFolder(uri, { base: uri, files: [], problems: [] });
  }
}
