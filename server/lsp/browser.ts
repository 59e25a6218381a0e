/**
 * The server as a worker of a browser. It asks the editor for the inventories: the request `soundwood/files`
 * takes `{ folder }` and is answered with `{ uri, text }[]` of every .wood file; those outside the folder are
 * passed over. For one that changed, `{ folder, file }` is asked, and its answer searched for the file. The request
 * `soundwood/photos` takes `{ folder, paths, bytes }` and is answered with `{ path, missing, head }[]`: whether the
 * file is missing, and its first bytes where they could be had; what is not in the answer stays unknown.
 */

import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
} from 'vscode-languageserver/browser.js';
import type { PhotoFile } from '../facts/photos.ts';
import { PHOTO_HEAD_BYTES, photoFileOf } from '../facts/read-photo.ts';
import { localToday } from '../host/clock.ts';
import type { SourceText } from './files.ts';
import { serve } from './server.ts';
import { folderOfUri, normalizeUri, pathIn } from './uris.ts';

const worker = globalThis as unknown as ConstructorParameters<typeof BrowserMessageReader>[0];
const connection = createConnection(new BrowserMessageReader(worker), new BrowserMessageWriter(worker));
const ask = (params: { readonly folder: string; readonly file?: string }) =>
  connection.sendRequest<readonly SourceText[]>('soundwood/files', params);

interface PhotoHead {
  readonly path: string;
  readonly missing: boolean;
  readonly head?: Uint8Array;
}

async function photoFile({ missing, head }: PhotoHead): Promise<PhotoFile> {
  if (missing) return { state: 'missing' };
  return head ? photoFileOf(head) : { state: 'read' };
}

serve(connection, {
  files: {
    async folder(uri) {
      const all = await ask({ folder: uri });
      const files = all.filter(file => pathIn(normalizeUri(uri), normalizeUri(file.uri)) !== undefined);
      return { base: uri, files, problems: [] };
    },
    async read(uri) {
      const all = await ask({ folder: folderOfUri(uri), file: uri });
      return all.find(file => normalizeUri(file.uri) === normalizeUri(uri))?.text;
    },
    async photos(folder, paths) {
      const params = { folder, paths, bytes: PHOTO_HEAD_BYTES };
      const heads = await connection.sendRequest<readonly PhotoHead[]>('soundwood/photos', params);
      return new Map(await Promise.all(heads.map(async one => [one.path, await photoFile(one)] as const)));
    },
  },
  today: localToday,
  pageOf: () => undefined,
});
