/** The words that can come next, and what is taken down under a tree: for one hand and no keyboard. */

import { insertCompletionText, snippet } from '@codemirror/autocomplete';
import { deleteCharBackward, insertNewlineAndIndent, undo } from '@codemirror/commands';
import { LSPPlugin } from '@codemirror/lsp-client';
import { EditorView } from '@codemirror/view';
import type { RefObject } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import type { CompletionItem, CompletionList } from 'vscode-languageserver-protocol';
import { folderOf } from '../../server/facts/paths.ts';
import type { TakenDown, VisitAnswer } from '../../server/lsp/requests.ts';
import { askAbout } from './ask.ts';
import { KEEPS_FOCUS } from './dialog.ts';
import { html } from './html.ts';
import { type Language, todayIso } from './language.ts';
import type { Opened } from './opened.ts';
import { reasonOf } from './place.ts';
import { recall, remember } from './remember.ts';
import { AskFirst, headOfTree, Spoken, visitAt, writeEdits } from './under-tree.ts';

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

/** What can't be asked within five seconds is said to have failed. */
const MOST_TRIES = 50;
const BETWEEN_TRIES = 100;

/** Who looks at the trees, from one visit to the next. */
const PERSON = 'soundwood.person';
const NO_TREE = 'First put the cursor in the record of a tree.';

