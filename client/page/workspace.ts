/** The files that editors show, and edits to those that none shows. */

import { type LSPClient, LSPPlugin, Workspace, type WorkspaceFile } from '@codemirror/lsp-client';
import { Text } from '@codemirror/state';
import type { EditorView } from '@codemirror/view';
import type { Position, TextEdit, WorkspaceEdit } from 'vscode-languageserver-protocol';
import { type Opened, pathOf } from './opened.ts';

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
  }

  override displayFile(uri: string): Promise<EditorView | null> {
    return this.show(pathOf(uri));
  }

  /** Applies the edits of the server to all files that they are about. */
  applyEdit({ changes, documentChanges }: WorkspaceEdit): void {
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
        this.opened.change(pathOf(uri), edited(text, edits));
        this.told(uri);
      }
    }
  }

  /** Tells the server that a file changed that no editor shows. */
  told(uri: string, type: 1 | 2 | 3 = 2): void {
    this.client.notification('workspace/didChangeWatchedFiles', { changes: [{ uri, type }] });
  }
}
