/** An inventory as one ZIP file, out and in. */

import { unzipSync, type Zippable, zipSync } from 'fflate';
import type { Opened } from './opened.ts';
import { isInventory, segmentsOf, Trouble } from './place.ts';

/** All files of an inventory, with its texts as they are now. */
export async function zipOf(opened: Opened): Promise<Blob> {
  const files: Zippable = {};
  const isText = new Set(opened.paths);
  for (const path of await opened.place.list()) {
    if (isText.has(path) || opened.state.unsaved.includes(path)) continue;
    const content = await opened.place.read(path);
    // Pictures are compressed already.
    if (content)
      files[path] = [new Uint8Array(await content.arrayBuffer()), { level: isInventory(path) ? 6 : 0 }];
  }
  for (const path of isText) files[path] = new TextEncoder().encode(opened.raw(path));
  const bytes = zipSync(files);
  return new Blob([bytes.slice()], { type: 'application/zip' });
}

/** The files of a ZIP by their paths; paths that lead out of it are left out. @throws Trouble if it can't be read */
export async function unzipped(name: string, content: Blob): Promise<ReadonlyMap<string, Blob>> {
  const bytes = new Uint8Array(await content.arrayBuffer());
  const files = (() => {
    try {
      return unzipSync(bytes);
    } catch {
      throw new Trouble(`${name} is damaged, or no ZIP. Save it again where it comes from.`);
    }
  })();
  return new Map(
    Object.entries(files).flatMap(([path, data]): [string, Blob][] => {
      const segments = path.endsWith('/') ? undefined : segmentsOf(path.replaceAll('\\', '/'));
      return segments ? [[segments.join('/'), new Blob([data.slice()])]] : [];
    }),
  );
}
