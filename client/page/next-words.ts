/** A row of the words that can come next, for one hand and no keyboard. */

import { insertCompletionText, snippet } from '@codemirror/autocomplete';
import { LSPPlugin } from '@codemirror/lsp-client';
import type { EditorView } from '@codemirror/view';
import type { RefObject } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import type { CompletionItem, CompletionList } from 'vscode-languageserver-protocol';
import { askAbout } from './ask.ts';
import { KEEPS_FOCUS } from './dialog.ts';
import { html } from './html.ts';
import { type Language, todayIso } from './language.ts';
import type { Opened } from './opened.ts';
import { reasonOf } from './place.ts';

/** More do not fit a row that is looked through with a thumb. */
const MOST = 24;
/** In rows of six: digits below the thumb, units beside them. */
const PAD: readonly (readonly [shown: string, said?: string])[] = [
  ['1'],
  ['2'],
  ['3'],
  [' ft', 'feet'],
  [' in', 'inches'],
  [' %', 'percent'],
  ['4'],
  ['5'],
  ['6'],
  [' m', 'meters'],
  [' cm', 'centimeters'],
  [' deg', 'degrees'],
  ['7'],
  ['8'],
  ['9'],
  ['~', 'about'],
  ['<', 'less than'],
  ['>', 'more than'],
  ['.', 'point'],
  ['0'],
  ['..', 'to'],
  [', ', 'comma'],
  ['⌫', 'Delete'],
  ['⏎', 'New line'],
];

type EditorRef = RefObject<EditorView | undefined>;

export function NextWords({
  view,
  language,
  line,
  opened,
  path,
}: {
  view: EditorRef;
  language: Language;
  line: number;
  opened: Opened;
  path: string | undefined;
}) {
  const [items, setItems] = useState<readonly CompletionItem[]>([]);
  const [isPad, setPad] = useState(false);
  const text = path === undefined ? '' : (opened.text(path) ?? '');
  const at = view.current?.state.selection.main.head;

  useEffect(() => {
    const editor = view.current;
    if (!editor) return;
    let isWanted = true;
    const timer = setTimeout(async () => {
      const list = await askAbout<CompletionList>(editor, 'textDocument/completion', plugin => ({
        position: plugin.toPosition(editor.state.selection.main.head),
      }));
      if (isWanted && list !== 'outdated') setItems(list?.items.slice(0, MOST) ?? []);
    }, 120);
    return () => {
      isWanted = false;
      clearTimeout(timer);
    };
  }, [language, text, line, at, path]);

  const write = (what: string) => {
    const editor = view.current;
    if (!editor) return;
    const { from, to } = editor.state.selection.main;
    if (what === '⌫')
      editor.dispatch({
        changes: { from: Math.max(0, from === to ? from - 1 : from), to },
        userEvent: 'delete.backward',
      });
    else editor.dispatch(insertCompletionText(editor.state, what === '⏎' ? '\n  ' : what, from, to));
  };
  /** A line of its own below the line of the cursor, indented as that one. */
  const writeLine = (what: string) => {
    const editor = view.current;
    if (!editor) return;
    const { to, text: here } = editor.state.doc.lineAt(editor.state.selection.main.head);
    const insert = `${here.trim() === '' ? '' : '\n'}${/^ */.exec(here)![0]}${what}`;
    editor.dispatch({ changes: { from: to, insert }, selection: { anchor: to + insert.length } });
  };
  const picture = async (file: File) => {
    if (path === undefined) return;
    const [, type = 'jpg'] = /\.(\w+)$/.exec(file.name.toLowerCase()) ?? [];
    try {
      writeLine(`photo ${await opened.addPicture(file, path, todayIso(), type)}`);
    } catch (error) {
      alert(`The picture was not kept. ${reasonOf(error)}`);
    }
  };
  const position = () =>
    navigator.geolocation.getCurrentPosition(
      ({ coords: { latitude, longitude, accuracy } }) =>
        writeLine(
          `position ${latitude.toFixed(5)}, ${longitude.toFixed(5)} # within ${Math.ceil(accuracy)} m, by this device`,
        ),
      ({ message }) => alert(`The position is not known: ${message}`),
      { enableHighAccuracy: true, timeout: 30_000 },
    );
  const take = (item: CompletionItem) => {
    const editor = view.current;
    const plugin = editor && LSPPlugin.get(editor);
    if (!editor || !plugin || !item.textEdit || !('range' in item.textEdit)) return;
    const { range, newText } = item.textEdit;
    const [from, to] = [plugin.fromPosition(range.start), plugin.fromPosition(range.end)];
    if (item.insertTextFormat === 2) snippet(newText)(editor, null, from, to);
    else editor.dispatch(insertCompletionText(editor.state, `${newText} `, from, to));
  };
  return html`<div class="next" role="toolbar" aria-label="What can come next">
    <div class="row next-words">
      ${items.map(item => html`<button ...${KEEPS_FOCUS} onClick=${() => take(item)}>${item.label}</button>`)}
    </div>
    <div class="row">
      <button class="of-pad" aria-pressed=${isPad} ...${KEEPS_FOCUS} onClick=${() => setPad(!isPad)}>123</button>
      <button ...${KEEPS_FOCUS} onClick=${() => write(`${todayIso()} `)}>Today</button>
      <label class="button">
        Picture
        <input
          type="file"
          accept="image/*"
          capture="environment"
          onChange=${(event: Event) => {
            const input = event.target as HTMLInputElement;
            const file = input.files?.[0];
            if (file) void picture(file);
            input.value = '';
          }}
        />
      </label>
      ${'geolocation' in navigator ? html`<button ...${KEEPS_FOCUS} onClick=${position}>Here</button>` : null}
    </div>
    ${
      isPad
        ? html`<div class="pad" role="group" aria-label="Figures and units">
          ${PAD.map(
            ([one, said]) =>
              html`<button aria-label=${said} ...${KEEPS_FOCUS} onClick=${() => write(one)}>${one.trim()}</button>`,
          )}
        </div>`
        : null
    }
  </div>`;
}
