/** The text of one file in an editor that asks the language server. */

import {
  acceptCompletion,
  autocompletion,
  closeBrackets,
  closeBracketsKeymap,
  completionKeymap,
} from '@codemirror/autocomplete';
import { defaultKeymap, history, historyKeymap, indentWithTab } from '@codemirror/commands';
import { foldGutter, foldService, indentOnInput, indentService, indentUnit } from '@codemirror/language';
import { lintGutter, lintKeymap } from '@codemirror/lint';
import {
  findReferencesKeymap,
  formatKeymap,
  hoverTooltips,
  jumpToDefinitionKeymap,
  LSPPlugin,
  serverCompletion,
} from '@codemirror/lsp-client';
import { highlightSelectionMatches, searchKeymap } from '@codemirror/search';
import { EditorState } from '@codemirror/state';
import {
  drawSelection,
  EditorView,
  hasHoverTooltips,
  highlightActiveLine,
  keymap,
  lineNumbers,
} from '@codemirror/view';
import type { CodeAction, WorkspaceEdit } from 'vscode-languageserver-protocol';
import configuration from '../../grammar/language-configuration.json';
import { type FileFindings, findings } from './findings.ts';
import type { Language } from './language.ts';
import { uriOf } from './opened.ts';
import { semanticColors } from './tokens.ts';
import { changedWhereItLies, type InventoryWorkspace } from './workspace.ts';

const UNIT = '  ';
const opens = new RegExp(configuration.indentationRules.increaseIndentPattern);
const closes = new RegExp(configuration.indentationRules.decreaseIndentPattern);
const indentOf = (line: string): number => /^ */.exec(line)![0].length;

/** As editors do that read the same configuration: below a head two spaces more, else as the line before. */
const indentation = indentService.of((context, at) => {
  const { number } = context.state.doc.lineAt(at);
  const text = number > 1 ? context.state.doc.line(number - 1).text : '';
  if (text.trim() === '') return 0;
  return indentOf(text) + (opens.test(text) ? UNIT.length : 0);
});

/** What is indented below a line folds with it. */
const folding = foldService.of((state, from) => {
  const first = state.doc.lineAt(from);
  if (first.text.trim() === '') return null;
  let last = first;
  for (let i = first.number + 1; i <= state.doc.lines; i++) {
    const line = state.doc.line(i);
    if (line.text.trim() === '') continue;
    if (indentOf(line.text) <= indentOf(first.text)) break;
    last = line;
  }
  return last === first ? null : { from: first.to, to: last.to };
});

/** Asks for another name of what the cursor is on, and writes it wherever that is meant. */
const rename = (view: EditorView): boolean => {
  const plugin = LSPPlugin.get(view);
  if (!plugin) return false;
  const { client, uri } = plugin;
  const where = {
    textDocument: { uri },
    position: plugin.toPosition(view.state.selection.main.head),
  };
  const ask = async () => {
    client.sync();
    const found = await client.request<object, { readonly placeholder?: string } | null>(
      'textDocument/prepareRename',
      where,
    );
    const newName = found && prompt('New name', found.placeholder ?? '');
    if (!newName) return;
    const edit = await client.request<object, WorkspaceEdit | null>('textDocument/rename', {
      ...where,
      newName,
    });
    if (edit) (client.workspace as InventoryWorkspace).applyEdit(edit);
  };
  ask().catch(error => plugin.reportError('Not renamed', error));
  return true;
};

export interface EditorEvents {
  readonly changed: (text: string) => void;
  /** A marked word was pointed at, or another one. */
  readonly hovered: () => void;
  /** Line from 0. */
  readonly moved: (line: number) => void;
  readonly found: (of: FileFindings) => void;
  /** Quick fixes about a finding, to choose from. */
  readonly offered: (fixes: readonly CodeAction[]) => void;
}

export function editorOf(
  parent: HTMLElement,
  language: Language,
  { path, text, readOnly }: { readonly path: string; readonly text: string; readonly readOnly: boolean },
  events: EditorEvents,
): EditorView {
  const state = EditorState.create({
    doc: text,
    extensions: [
      lineNumbers(),
      foldGutter(),
      folding,
      lintGutter(),
      history(),
      drawSelection(),
      highlightActiveLine(),
      highlightSelectionMatches(),
      indentUnit.of(UNIT),
      indentation,
      indentOnInput(),
      EditorState.languageData.of(() => [
        { commentTokens: { line: '#' }, closeBrackets: { brackets: ['"'] }, indentOnInput: closes },
      ]),
      closeBrackets(),
      autocompletion({ activateOnTypingDelay: 60 }),
      EditorView.lineWrapping,
      EditorState.readOnly.of(readOnly),
      EditorState.changeFilter.of(change => !readOnly || change.annotation(changedWhereItLies) === true),
      EditorView.contentAttributes.of({
        'aria-label': path,
        'aria-description': 'Tab indents. Escape, then Tab, leaves the text.',
        tabindex: '0',
        spellcheck: 'false',
        autocapitalize: 'off',
      }),
      keymap.of([
        { key: 'Tab', run: acceptCompletion },
        ...closeBracketsKeymap,
        ...completionKeymap,
        ...lintKeymap,
        ...searchKeymap,
        ...historyKeymap,
        ...formatKeymap,
        { key: 'F2', run: rename },
        ...jumpToDefinitionKeymap,
        ...findReferencesKeymap,
        ...defaultKeymap,
        indentWithTab,
      ]),
      language.client.plugin(uriOf(path), 'soundwood'),
      serverCompletion({ override: true }),
      hoverTooltips(),
      semanticColors,
      findings(language, events.found, events.offered),
      EditorView.updateListener.of(update => {
        if (hasHoverTooltips(update.state)) events.hovered();
        if (update.docChanged) events.changed(update.state.doc.toString());
        if (update.docChanged || update.selectionSet)
          events.moved(update.state.doc.lineAt(update.state.selection.main.head).number - 1);
      }),
    ],
  });
  return new EditorView({ state, parent });
}
