/**
 * Builds the page into client/dist/page, or the folder that is given: static files for any web server. METAFILE names a file for what
 * each bundle consists of.
 */

import { createHash } from 'node:crypto';
import { copyFile, mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { writeLicenses } from '../../server/licenses.mjs';

const source = dirname(fileURLToPath(import.meta.url));
const client = dirname(source);
const root = dirname(client);
const dist = process.argv[2] ?? join(client, 'dist', 'page');

const common = {
  outdir: dist,
  bundle: true,
  metafile: true,
  minify: true,
  platform: 'browser',
  target: 'es2022',
  loader: { '.wood': 'text', '.md': 'text' },
  logLevel: 'warning',
};

await rm(dist, { recursive: true, force: true });
await mkdir(dist, { recursive: true });
const page = await build({ ...common, format: 'esm', entryPoints: { page: join(source, 'main.ts') } });
// What is not needed for the first finding is loaded where somebody asks for it.
const server = await build({
  ...common,
  format: 'esm',
  splitting: true,
  chunkNames: 'part-[hash]',
  entryPoints: { server: join(root, 'server', 'lsp', 'browser.ts') },
});
for (const name of ['index.html', 'page.css', 'page.webmanifest'])
  await copyFile(join(source, name), join(dist, name));
await copyFile(join(client, 'media', 'icon.png'), join(dist, 'icon.png'));
await copyFile(join(root, 'LICENSE'), join(dist, 'LICENSE.txt'));

const files = await Promise.all(
  (await readdir(dist)).sort().map(async url => ({
    url,
    revision: createHash('sha256')
      .update(await readFile(join(dist, url)))
      .digest('hex')
      .slice(0, 16),
  })),
);
const worker = await build({
  ...common,
  format: 'iife',
  entryPoints: { 'service-worker': join(source, 'service-worker.ts') },
  define: { FILES_OF_PAGE: JSON.stringify(files) },
});
// Of no use without a network connection, so not among the files that are kept.
await writeLicenses([page.metafile, server.metafile, worker.metafile], dist);
if (process.env.METAFILE) {
  const outputs = Object.assign({}, ...[page, server, worker].map(({ metafile }) => metafile.outputs));
  await writeFile(process.env.METAFILE, JSON.stringify({ outputs }));
}
