/** Where the text of an inventory lives. */

export interface Place {
  /** For people: the name of the folder or of the inventory. */
  readonly name: string;
  /** Paths of all files, with `/`, in order. */
  readonly list: () => Promise<readonly string[]>;
  /** Undefined if there is no such file. */
  readonly read: (path: string) => Promise<Blob | undefined>;
  /** Rejects with a NotSaved if it could not be written; what was there before is then still there. */
  readonly write: (path: string, content: Blob | string) => Promise<void>;
  readonly remove: (path: string) => Promise<void>;
}

/** For people: why something was not saved, and what to do. */
export class NotSaved extends Error {}

export const isInventory = (path: string): boolean => path.endsWith('.wood');

/** By folder and name, with numbers in their order. */
export const inOrder = (paths: Iterable<string>): readonly string[] =>
  [...paths].sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));

/** One segment after another, without `..`; undefined if it leads out of the folder. */
export function segmentsOf(path: string): readonly string[] | undefined {
  const segments = path.split('/').filter(segment => segment !== '' && segment !== '.');
  return segments.length === 0 || segments.includes('..') ? undefined : segments;
}
