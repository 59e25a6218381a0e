/** A folder on the disk, where the browser gives access to one (File System Access, a draft of the WICG). */

import { inOrder, type Place, segmentsOf, Trouble } from './place.ts';

const SKIPPED: ReadonlySet<string> = new Set(['node_modules', '.git']);

export const hasDisk = (): boolean => 'showDirectoryPicker' in window;

/** Asks for a folder; undefined if the question is dismissed. */
export async function pickFolder(): Promise<FileSystemDirectoryHandle | undefined> {
  const pick = (
    window as unknown as { showDirectoryPicker(options: object): Promise<FileSystemDirectoryHandle> }
  ).showDirectoryPicker;
  try {
    return await pick.call(window, { id: 'soundwood', mode: 'readwrite' });
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return undefined;
    throw error;
  }
}

/** Whether the folder may be read and written, after asking where the browser wants it. */
export async function mayOpen(handle: FileSystemDirectoryHandle): Promise<boolean> {
  const asked = handle as unknown as { requestPermission?(how: object): Promise<PermissionState> };
  return ((await asked.requestPermission?.({ mode: 'readwrite' })) ?? 'granted') === 'granted';
}

async function* filesIn(folder: FileSystemDirectoryHandle, prefix = ''): AsyncIterable<string> {
  for await (const [name, handle] of folder.entries()) {
    if (handle.kind === 'file') yield `${prefix}${name}`;
    else if (!SKIPPED.has(name)) yield* filesIn(handle as FileSystemDirectoryHandle, `${prefix}${name}/`);
  }
}

export function diskPlace(root: FileSystemDirectoryHandle): Place {
  const folderOf = async (segments: readonly string[], create: boolean) => {
    let folder = root;
    for (const segment of segments.slice(0, -1))
      folder = await folder.getDirectoryHandle(segment, { create });
    return folder;
  };
  const read = async (path: string): Promise<File | undefined> => {
    const segments = segmentsOf(path);
    if (!segments) return undefined;
    try {
      const folder = await folderOf(segments, false);
      return await (await folder.getFileHandle(segments.at(-1)!)).getFile();
    } catch (error) {
      if (error instanceof DOMException && ['NotFoundError', 'TypeMismatchError'].includes(error.name))
        return undefined;
      throw error;
    }
  };
  return {
    name: root.name,
    keeps: true,
    async list() {
      const paths: string[] = [];
      for await (const path of filesIn(root)) paths.push(path);
      return inOrder(paths);
    },
    read,
    async stamp(path) {
      const file = await read(path);
      return file && `${file.lastModified} ${file.size}`;
    },
    async write(path, content) {
      const segments = segmentsOf(path);
      if (!segments) throw new Trouble(`${path} is not the path of a file in this folder.`);
      try {
        const folder = await folderOf(segments, true);
        const handle = await folder.getFileHandle(segments.at(-1)!, { create: true });
        // Written beside the file, and put in its place when it is whole.
        const stream = await handle.createWritable();
        await stream.write(content);
        await stream.close();
      } catch (error) {
        throw new Trouble(
          `${path} could not be written (${String(error)}). Download the inventory as a ZIP.`,
        );
      }
    },
    async remove(path) {
      const segments = segmentsOf(path);
      if (!segments) return;
      try {
        await (await folderOf(segments, false)).removeEntry(segments.at(-1)!);
      } catch (error) {
        if (error instanceof DOMException && error.name === 'NotFoundError') return;
        throw new Trouble(`${path} could not be deleted (${String(error)}).`);
      }
    },
  };
}
