/** Findings in the editor, and their quick fixes. */

import { type Diagnostic, setDiagnostics } from '@codemirror/lint';
import { LSPPlugin } from '@codemirror/lsp-client';
import { type EditorView, ViewPlugin, type ViewUpdate } from '@codemirror/view';
import type {
  CodeAction,
  DocumentDiagnosticReport,
  Diagnostic as Finding,
  Range,
} from 'vscode-languageserver-protocol';
import { askAbout, later } from './ask.ts';
import type { Language } from './language.ts';

/** How long after the last key findings are asked for, in ms. */
const ASK_AFTER = 50;

const SEVERITIES = ['error', 'error', 'warning', 'info', 'hint'] as const;

/** The findings of a file, after each change. */
export interface FileFindings {
  readonly uri: string;
  /** Undefined if the file could not be checked. */
  readonly findings: readonly Finding[] | undefined;
}

type Offer = (fixes: readonly CodeAction[]) => void;

/** Asks for the findings of the text after each change, and shows them. */
export const findings = (language: Language, found: (of: FileFindings) => void, offer: Offer) =>
  ViewPlugin.fromClass(
    class {
      private asked = 0;
      private readonly asking = later(() => void this.ask(), ASK_AFTER);
      private readonly end: () => void;

      constructor(private readonly view: EditorView) {
        this.end = language.onRefresh(this.asking.soon);
        this.asking.soon();
      }

      update({ docChanged }: ViewUpdate) {
        if (docChanged) this.asking.soon();
      }

      destroy() {
        this.asking.end();
        this.end();
      }

      private async ask() {
        const { view } = this;
        const plugin = LSPPlugin.get(view);
        const number = ++this.asked;
        const report = await askAbout<DocumentDiagnosticReport>(view, 'textDocument/diagnostic');
        // A newer question is under way.
        if (!plugin || report === 'outdated' || number !== this.asked) return;
        const { uri } = plugin;
        if (report?.kind !== 'full') {
          found({ uri, findings: undefined });
          return;
        }
        found({ uri, findings: report.items });
        const shown = report.items.map(
          (item): Diagnostic => ({
            from: plugin.fromPosition(item.range.start),
            to: plugin.fromPosition(item.range.end),
            severity: SEVERITIES[item.severity ?? 1]!,
            message: item.message,
            source: String(item.code ?? ''),
            // One button: what can be done is asked when somebody wants it.
            actions: [{ name: 'Fix…', apply: () => void fixesFor(view, item).then(offer) }],
          }),
        );
        view.dispatch(setDiagnostics(view.state, shown));
      }
    },
  );

async function actionsFor(
  view: EditorView,
  kind: string,
  range: Range,
  diagnostics: readonly Finding[],
): Promise<readonly CodeAction[]> {
  const context = { diagnostics, only: [kind] };
  const actions = await askAbout<readonly CodeAction[]>(view, 'textDocument/codeAction', () => ({
    range,
    context,
  }));
  return actions === 'outdated' ? [] : (actions ?? []);
}

export const fixesFor = (view: EditorView, finding: Finding): Promise<readonly CodeAction[]> =>
  actionsFor(view, 'quickfix', finding.range, [finding]);

/** Everything in the text that has one meaning only, rewritten into the notation. */
export async function fixAll(view: EditorView): Promise<CodeAction | undefined> {
  const { doc } = view.state;
  const end = { line: doc.lines - 1, character: doc.line(doc.lines).length };
  const range = { start: { line: 0, character: 0 }, end };
  return (await actionsFor(view, 'source.fixAll.soundwood', range, []))[0];
}
