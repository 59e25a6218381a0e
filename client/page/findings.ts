/** Findings in the editor, and their quick fixes. */

import { type Action, type Diagnostic, setDiagnostics } from '@codemirror/lint';
import { LSPPlugin } from '@codemirror/lsp-client';
import type { EditorView, ViewUpdate } from '@codemirror/view';
import { ViewPlugin } from '@codemirror/view';
import type {
  CodeAction,
  DocumentDiagnosticReport,
  Diagnostic as Finding,
} from 'vscode-languageserver-protocol';
import type { Language } from './language.ts';

/** How long after the last key findings are asked for, in ms. */
const ASK_AFTER = 150;

const SEVERITIES = ['error', 'error', 'warning', 'info', 'hint'] as const;

/** The findings of a file, after each change. */
export interface FileFindings {
  readonly uri: string;
  /** Undefined if the file could not be checked. */
  readonly findings: readonly Finding[] | undefined;
}

/** Asks for the findings of the text after each change, and shows them. */
export const findings = (language: Language, found: (of: FileFindings) => void) =>
  ViewPlugin.fromClass(
    class {
      private timer: ReturnType<typeof setTimeout> | undefined;
      private asked = 0;
      private readonly end: () => void;

      constructor(private readonly view: EditorView) {
        this.end = language.onRefresh(() => this.soon());
        this.soon();
      }

      update({ docChanged }: ViewUpdate) {
        if (docChanged) this.soon();
      }

      destroy() {
        clearTimeout(this.timer);
        this.end();
      }

      private soon() {
        clearTimeout(this.timer);
        this.timer = setTimeout(() => void this.ask(), ASK_AFTER);
      }

      private async ask() {
        const { view } = this;
        const plugin = LSPPlugin.get(view);
        if (!plugin) return;
        const number = ++this.asked;
        const { client, uri } = plugin;
        client.sync();
        const { doc } = view.state;
        const report = await client
          .request<object, DocumentDiagnosticReport>('textDocument/diagnostic', { textDocument: { uri } })
          .catch(() => undefined);
        // A newer question is under way, or the text has changed since.
        if (number !== this.asked || doc !== view.state.doc) return;
        if (report?.kind !== 'full') {
          found({ uri, findings: undefined });
          return;
        }
        found({ uri, findings: report.items });
        const at = (position: Finding['range']['start']) => plugin.fromPosition(position);
        const shown = report.items.map(
          (item): Diagnostic => ({
            from: at(item.range.start),
            to: at(item.range.end),
            severity: SEVERITIES[item.severity ?? 1]!,
            message: item.message,
            source: String(item.code ?? ''),
            actions: [fixing(item)],
          }),
        );
        view.dispatch(setDiagnostics(view.state, shown));
      }
    },
  );

/** Everything in the text that has one meaning only, rewritten into the notation. */
export async function fixAll(view: EditorView): Promise<CodeAction | undefined> {
  const plugin = LSPPlugin.get(view);
  if (!plugin) return undefined;
  const { client, uri } = plugin;
  client.sync();
  const end = plugin.toPosition(view.state.doc.length);
  const actions = await client.request<object, readonly CodeAction[] | null>('textDocument/codeAction', {
    textDocument: { uri },
    range: { start: { line: 0, character: 0 }, end },
    context: { diagnostics: [], only: ['source.fixAll.soundwood'] },
  });
  return actions?.[0];
}

/** One button per finding: what can be done is asked when somebody wants it. */
const fixing = (finding: Finding): Action => ({
  name: 'Fix…',
  apply: view => void offerFixes(view, finding),
});

export async function fixesFor(view: EditorView, finding: Finding): Promise<readonly CodeAction[]> {
  const plugin = LSPPlugin.get(view);
  if (!plugin) return [];
  const { client, uri } = plugin;
  client.sync();
  const actions = await client.request<object, readonly CodeAction[] | null>('textDocument/codeAction', {
    textDocument: { uri },
    range: finding.range,
    context: { diagnostics: [finding], only: ['quickfix'] },
  });
  return actions ?? [];
}

/** Set by the page: shows the fixes of a finding for choosing. */
let offer: (fixes: readonly CodeAction[], view: EditorView) => void = () => {};
export const onOffer = (show: typeof offer): void => {
  offer = show;
};

async function offerFixes(view: EditorView, finding: Finding): Promise<void> {
  offer(await fixesFor(view, finding), view);
}
