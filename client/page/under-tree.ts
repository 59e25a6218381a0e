/** What is taken down under a tree: inspection, picture, position, words as spoken. The server knows where it goes. */

import { LSPPlugin } from '@codemirror/lsp-client';
import type { EditorView } from '@codemirror/view';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { TextEdit } from 'vscode-languageserver-protocol';
import { type TakenDown, VISIT, type VisitAnswer } from '../../server/lsp/requests.ts';
import { askAbout, later } from './ask.ts';
import { Dialog } from './dialog.ts';
import { html } from './html.ts';
import { recall, remember } from './remember.ts';

/** @param at offset in the text; that of the cursor if not stated */
export const visitAt = (view: EditorView, taken?: TakenDown, at = view.state.selection.main.head) =>
  askAbout<VisitAnswer>(view, VISIT, plugin => ({
    position: plugin.toPosition(at),
    ...(taken ? { taken } : {}),
  }));

/** Where a tree begins in the text; undefined if it is not in it. */
export function headOfTree({ state: { doc } }: EditorView, tag: string): number | undefined {
  for (let line = 1; line <= doc.lines; line++) {
    const { from, text } = doc.line(line);
    const [, written] = /^\s*tree\s+("[^"]*"|\S+)/.exec(text) ?? [];
    if (written === tag || written === `"${tag}"`) return from;
  }
  return undefined;
}

/** Writes edits, and puts the cursor behind the last of them. */
export function writeEdits(view: EditorView, edits: readonly TextEdit[]): void {
  const plugin = LSPPlugin.get(view);
  const last = edits.at(-1);
  if (!plugin || !last) return;
  const changes = view.state.changes(
    edits.map(({ range, newText }) => ({
      from: plugin.fromPosition(range.start),
      to: plugin.fromPosition(range.end),
      insert: newText,
    })),
  );
  const anchor = changes.mapPos(plugin.fromPosition(last.range.end), 1);
  view.dispatch({ changes, selection: { anchor }, scrollIntoView: true, userEvent: 'input.visit' });
}

type Answers = Readonly<Record<string, string>>;

/** Questions with their choices to tap. */
function Questions({
  questions,
  answer,
}: {
  questions: VisitAnswer['questions'];
  answer: (key: string, choice: string) => void;
}) {
  return questions.map(
    ({ key, asks, choices }) => html`<fieldset key=${key}>
      <legend>${asks}</legend>
      <div class="choices">
        ${choices.map(choice => html`<button onClick=${() => answer(key, choice)}>${choice}</button>`)}
      </div>
    </fieldset>`,
  );
}

/** Asks what stands before something can be written. */
export function AskFirst({
  visit,
  answer,
  close,
}: {
  visit: VisitAnswer;
  answer: (key: string, choice: string) => void;
  close: () => void;
}) {
  return html`<${Dialog} title=${`Tree ${visit.tree}`} close=${close}>
    <${Questions} questions=${visit.questions} answer=${answer} />
  <//>`;
}

const DRAFT = 'soundwood.spoken';
const BEFORE = 'soundwood.spoken-before';
/** Of what was spoken before, in case that something was read wrongly. */
const MOST_BEFORE = 20;

function spokenBefore(): readonly string[] {
  try {
    const kept: unknown = JSON.parse(recall(BEFORE) ?? '[]');
    return Array.isArray(kept) ? kept.filter(one => typeof one === 'string') : [];
  } catch {
    return [];
  }
}

/** How long after the last word it is read, in ms. */
const READ_AFTER = 300;

/** A field for the dictation of a phone: what it becomes is shown before it is written. */
export function Spoken({ view, by, close }: { view: EditorView; by: string | undefined; close: () => void }) {
  const [text, setText] = useState(() => recall(DRAFT) ?? '');
  const [answers, setAnswers] = useState<Answers>({});
  const [visit, setVisit] = useState<VisitAnswer>();
  const [failed, setFailed] = useState(false);
  const field = useRef<HTMLTextAreaElement>(null);
  useEffect(() => field.current?.focus(), []);
  useEffect(() => {
    remember(DRAFT, text);
    let isWanted = true;
    const reading = later(async () => {
      const spoken = text.trim();
      const taken = { spoken, answers, ...(by === undefined ? {} : { by }) };
      const answer = spoken === '' ? undefined : await visitAt(view, taken);
      if (!isWanted) return;
      setFailed(answer === null || answer === 'outdated');
      setVisit(answer === 'outdated' ? undefined : (answer ?? undefined));
    }, READ_AFTER);
    reading.soon();
    return () => {
      isWanted = false;
      reading.end();
    };
  }, [text, answers, by]);

  const written = visit?.edits.map(({ newText }) => newText.replace(/^\n+/, '')).join('\n') ?? '';
  const write = () => {
    if (!visit || written === '') return;
    writeEdits(view, visit.edits);
    const before = [text, ...spokenBefore().filter(one => one !== text)].slice(0, MOST_BEFORE);
    remember(BEFORE, JSON.stringify(before));
    remember(DRAFT, '');
    close();
  };
  const before = spokenBefore();
  return html`<${Dialog} title=${visit?.tree === undefined ? 'As spoken' : `As spoken, at tree ${visit.tree}`} close=${close}>
    <p>
      Speak or type as in the field, such as <q>cavity southwest 18 foot up, wall about 3 inches</q>. A line that begins with the
      number of another tree is about that one.
    </p>
    <textarea
      ref=${field}
      aria-label="As spoken"
      rows="4"
      value=${text}
      onInput=${(event: Event) => setText((event.target as HTMLTextAreaElement).value)}
    ></textarea>
    <div role="status" class="read">
      ${failed ? html`<p>This could not be understood. It stays here so that you can type it in yourself.</p>` : null}
      ${
        visit
          ? html`<${Questions}
              questions=${visit.questions}
              answer=${(key: string, choice: string) => setAnswers({ ...answers, [key]: choice })}
            />`
          : null
      }
      ${written === '' ? null : html`<pre tabindex="0" aria-label="What is written">${written}</pre>`}
      ${visit?.left.map(line => html`<p class="notice">To be corrected in the text: ${line}</p>`)}
      ${
        written !== '' && visit && visit.questions.length > 0
          ? html`<p>What you leave unanswered is kept in the text as it was spoken.</p>`
          : null
      }
    </div>
    <button class="main" disabled=${written === ''} onClick=${write}>Add to the text</button>
    ${
      before.length > 0 && text === ''
        ? html`<h3>Earlier entries</h3>
            ${before.map(one => html`<button onClick=${() => setText(one)}>${one}</button>`)}`
        : null
    }
  <//>`;
}
