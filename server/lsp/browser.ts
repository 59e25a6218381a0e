/**
 * The server as a worker of a browser. It asks the editor for the inventories: the request `soundwood/files`
 * takes `{ folder }` and is answered with `{ uri, text }[]` of every .wood file; those outside the folder are
 * passed over. For one that changed, `{ folder, file }` is asked, and its answer searched for the file.
 */

import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
} from 'vscode-languageserver/browser.js';
import { localToday } from './clock.ts';
import type { SourceText } from './files.ts';
import { serve } from './server.ts';
import { folderOfUri, normal, pathIn } from './uris.ts';

const worker = globalThis as unknown as ConstructorParameters<typeof BrowserMessageReader>[0];
const connection = createConnection(new BrowserMessageReader(worker), new BrowserMessageWriter(worker));
const ask = (params: { readonly folder: string; readonly file?: string }) =>
  connection.sendRequest<readonly SourceText[]>('soundwood/files', params);

serve(connection, {
  files: {
    async folder(uri) {
      const all = await ask({ folder: uri });
      const files = all.filter(file => pathIn(normal(uri), normal(file.uri)) !== undefined);
      return { base: uri, files, problems: [] };
    },
    async read(uri) {
      const all = await ask({ folder: folderOfUri(uri), file: uri });
      return all.find(file => normal(file.uri) === normal(uri))?.text;
    },
  },
  today: localToday,
  pageOf: () => undefined,
});
