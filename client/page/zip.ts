/** An inventory as one ZIP file, out and in. */

import { unzipSync, type Zippable, zipSync } from 'fflate';
import { isInventory, type Place, segmentsOf } from './place.ts';

/** All files of a place. */
export async function zipOf(place: Place, unsaved: ReadonlyMap<string, string>): Promise<Blob> {
  const files: Zippable = {};
  for (const path of await place.list()) {
    const content = await place.read(path);
    // Pictures are compressed already.
    if (content)
      files[path] = [new Uint8Array(await content.arrayBuffer()), { level: isInventory(path) ? 6 : 0 }];
  }
  for (const [path, text] of unsaved) files[path] = new TextEncoder().encode(text);
  const bytes = zipSync(files);
  return new Blob([bytes.slice()], { type: 'application/zip' });
}

/** The files of a ZIP by their paths; paths that lead out of it are left out. */
export async function unzipped(content: Blob): Promise<ReadonlyMap<string, Blob>> {
  const bytes = new Uint8Array(await content.arrayBuffer());
  const files = unzipSync(bytes);
  return new Map(
    Object.entries(files).flatMap(([path, data]): [string, Blob][] => {
      const segments = path.endsWith('/') ? undefined : segmentsOf(path.replaceAll('\\', '/'));
      return segments ? [[segments.join('/'), new Blob([data.slice()])]] : [];
    }),
  );
}
