/** Which inventory is open, and how others get in and out: a folder, a ZIP, the browser's own store. */

import { useEffect, useState } from 'preact/hooks';
import { browserInventories, browserPlace, keepFolder, keptFolders } from './browser-place.ts';
import { diskPlace, hasDisk, mayOpen, pickFolder } from './disk-place.ts';
import { html } from './html.ts';
import { Opened } from './opened.ts';
import { save } from './panels.ts';
import { isInventory, type Place, segmentsOf } from './place.ts';
import { linkTo } from './share.ts';
import { unzipped, zipOf } from './zip.ts';

async function filled(name: string, files: ReadonlyMap<string, Blob>): Promise<Place> {
  const taken = new Set(await browserInventories());
  let free = name;
  for (let i = 2; taken.has(free); i++) free = `${name} ${i}`;
  const place = await browserPlace(free);
  for (const [path, content] of files)
    await place.write(path, isInventory(path) ? await content.text() : content);
  return place;
}

/** Puts dropped or chosen files into the browser's store: a ZIP, or files by themselves. */
export async function takeIn(files: readonly File[]): Promise<Opened> {
  const all = new Map<string, Blob>();
  for (const file of files) {
    if (file.name.endsWith('.zip'))
      for (const [path, content] of await unzipped(file)) all.set(path, content);
    else all.set(file.webkitRelativePath || file.name, file);
  }
  const first = files[0];
  const name = first
    ? (first.webkitRelativePath.split('/')[0] || first.name).replace(/\.[^.]*$/, '')
    : 'Inventory';
  return Opened.of(await filled(name, all));
}

export function PlacesMenu({
  opened,
  choose,
  path,
  setPath,
}: {
  opened: Opened;
  choose: (next: Promise<Opened>) => void;
  path: string | undefined;
  setPath: (path: string) => void;
}) {
  const [kept, setKept] = useState<readonly string[]>([]);
  const [folders, setFolders] = useState<readonly FileSystemDirectoryHandle[]>([]);
  const look = () => {
    void browserInventories().then(setKept);
    void keptFolders().then(setFolders);
  };
  useEffect(look, [opened]);
  const openFolder = async (handle: FileSystemDirectoryHandle | undefined) => {
    if (!handle || !(await mayOpen(handle))) return;
    await keepFolder(handle);
    choose(Opened.of(diskPlace(handle)));
  };
  const download = async () =>
    save(
      `${opened.place.name}.zip`,
      await zipOf(opened.place, new Map(opened.paths.map(one => [one, opened.text(one)!]))),
      'application/zip',
    );
  const share = async () => {
    const link = path === undefined ? undefined : linkTo(opened.text(path) ?? '');
    if (link === undefined) alert('This text is too long for a link: send the ZIP.');
    else await navigator.clipboard.writeText(link);
  };
  const addFile = () => {
    const name = prompt('Name of the new file', 'trees.wood')?.trim();
    if (!name) return;
    const full = (segmentsOf(isInventory(name) ? name : `${name}.wood`) ?? []).join('/');
    if (full === '') {
      alert(`${name} leads out of the inventory: give a name such as trees.wood.`);
      return;
    }
    if (opened.text(full) === undefined) opened.change(full, '');
    setPath(full);
  };
  return html`<div class="places">
    <label><span>File</span>
      <select aria-label="File" value=${path} onChange=${(event: Event) => setPath((event.target as HTMLSelectElement).value)}>
        ${opened.paths.map(one => html`<option value=${one}>${one}</option>`)}
      </select>
    </label>
    <details>
      <summary>${opened.place.name}</summary>
      <div class="menu">
        <button onClick=${addFile}>New file…</button>
        <button onClick=${() => void download()}>Download as ZIP</button>
        <button onClick=${() => void share()}>Copy a link to this text</button>
        <label class="button">Open files or a ZIP…
          <input type="file" multiple accept=".wood,.zip,image/*" onChange=${(event: Event) => {
            const files = [...((event.target as HTMLInputElement).files ?? [])];
            if (files.length > 0) choose(takeIn(files));
          }} />
        </label>
        ${hasDisk() ? html`<button onClick=${() => void pickFolder().then(openFolder)}>Open a folder on this device…</button>` : null}
        ${folders.map(handle => html`<button onClick=${() => void openFolder(handle)}>Folder ${handle.name}</button>`)}
        ${kept
          .filter(name => name !== opened.place.name)
          .map(
            name =>
              html`<button onClick=${() => choose(browserPlace(name).then(Opened.of))}>${name}</button>`,
          )}
      </div>
    </details>
  </div>`;
}
