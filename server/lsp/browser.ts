/**
 * The server as a web worker. It requests inventories and photographs from the extension, see requests.ts.
 */

import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
  type Message,
} from 'vscode-languageserver/browser.js';
import { dataUri } from '../base/data-uri.ts';
import { MOST_NAMED, type PhotoFile } from '../facts/photos.ts';
import { localToday } from '../host/clock.ts';
import { plain } from './json.ts';
import {
  FILES,
  type FilesParams,
  NAMED_PATHS,
  PHOTOS,
  type PhotoHead,
  type PhotosParams,
  type SourceText,
} from './requests.ts';
import { serve } from './server.ts';
import { folderOfUri, normalizeUri, pathIn } from './uris.ts';

const worker = globalThis as unknown as ConstructorParameters<typeof BrowserMessageReader>[0];
// Held until the worker ends, however that comes about: the extension waits for it (client/worker.ts).
// Pages that are not secure have no locks.
if (worker.name && 'locks' in navigator)
  navigator.locks.request(worker.name, () => new Promise(() => {})).catch(() => {});

/** Messages are copied as values. */
class Writer extends BrowserMessageWriter {
  override write(message: Message): Promise<void> {
    return super.write(plain(message));
  }
}

const connection = createConnection(new BrowserMessageReader(worker), new Writer(worker));
/** Loaded where an inventory names photographs: most of it is a package. */
const photoReader = () => import('../facts/read-photo.ts');
const requestFiles = (params: FilesParams) => connection.sendRequest<readonly SourceText[]>(FILES, params);

async function photoFile({ path, missing, head }: PhotoHead): Promise<PhotoFile> {
  if (missing) return { state: 'missing' };
  return head ? (await photoReader()).photoFileOf(path, head) : { state: 'read' };
}

serve(connection, {
  files: {
    async folder(uri) {
      const all = await requestFiles({ folder: uri });
      const files = all.filter(file => pathIn(normalizeUri(uri), normalizeUri(file.uri)) !== undefined);
      return { base: uri, files, problems: [] };
    },
    async read(uri) {
      const all = await requestFiles({ folder: folderOfUri(uri), file: uri });
      return all.find(file => normalizeUri(file.uri) === normalizeUri(uri))?.text;
    },
    async photos(folder, paths) {
      const { PHOTO_HEAD_BYTES } = await photoReader();
      const params: PhotosParams = { folder, paths, bytes: PHOTO_HEAD_BYTES };
      const heads = await connection.sendRequest<readonly PhotoHead[]>(PHOTOS, params);
      return new Map(await Promise.all(heads.map(async one => [one.path, await photoFile(one)] as const)));
    },
    namedPaths: folder =>
      connection.sendRequest<readonly string[]>(NAMED_PATHS, { folder, most: MOST_NAMED }),
    async photoPicture(folder, path) {
      const { PHOTO_HEAD_BYTES, readThumbnail } = await photoReader();
      const params: PhotosParams = { folder, paths: [path], bytes: PHOTO_HEAD_BYTES };
      const [found] = await connection.sendRequest<readonly PhotoHead[]>(PHOTOS, params);
      const thumbnail = found?.head && (await readThumbnail(found.head));
      return thumbnail && dataUri('image/jpeg', thumbnail);
    },
  },
  today: localToday,
  pageOf: () => undefined,
});
