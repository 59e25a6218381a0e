/** Files and folders that are chosen or dropped become an inventory in the browser's store. */

import { browserInventories, browserPlace } from './browser-place.ts';
import { Opened } from './opened.ts';
import { isInventory, type Place, Trouble } from './place.ts';
import { unzipped } from './zip.ts';

/** What may be of use in an inventory; a folder may hold anything. */
const OF_USE = /\.(?:wood|jpe?g|png|webp|heic|tiff?|csv)$/i;

/** A place of its own with these files. @throws Trouble if there is no room; then nothing of them is kept */
async function filled(name: string, files: ReadonlyMap<string, Blob>): Promise<Place> {
  const taken = new Set(await browserInventories());
  let free = name;
  for (let i = 2; taken.has(free); i++) free = `${name} ${i}`;
  const place = await browserPlace(free);
  try {
    for (const [path, content] of files) await place.write(path, content);
  } catch (error) {
    for (const path of files.keys()) await place.remove(path).catch(() => {});
    throw new Trouble(
      `${name} was not taken in, and is where it was. ${error instanceof Trouble ? error.message : String(error)}`,
    );
  }
  return place;
}

/** A ZIP, or files by themselves, by their paths. @throws Trouble if nothing of it is an inventory */
async function takeIn(name: string, files: ReadonlyMap<string, Blob>): Promise<Opened> {
  const all = new Map<string, Blob>();
  for (const [path, file] of files)
    if (path.toLowerCase().endsWith('.zip'))
      for (const [inside, content] of await unzipped(path, file)) all.set(inside, content);
    else if (OF_USE.test(path)) all.set(path, file);
  if (![...all.keys()].some(isInventory))
    throw new Trouble(`There is no inventory in ${name}: the names of inventories end in .wood.`);
  return Opened.of(await filled(name.replace(/\.[^.]*$/, ''), all));
}

/** Files from a dialog. */
export const chosen = (files: readonly File[]): Promise<Opened> =>
  takeIn(
    files[0]?.name ?? 'Inventory',
    new Map(files.map(file => [file.webkitRelativePath || file.name, file])),
  );

/** All that is dropped. To be called in the event itself: after it, browsers forget what was dropped. */
export function dropped(items: DataTransferItemList): Promise<Opened> | undefined {
  const entries = [...items].flatMap(item => item.webkitGetAsEntry() ?? []);
  const [first] = entries;
  if (!first) return undefined;
  const isOneFolder = entries.length === 1 && first.isDirectory;
  const read = async () => {
    const files = new Map<string, Blob>();
    for (const entry of entries)
      for await (const [path, file] of filesOf(entry))
        files.set(isOneFolder ? path.slice(first.name.length + 1) : path, file);
    return takeIn(first.name, files);
  };
  return read();
}

async function* filesOf(entry: FileSystemEntry): AsyncIterable<readonly [string, File]> {
  if (entry.isFile) {
    const file = await new Promise<File>((resolve, reject) =>
      (entry as FileSystemFileEntry).file(resolve, reject),
    );
    yield [entry.fullPath.replace(/^\//, ''), file];
    return;
  }
  const reader = (entry as FileSystemDirectoryEntry).createReader();
  // Browsers give no more than some of a folder at a time.
  for (;;) {
    const some = await new Promise<FileSystemEntry[]>((resolve, reject) =>
      reader.readEntries(resolve, reject),
    );
    if (some.length === 0) return;
    for (const one of some) yield* filesOf(one);
  }
}
