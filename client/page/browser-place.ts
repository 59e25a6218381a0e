/** Inventories in the browser's own store. */

import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import { inOrder, MINE, memoryPlace, type Place, Trouble } from './place.ts';

interface Kept {
  readonly inventory: string;
  readonly path: string;
  readonly content: Blob | string;
}

interface Schema extends DBSchema {
  readonly files: { key: [string, string]; value: Kept; indexes: { inventory: string } };
  /** Folders on the disk that were open, by name, with what the browser needs to open them again. */
  readonly folders: {
    key: string;
    value: { readonly name: string; readonly handle: FileSystemDirectoryHandle };
  };
}

/** Undefined where the browser has no store, as in some private windows. */
const database: Promise<IDBPDatabase<Schema> | undefined> = (async () =>
  openDB<Schema>('soundwood', 1, {
    upgrade(db) {
      db.createObjectStore('files', { keyPath: ['inventory', 'path'] }).createIndex('inventory', 'inventory');
      db.createObjectStore('folders', { keyPath: 'name' });
    },
  }))().catch(() => undefined);

/** Names of the inventories that the browser keeps. */
export async function browserInventories(): Promise<readonly string[]> {
  const keys = (await (await database)?.getAllKeys('files')) ?? [];
  return inOrder(new Set(keys.map(([inventory]) => inventory)));
}

/** In memory alone where the browser has no store. */
export async function browserPlace(inventory: string): Promise<Place> {
  const db = await database;
  if (!db) return memoryPlace(inventory);
  return {
    name: inventory,
    keeps: true,
    async list() {
      const keys = await db.getAllKeysFromIndex('files', 'inventory', inventory);
      return inOrder(keys.map(([, path]) => path));
    },
    async read(path) {
      const kept = await db.get('files', [inventory, path]);
      return kept && (typeof kept.content === 'string' ? new Blob([kept.content]) : kept.content);
    },
    // The tab that writes holds a lock; pages that are not secure have none.
    async stamp(path) {
      if (!('locks' in navigator)) return undefined;
      return (await db.getKey('files', [inventory, path])) && MINE;
    },
    async write(path, content) {
      askToStay();
      try {
        await db.put('files', { inventory, path, content });
      } catch (error) {
        throw error instanceof DOMException && error.name === 'QuotaExceededError'
          ? new Trouble(
              'The browser has run out of storage. Download the inventory as a ZIP, then delete what you no longer need here.',
            )
          : new Trouble(`The browser could not keep it (${String(error)}). Download the inventory as a ZIP.`);
      }
    },
    remove: path => db.delete('files', [inventory, path]),
  };
}

let isAsked = false;

/** Browsers that run out of room clear the stores that nobody asked them to keep. */
function askToStay(): void {
  if (isAsked || !navigator.storage?.persist) return;
  isAsked = true;
  navigator.storage.persist().catch(() => {});
}

export async function keepFolder(handle: FileSystemDirectoryHandle): Promise<void> {
  await (await database)?.put('folders', { name: handle.name, handle });
}

export async function keptFolders(): Promise<readonly FileSystemDirectoryHandle[]> {
  return ((await (await database)?.getAll('folders')) ?? []).map(({ handle }) => handle);
}
