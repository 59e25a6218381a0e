/** Which inventory is open, and how others get in and out: a folder, a ZIP, the browser's own store. */

import { useEffect, useRef, useState } from 'preact/hooks';
import { browserInventories, browserPlace, keepFolder, keptFolders } from './browser-place.ts';
import { diskPlace, hasDisk, mayOpen, pickFolder } from './disk-place.ts';
import { html } from './html.ts';
import { Opened } from './opened.ts';
import { save } from './panels.ts';
import { isInventory, reasonOf, segmentsOf, Trouble } from './place.ts';
import { linkTo } from './share.ts';
import { chosen } from './take-in.ts';
import { zipOf } from './zip.ts';

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
  const openFolder = async (handle: FileSystemDirectoryHandle): Promise<Opened> => {
    if (!(await mayOpen(handle)))
      throw new Trouble(
        `The browser gave no access to the folder ${handle.name}. Open it again and allow it, or drop it on the page: then a copy is kept in the browser.`,
      );
    await keepFolder(handle);
    return Opened.of(diskPlace(handle));
  };
  const menu = useRef<HTMLDetailsElement>(null);
  const shut = () => {
    if (menu.current) menu.current.open = false;
  };
  const take = (next: Promise<Opened>) => {
    shut();
    choose(next);
  };
  const pick = async () => {
    const handle = await pickFolder();
    if (handle) take(openFolder(handle));
  };
  const download = async () => {
    shut();
    const zip = await zipOf(opened).catch(error => alert(`No ZIP could be made: ${reasonOf(error)}`));
    if (zip) save(`${opened.place.name}.zip`, zip, 'application/zip');
  };
  const remove = () => {
    shut();
    if (path !== undefined && confirm(`Delete ${path}? You can restore it until the page is closed.`))
      opened.remove(path);
  };
  const share = async () => {
    const link = path === undefined ? undefined : linkTo(opened.text(path) ?? '');
    if (link === undefined) alert('This text is too long for a link: send the ZIP.');
    else await navigator.clipboard.writeText(link);
  };
  const addFile = () => {
    shut();
    const name = prompt('Name of the new file', 'trees.wood')?.trim();
    if (!name) return;
    const full = (segmentsOf(isInventory(name) ? name : `${name}.wood`) ?? []).join('/');
    if (full === '') {
      alert(`${name} leads out of the inventory: give a name such as trees.wood.`);
      return;
    }
    if (opened.text(full) === undefined) opened.put(full, '');
    setPath(full);
  };
  return html`<div class="places">
    <label><span>File</span>
      <select aria-label="File" value=${path} onChange=${(event: Event) => setPath((event.target as HTMLSelectElement).value)}>
        ${opened.paths.map(one => html`<option value=${one}>${one}</option>`)}
      </select>
    </label>
    <details ref=${menu}>
      <summary>${opened.place.name}</summary>
      <div class="menu">
        <button onClick=${addFile} disabled=${!opened.mayWrite}>New file…</button>
        <button onClick=${remove} disabled=${path === undefined || !opened.mayWrite}>Delete this file…</button>
        <button onClick=${() => void download()}>Download as ZIP</button>
        <button onClick=${() => void share()}>Copy a link to this text</button>
        <label class="button">Open files or a ZIP…
          <input type="file" multiple accept=".wood,.zip,image/*" onChange=${(event: Event) => {
            const files = [...((event.target as HTMLInputElement).files ?? [])];
            if (files.length > 0) take(chosen(files));
          }} />
        </label>
        ${hasDisk() ? html`<button onClick=${() => void pick()}>Open a folder on this device…</button>` : null}
        ${folders.map(handle => html`<button onClick=${() => take(openFolder(handle))}>Folder ${handle.name}</button>`)}
        ${kept
          .filter(name => name !== opened.place.name)
          .map(
            name => html`<button onClick=${() => take(browserPlace(name).then(Opened.of))}>${name}</button>`,
          )}
      </div>
    </details>
  </div>`;
}
