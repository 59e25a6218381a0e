/**
 * Bundles the extension, the program and the server for browsers into client/dist, or the folder that is given: CommonJS, as extension hosts
 * ask for it. METAFILE names a file for what each bundle consists of.
 */

import { copyFile, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { buildProgram } from '../server/build-program.mjs';
import { writeLicenses } from '../server/licenses.mjs';

const client = dirname(fileURLToPath(import.meta.url));
const root = dirname(client);
const dist = process.argv[2] ?? join(client, 'dist');

const common = {
  outdir: dist,
  bundle: true,
  metafile: true,
  format: 'cjs',
  minify: true,
  // Their texts are in LICENSES.txt.
  legalComments: 'none',
  target: 'es2022',
  external: ['vscode'],
  logLevel: 'warning',
};

// Its language server, its tasks and its commands are the program.
const program = await buildProgram(dist, { sourcemap: false });
const desktop = await build({
  ...common,
  platform: 'node',
  target: 'node20',
  entryPoints: { desktop: join(client, 'desktop.ts') },
});
const web = await build({ ...common, platform: 'browser', entryPoints: { web: join(client, 'web.ts') } });
const browser = await build({
  ...common,
  platform: 'browser',
  format: 'iife',
  entryPoints: { 'server-browser': join(root, 'server', 'lsp', 'browser.ts') },
});
for (const name of [
  'soundwood.tmLanguage.json',
  'markdown-injection.tmLanguage.json',
  'language-configuration.json',
])
  await copyFile(join(root, 'grammar', name), join(dist, name));
await copyFile(join(root, 'LICENSE'), join(dist, 'LICENSE.txt'));
const bundles = [...program, desktop.metafile, web.metafile, browser.metafile];
await writeLicenses(bundles, dist);
if (process.env.METAFILE) {
  const outputs = Object.assign({}, ...bundles.map(({ outputs }) => outputs));
  await writeFile(process.env.METAFILE, JSON.stringify({ outputs }));
}
