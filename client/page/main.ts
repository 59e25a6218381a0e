/** Starts the page: the inventory of last time, of a link, or the sample to learn with. */

import { render } from 'preact';
import sample from '../media/sample.wood';
import { App } from './app.ts';
import { browserInventories, browserPlace } from './browser-place.ts';
import { html } from './html.ts';
import { SAMPLE } from './learn.ts';
import { Opened } from './opened.ts';
import { memoryPlace, type Place, reasonOf } from './place.ts';
import { recall, remember } from './remember.ts';
import { sharedText } from './share.ts';
import { chosen, dropped } from './take-in.ts';
import { keepPage } from './update.ts';

const LAST = 'soundwood.last';

async function first(): Promise<Opened> {
  const shared = sharedText(location.hash);
  if (shared !== undefined) return fromLink(shared);
  if (location.hash.startsWith('#text='))
    complaint = 'The link is damaged and its text could not be read. Ask for it again, or for the ZIP.';
  const last = recall(LAST);
  const kept = await browserInventories();
  const name = last !== null && kept.includes(last) ? last : kept[0];
  return name === undefined ? ofSample(await browserPlace(SAMPLE)) : Opened.of(await browserPlace(name));
}

const ofSample = (place: Place) => holding(place, 'sample.wood', sample);

/** Each text by itself: a second link never shows the text of the first. */
async function fromLink(text: string): Promise<Opened> {
  for (let i = 1; ; i++) {
    const place = await browserPlace(i === 1 ? 'From a link' : `From a link ${i}`);
    const opened = await holding(place, 'shared.wood', text);
    if (opened.text('shared.wood') === text) return opened;
  }
}

/** An inventory of one text; one of that name that is kept already is opened as it is. */
async function holding(place: Place, path: string, text: string): Promise<Opened> {
  // Nothing is lost with what is in memory alone until somebody changes it.
  if (!place.keeps) await place.write(path, text);
  const opened = await Opened.of(place);
  if (opened.paths.length === 0) opened.change(path, text);
  return opened;
}

let now: Opened | undefined;
let shown = 0;
let complaint: string | undefined;
let newer: (() => void) | undefined;

/** Shows another inventory; if it can't be opened, or the one at hand can't be kept, that one stays. */
async function show(next: Promise<Opened>): Promise<void> {
  complaint = undefined;
  try {
    const opened = await next;
    await leave();
    await opened.own(false);
    open(opened);
    remember(LAST, opened.place.name);
  } catch (error) {
    complaint = reasonOf(error);
    if (!now) open(await ofSample(memoryPlace(SAMPLE)));
  }
  draw();
}

async function leave(): Promise<void> {
  try {
    await now?.close();
  } catch (error) {
    if (!confirm(`${reasonOf(error)} Leave it all the same, and lose what is not kept?`)) throw error;
    await now?.close(true);
  }
}

function open(opened: Opened): void {
  now = opened;
  shown++;
  opened.listen();
}

function draw(): void {
  if (!now) return;
  const dismiss = () => {
    complaint = undefined;
    draw();
  };
  const choose = (one: Promise<Opened>) => void show(one);
  render(
    html`<${App} key=${shown} opened=${now} choose=${choose} complaint=${complaint} dismiss=${dismiss} newer=${newer} />`,
    document.body,
  );
}

const holdsFiles = ({ dataTransfer }: DragEvent) => dataTransfer?.types.includes('Files') === true;

document.addEventListener('dragover', event => {
  if (holdsFiles(event)) event.preventDefault();
});
// Before the editor, which would write the text of the files into its own.
document.addEventListener(
  'drop',
  event => {
    const { dataTransfer } = event;
    if (!dataTransfer || !holdsFiles(event)) return;
    event.preventDefault();
    event.stopPropagation();
    void show(dropped(dataTransfer.items) ?? chosen([...dataTransfer.files]));
  },
  { capture: true },
);

await show(first());
await keepPage(load => {
  newer = load;
  draw();
});