export function NextWords({
  view,
  language,
  line,
  opened,
  path,
  openList,
}: {
  view: EditorRef;
  language: Language;
  line: number;
  opened: Opened;
  path: string | undefined;
  openList: () => void;
}) {
  const [items, setItems] = useState<readonly CompletionItem[]>([]);
  const [visit, setVisit] = useState<VisitAnswer>();
  const [asking, setAsking] = useState<{ readonly taken: TakenDown; readonly visit: VisitAnswer }>();
  const [isPad, setPad] = useState(false);
  const [isSpeaking, setSpeaking] = useState(false);
  const [chosen, setChosen] = useState(() => recall(PERSON));
  const [complaint, setComplaint] = useState<string>();
  const text = path === undefined ? '' : (opened.text(path) ?? '');
  const at = view.current?.state.selection.main.head;
  const persons = visit?.persons ?? [];
  const lookerOf = (people: VisitAnswer['persons']) =>
    (people.find(({ id }) => id === chosen) ?? people[0])?.id;
  const by = lookerOf(persons);

  useEffect(() => {
    const editor = view.current;
    if (!editor) return;
    let isWanted = true;
    const timer = setTimeout(async () => {
      const list = askAbout<CompletionList>(editor, 'textDocument/completion', plugin => ({
        position: plugin.toPosition(editor.state.selection.main.head),
      }));
      const [words, here] = await Promise.all([list, visitAt(editor)]);
      if (!isWanted) return;
      if (words !== 'outdated') setItems(words?.items.slice(0, MOST) ?? []);
      if (here !== 'outdated') setVisit(here ?? undefined);
    }, 120);
    return () => {
      isWanted = false;
      clearTimeout(timer);
    };
  }, [language, text, line, at, path]);

  // The pad leaves less room: the line of the cursor stays in sight.
  useEffect(() => {
    const editor = view.current;
    if (editor && isPad)
      editor.dispatch({ effects: EditorView.scrollIntoView(editor.state.selection.main.head) });
  }, [isPad]);

  const write = (what: string) => {
    const editor = view.current;
    if (!editor) return;
    const { from, to } = editor.state.selection.main;
    if (what === '⌫') deleteCharBackward(editor);
    else if (what === '⏎') insertNewlineAndIndent(editor);
    else editor.dispatch(insertCompletionText(editor.state, what, from, to));
  };
  /** Asked anew while somebody types, or the editor is not ready yet: the answer is about the text as it is now. */
  const settled = async (ask: (editor: EditorView) => ReturnType<typeof visitAt>) => {
    for (let tries = 0; tries < MOST_TRIES; tries++) {
      const editor = view.current;
      const answer = editor && (await ask(editor));
      if (answer && answer !== 'outdated' && view.current === editor) return { editor, answer };
      await new Promise(later => setTimeout(later, BETWEEN_TRIES));
    }
    return undefined;
  };
  /** The tree of the cursor at this moment: what is shown beside it may be of the one before. */
  const treeHere = async () => (await settled(editor => visitAt(editor)))?.answer.tree;
  /**
   * Writes what was taken down, or asks what stands before it.
   * @param tree tag of the tree that it is of, where the cursor may have moved since; else that of the cursor
   */
  const takeDown = async (taken: TakenDown, tree?: string) => {
    setComplaint(undefined);
    // Who looks may not be known yet just after a file was opened.
    const here = visit?.persons.length ? visit : (await settled(editor => visitAt(editor)))?.answer;
    const who = lookerOf(here?.persons ?? []);
    const full = { ...taken, ...(who === undefined ? {} : { by: who }) };
    const found = await settled(editor => {
      const at = tree === undefined ? editor.state.selection.main.head : headOfTree(editor, tree);
      return at === undefined ? Promise.resolve(null) : visitAt(editor, full, at);
    });
    const answer = found?.answer;
    if (!answer) setComplaint('This could not be written. Try again.');
    else if (answer.tree === undefined) setComplaint(NO_TREE);
    else if (answer.questions.length > 0) setAsking({ taken: full, visit: answer });
    else {
      setAsking(undefined);
      writeEdits(found!.editor, answer.edits);
    }
  };
  const answered = (key: string, choice: string) => {
    if (asking)
      void takeDown(
        { ...asking.taken, answers: { ...asking.taken.answers, [key]: choice } },
        asking.visit.tree,
      );
  };
  const picture = async (file: File) => {
    if (path === undefined) return;
    const [, type = 'jpg'] = /\.(\w+)$/.exec(file.name.toLowerCase()) ?? [];
    try {
      const tree = await treeHere();
      const name = await opened.addPicture(file, path, todayIso(), type);
      const folder = folderOf(path);
      await takeDown({ picture: folder === '' ? name : `${folder}/${name}` }, tree);
      if (tree === undefined) setComplaint(`The picture is kept as ${name}. ${NO_TREE}`);
    } catch (error) {
      setComplaint(`The picture was not kept. ${reasonOf(error)}`);
    }
  };
  const position = async () => {
    const tree = await treeHere();
    if (tree === undefined) setComplaint(NO_TREE);
    else
      navigator.geolocation.getCurrentPosition(
        ({ coords: { latitude, longitude, accuracy } }) =>
          void takeDown({ position: { latitude, longitude, within: accuracy } }, tree),
        ({ message }) => setComplaint(`The position is not known: ${message}`),
        { enableHighAccuracy: true, timeout: 30_000 },
      );
  };
  const choose = (id: string) => {
    setChosen(id);
    remember(PERSON, id);
  };
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
    ${
      complaint === undefined
        ? null
        : html`<p class="notice" role="alert">
            ${complaint} <button class="link" onClick=${() => setComplaint(undefined)}>Close</button>
          </p>`
    }
    <div class="row next-words">
      ${items.length === 0 ? html`<span>Nothing can follow here.</span>` : null}
      ${items.map(item => html`<button ...${KEEPS_FOCUS} onClick=${() => take(item)}>${item.label}</button>`)}
    </div>
    <div class="row">
      <button class="of-pad" aria-pressed=${isPad} ...${KEEPS_FOCUS} onClick=${() => setPad(!isPad)}>123</button>
      <button ...${KEEPS_FOCUS} onClick=${() => void takeDown({ inspection: true })}>Seen from…</button>
      <button onClick=${() => setSpeaking(true)}>As spoken…</button>
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
      ${'geolocation' in navigator ? html`<button ...${KEEPS_FOCUS} onClick=${() => void position()}>Here</button>` : null}
      <button ...${KEEPS_FOCUS} onClick=${() => write(`${todayIso()} `)}>Today</button>
      ${
        persons.length > 0
          ? html`<select
              aria-label="Who looks"
              value=${by}
              onChange=${(event: Event) => choose((event.target as HTMLSelectElement).value)}
            >
              ${persons.map(({ id, name }) => html`<option value=${id}>${name}</option>`)}
            </select>`
          : null
      }
      <button onClick=${openList}>Go to…</button>
      <button ...${KEEPS_FOCUS} onClick=${() => view.current && undo(view.current)}>Undo</button>
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
    ${
      asking
        ? html`<${AskFirst} visit=${asking.visit} answer=${answered} close=${() => setAsking(undefined)} />`
        : null
    }
    ${
      isSpeaking && view.current
        ? html`<${Spoken} view=${view.current} by=${by} close=${() => setSpeaking(false)} />`
        : null
    }
  </div>`;
}
