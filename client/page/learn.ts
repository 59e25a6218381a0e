/** What to try with the sample: the steps of the extension's walkthrough, ticked off as they are done. */

import { useState } from 'preact/hooks';
import findings from '../media/findings.md';
import fix from '../media/fix.md';
import preview from '../media/preview.md';
import report from '../media/report.md';
import { contributes } from '../package.json';
import { Dialog } from './dialog.ts';
import { html } from './html.ts';
import { htmlOf } from './markdown.ts';
import { recall, remember } from './remember.ts';

/** Name of the inventory to learn with. */
export const SAMPLE = 'Sample';

const MORE = { findings, fix, preview, report };
export type LearnStep = keyof typeof MORE;

const STEPS = (contributes.walkthroughs[0]?.steps ?? [])
  .filter((step): step is typeof step & { id: LearnStep } => step.id in MORE)
  // The last line leads to a command of the editor.
  .map(({ id, title, description }) => ({ id, title, words: description.split('\n')[0]! }));

const DONE = 'soundwood.learned';
const CLOSED = 'closed';

const kept = (): readonly string[] => (recall(DONE) ?? '').split(' ').filter(Boolean);

/** The steps that were done, with a function that notes another one. */
export function useLearned(): readonly [done: readonly string[], did: (step: string) => void] {
  const [done, setDone] = useState(kept);
  const did = (step: string) => {
    if (kept().includes(step)) return;
    remember(DONE, [...kept(), step].join(' '));
    setDone(kept());
  };
  return [done, did];
}

export function Learn({
  done,
  go,
  close,
}: {
  done: readonly string[];
  go: (step: LearnStep) => void;
  close: () => void;
}) {
  const [open, setOpen] = useState<LearnStep>();
  const next = STEPS.find(({ id }) => !done.includes(id));
  if (done.includes(CLOSED)) return null;
  return html`<section class="learn" aria-label="To try">
    <ol>
      ${STEPS.map(({ id, title, words }, i) => {
        const isDone = done.includes(id);
        return html`<li class=${isDone ? 'done' : id === next?.id ? 'next-step' : ''}>
          <p>
            <span class="tick" role="img" aria-label=${isDone ? 'Done' : `Step ${i + 1} of ${STEPS.length}`}>
              ${isDone ? '✓' : i + 1}
            </span>
            <button class="link step" onClick=${() => go(id)}>${title}</button>
          </p>
          <p class="words">${words} <button class="link" aria-label=${`More on: ${title}`} onClick=${() => setOpen(id)}>More</button></p>
        </li>`;
      })}
    </ol>
    ${
      next
        ? null
        : html`<p class="words" role="status">
            All done. Open your own folder, ZIP or files from the menu above; the sample stays.
          </p>`
    }
    <button class="quiet" aria-label="Close the steps" onClick=${close}>Close</button>
    ${
      open
        ? html`<${Dialog} title=${STEPS.find(({ id }) => id === open)!.title} close=${() => setOpen(undefined)}>
            <div class="words" dangerouslySetInnerHTML=${{ __html: htmlOf(MORE[open]) }}></div>
          <//>`
        : null
    }
  </section>`;
}

export const LEARN_CLOSED = CLOSED;
