/** What the editor and the disk tell of changes. */

import type { Publisher } from './diagnostics.ts';
import { forEach, heeding, Pace, reasonOf, type Session } from './session.ts';

/** LSP 3.17, FileChangeType. */
const DELETED = 3;

/** What is kept has to be text: anything else would spoil every later answer. */
function mustBeText(...texts: readonly unknown[]): void {
  if (!texts.every(text => typeof text === 'string')) throw new TypeError('A text must be a string.');
}

export function onChanges(session: Session, publisher: Publisher): void {
  const { connection, store, host } = session;
  connection.onDidOpenTextDocument(({ textDocument }) => {
    mustBeText(textDocument.text);
    store.openDocument(textDocument);
    publisher.changed(textDocument.uri);
  });
  connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) => {
    mustBeText(...contentChanges.map(({ text }) => text));
    store.changeDocument(uri, version, contentChanges);
    publisher.changed(uri);
  });
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) => {
    store.closeDocument(uri);
    publisher.changed(undefined);
  });
  connection.onDidChangeWatchedFiles(
    heeding(session, 'workspace/didChangeWatchedFiles', async ({ changes }) => {
      await session.ready;
      let changed = false;
      await forEach(session, 'workspace/didChangeWatchedFiles', changes, async ({ uri, type }) => {
        changed = store.photoTouched(uri) || type === DELETED || uri.endsWith('.wood') || changed;
        if (type === DELETED) {
          for (const path of [uri, ...store.pathsUnder(uri)]) store.fileOnDisk(path, undefined);
        } else if (uri.endsWith('.wood')) store.fileOnDisk(uri, await host.files.read(uri));
      });
      if (changed) publisher.changed(undefined);
    }),
  );
}

/** Reads a folder into the store; what can't be read is a line of the log. */
export async function readFolder({ connection, store, host }: Session, uri: string): Promise<void> {
  try {
    const content = await host.files.folder(uri);
    for (const problem of content.problems) connection.console.warn(problem);
    store.addFolder(uri, content);
  } catch (error) {
    connection.console.error(`${uri} could not be read: ${reasonOf(error)}`);
    store.addFolder(uri, { base: uri, files: [], problems: [] });
  }
}

/** Reads the trees of all folders, while nothing else is to be done, and tells the editor how far it is. */
export async function readTrees({ connection, store, capabilities }: Session): Promise<void> {
  const progress = capabilities.window?.workDoneProgress
    ? await connection.window.createWorkDoneProgress()
    : undefined;
  const pace = Pace.behind();
  let [read, all] = [0, 0];
  const note = (done: number, of: number) => {
    [read, all] = [done, of];
  };
  progress?.begin('Reading the inventory', 0);
  try {
    for (const _ of store.readRest(note)) {
      if (!pace.isDue) continue;
      progress?.report(Math.floor((100 * read) / all), `${read} of ${all} files`);
      await pace.pause();
    }
  } finally {
    progress?.done();
  }
}
