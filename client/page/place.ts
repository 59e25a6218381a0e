/** Where the text of an inventory lives. */

export interface Place {
  /** For people: the name of the folder or of the inventory. */
  readonly name: string;
  /** False where everything is gone when the page is closed. */
  readonly keeps: boolean;
  /** Paths of all files, with `/`, in order. */
  readonly list: () => Promise<readonly string[]>;
  /** Undefined if there is no such file. */
  readonly read: (path: string) => Promise<Blob | undefined>;
  /**
   * Of a file as it is now: as long as it is the same, nobody else wrote the file. Undefined where that is not known,
   * or there is no file.
   */
  readonly stamp: (path: string) => Promise<string | undefined>;
  /** Rejects with a Trouble if it could not be written; what was there before is then still there. */
  readonly write: (path: string, content: Blob | string) => Promise<void>;
  readonly remove: (path: string) => Promise<void>;
}

/** Its message is for people: what could not be done, and what to do about it. */
export class Trouble extends Error {}

/** For people. */
export const reasonOf = (error: unknown): string =>
  error instanceof Trouble ? error.message : String(error);

export const isInventory = (path: string): boolean => path.endsWith('.wood');

/** By folder and name, with numbers in their order. */
export const inOrder = (paths: Iterable<string>): readonly string[] =>
  [...paths].sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));

/** One segment after another, without `..`; undefined if it leads out of the folder. */
export function segmentsOf(path: string): readonly string[] | undefined {
  const segments = path.split('/').filter(segment => segment !== '' && segment !== '.');
  return segments.length === 0 || segments.includes('..') ? undefined : segments;
}

/** The stamp of files that nobody else can write. */
export const MINE = 'mine';

/** For browsers that keep nothing, such as some private windows. */
export function memoryPlace(name: string): Place {
  const files = new Map<string, Blob>();
  return {
    name,
    keeps: false,
    list: async () => inOrder(files.keys()),
    read: async path => files.get(path),
    stamp: async path => (files.has(path) ? MINE : undefined),
    write: async (path, content) => void files.set(path, new Blob([content])),
    remove: async path => void files.delete(path),
  };
}
