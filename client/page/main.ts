/** Starts the page: the inventory of last time, of a link, or the sample to learn with. */

import { render } from 'preact';
import sample from '../media/sample.wood';
import { App } from './app.ts';
import { browserInventories, browserPlace } from './browser-place.ts';
import { html } from './html.ts';
import { SAMPLE } from './learn.ts';
import { Opened } from './opened.ts';
import { takeIn } from './places-menu.ts';
import { sharedText } from './share.ts';

const LAST = 'soundwood.last';

async function first(): Promise<Opened> {
  const shared = sharedText(location.hash);
  if (shared !== undefined) return fromLink(shared);
  if (location.hash.startsWith('#text='))
    alert('The link is damaged, and its text could not be read. Ask for it again, or for the ZIP.');
  const last = localStorage.getItem(LAST);
  const kept = await browserInventories();
  const name = last !== null && kept.includes(last) ? last : kept[0];
  return name === undefined ? holding(SAMPLE, 'sample.wood', sample) : Opened.of(await browserPlace(name));
}

/** Each text by itself: a second link never shows the text of the first. */
async function fromLink(text: string): Promise<Opened> {
  for (let i = 1; ; i++) {
    const opened = await holding(i === 1 ? 'From a link' : `From a link ${i}`, 'shared.wood', text);
    if (opened.text('shared.wood') === text) return opened;
    await opened.close();
  }
}

/** An inventory of one text; one of that name that is kept already is opened as it is. */
async function holding(name: string, path: string, text: string): Promise<Opened> {
  const place = await browserPlace(name);
  const opened = await Opened.of(place);
  if (opened.paths.length === 0) opened.change(path, text);
  return opened;
}

let now: Opened | undefined;
let shown = 0;

async function show(next: Promise<Opened>): Promise<void> {
  const opened = await next;
  await now?.close();
  now = opened;
  opened.listen();
  localStorage.setItem(LAST, opened.place.name);
  shown++;
  render(
    html`<${App} key=${shown} opened=${opened} choose=${(one: Promise<Opened>) => void show(one)} />`,
    document.body,
  );
}

document.addEventListener('dragover', event => event.preventDefault());
document.addEventListener('drop', event => {
  event.preventDefault();
  const files = [...(event.dataTransfer?.files ?? [])];
  if (files.length > 0) void show(takeIn(files));
});

await show(first());
if ('serviceWorker' in navigator) await navigator.serviceWorker.register('service-worker.js');
