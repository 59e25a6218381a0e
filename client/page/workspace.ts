/** The files that editors show, and edits to those that none shows. */

import { isolateHistory } from '@codemirror/commands';
import { type LSPClient, LSPPlugin, Workspace, type WorkspaceFile } from '@codemirror/lsp-client';
import { Annotation, Text } from '@codemirror/state';
import type { EditorView } from '@codemirror/view';
import type { Position, TextEdit, WorkspaceEdit } from 'vscode-languageserver-protocol';
import { type FileChange, type Opened, pathOf, uriOf } from './opened.ts';

/** Of a text that is shown anew because it changed where it lies: a text that may not be written takes no other change. */
export const changedWhereItLies = Annotation.define<true>();

class OpenFile implements WorkspaceFile {
  constructor(
    readonly uri: string,
    readonly languageId: string,
    public version: number,
    public doc: Text,
    readonly view: EditorView,
  ) {}
  getView(): EditorView {
    return this.view;
  }
}

const offsetIn = (doc: Text, { line, character }: Position): number => {
  if (line >= doc.lines) return doc.length;
  const { from, to } = doc.line(line + 1);
  return Math.min(to, from + character);
};

/** Edits in the order of their places, so that each begins where the text is still as it was asked about. */
function edited(text: string, edits: readonly TextEdit[]): string {
  const doc = Text.of(text.split('\n'));
  const placed = edits
    .map(({ range, newText }) => ({
      from: offsetIn(doc, range.start),
      to: offsetIn(doc, range.end),
      newText,
    }))
    .sort((a, b) => b.from - a.from);
  return placed.reduce((left, { from, to, newText }) => left.slice(0, from) + newText + left.slice(to), text);
}

/** The stretch in which two texts differ. */
function differing(
  before: string,
  after: string,
): { readonly from: number; readonly to: number; readonly insert: string } {
  const most = Math.min(before.length, after.length);
  let start = 0;
  while (start < most && before[start] === after[start]) start++;
  let end = 0;
  while (end < most - start && before.at(-1 - end) === after.at(-1 - end)) end++;
  return { from: start, to: before.length - end, insert: after.slice(start, after.length - end) };
}

export class InventoryWorkspace extends Workspace {
  override files: OpenFile[] = [];
  private readonly versions = new Map<string, number>();

  constructor(
    client: LSPClient,
    private readonly opened: Opened,
    private readonly show: (path: string) => Promise<EditorView | null>,
  ) {
    super(client);
  }

  private nextVersion(uri: string): number {
    const version = (this.versions.get(uri) ?? -1) + 1;
    this.versions.set(uri, version);
    return version;
  }

  override syncFiles() {
    return this.files.flatMap(file => {
      const plugin = LSPPlugin.get(file.view);
      if (!plugin || plugin.unsyncedChanges.empty) return [];
      const update = { changes: plugin.unsyncedChanges, file, prevDoc: file.doc };
      file.doc = file.view.state.doc;
      file.version = this.nextVersion(file.uri);
      plugin.clear();
      return [update];
    });
  }

  override openFile(uri: string, languageId: string, view: EditorView): void {
    const file = new OpenFile(uri, languageId, this.nextVersion(uri), view.state.doc, view);
    this.files.push(file);
    this.client.didOpen(file);
  }

  override closeFile(uri: string, view: EditorView): void {
    this.files = this.files.filter(file => file.uri !== uri || file.view !== view);
    this.client.didClose(uri);
    // What it takes for the file is as old as the last time it read it.
    this.told(uri, this.opened.text(pathOf(uri)) === undefined ? 3 : 2);
  }

  override displayFile(uri: string): Promise<EditorView | null> {
    return this.show(pathOf(uri));
  }

  /** Applies the edits of the server to all files that they are about. */
  applyEdit({ changes, documentChanges }: WorkspaceEdit): void {
    if (!this.opened.mayWrite) return;
    const all = new Map<string, readonly TextEdit[]>([
      ...Object.entries(changes ?? {}),
      ...(documentChanges ?? []).flatMap((one): [string, TextEdit[]][] =>
        'edits' in one ? [[one.textDocument.uri, one.edits as TextEdit[]]] : [],
      ),
    ]);
    for (const [uri, edits] of all) {
      const view = this.files.find(file => file.uri === uri)?.view;
      if (view)
        view.dispatch({
          changes: edits.map(({ range, newText }) => ({
            from: offsetIn(view.state.doc, range.start),
            to: offsetIn(view.state.doc, range.end),
            insert: newText,
          })),
          userEvent: 'input.fix',
        });
      else {
        const text = this.opened.text(pathOf(uri));
        if (text === undefined) continue;
        this.opened.put(pathOf(uri), edited(text, edits));
      }
    }
  }

  /** A file changed by something else than its editor. */
  changedElsewhere(path: string, change: FileChange): void {
    const uri = uriOf(path);
    const view = this.files.find(file => file.uri === uri)?.view;
    const text = this.opened.text(path);
    if (!view || text === undefined) this.told(uri, change);
    else if (view.state.doc.toString() !== text)
      view.dispatch({
        changes: differing(view.state.doc.toString(), text),
        // A step of its own in what can be undone.
        annotations: [changedWhereItLies.of(true), isolateHistory.of('full')],
      });
  }

  private told(uri: string, type: FileChange): void {
    this.client.notification('workspace/didChangeWatchedFiles', { changes: [{ uri, type }] });
  }
}
