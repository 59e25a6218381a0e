/** Colours of words by what they are, from the server's semantic tokens (LSP 3.17). */

import { LSPPlugin } from '@codemirror/lsp-client';
import { RangeSetBuilder } from '@codemirror/state';
import {
  Decoration,
  type DecorationSet,
  type EditorView,
  ViewPlugin,
  type ViewUpdate,
} from '@codemirror/view';
import type { SemanticTokens } from 'vscode-languageserver-protocol';
import { askAbout, later } from './ask.ts';

const ASK_AFTER = 80;

export const semanticColors = ViewPlugin.fromClass(
  class {
    decorations: DecorationSet = Decoration.none;
    private readonly asking = later(() => void this.ask(), ASK_AFTER);

    constructor(private readonly view: EditorView) {
      this.asking.soon();
    }

    update({ docChanged, changes, viewportChanged }: ViewUpdate) {
      if (docChanged) this.decorations = this.decorations.map(changes);
      if (docChanged || viewportChanged) this.asking.soon();
    }

    destroy() {
      this.asking.end();
    }

    private async ask() {
      const { view } = this;
      const { from, to } = view.viewport;
      const tokens = await askAbout<SemanticTokens>(view, 'textDocument/semanticTokens/range', plugin => ({
        range: { start: plugin.toPosition(from), end: plugin.toPosition(to) },
      }));
      if (!tokens || tokens === 'outdated') return;
      const { doc } = view.state;
      const { serverCapabilities } = LSPPlugin.get(view)!.client;
      const types = serverCapabilities?.semanticTokensProvider?.legend.tokenTypes ?? [];
      const builder = new RangeSetBuilder<Decoration>();
      let line = 0;
      let column = 0;
      for (let i = 0; i + 4 < tokens.data.length; i += 5) {
        const [down, right, length, type] = tokens.data.slice(i, i + 4) as [number, number, number, number];
        line += down;
        column = down > 0 ? right : column + right;
        const start = doc.line(line + 1).from + column;
        builder.add(start, start + length, Decoration.mark({ class: `token-${types[type]}` }));
      }
      this.decorations = builder.finish();
      view.dispatch({});
    }
  },
  { decorations: plugin => plugin.decorations },
);
