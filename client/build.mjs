/**
 * Bundles the extension and its two servers into client/dist, or the folder that is given: CommonJS, as extension hosts
 * ask for it. METAFILE names a file for what each bundle consists of.
 */

import { copyFile, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const client = dirname(fileURLToPath(import.meta.url));
const root = dirname(client);
const dist = process.argv[2] ?? join(client, 'dist');

const common = {
  outdir: dist,
  bundle: true,
  metafile: true,
  format: 'cjs',
  minify: true,
  target: 'es2022',
  external: ['vscode'],
  logLevel: 'warning',
};

await rm(dist, { recursive: true, force: true });
const desktop = await build({
  ...common,
  platform: 'node',
  target: 'node20',
  entryPoints: {
    desktop: join(client, 'desktop.ts'),
    'server-node': join(root, 'server', 'lsp', 'node.ts'),
  },
});
const web = await build({ ...common, platform: 'browser', entryPoints: { web: join(client, 'web.ts') } });
const browser = await build({
  ...common,
  platform: 'browser',
  format: 'iife',
  entryPoints: { 'server-browser': join(root, 'server', 'lsp', 'browser.ts') },
});
for (const name of ['soundwood.tmLanguage.json', 'language-configuration.json'])
  await copyFile(join(root, 'grammar', name), join(dist, name));
await copyFile(join(root, 'LICENSE'), join(dist, 'LICENSE.txt'));
if (process.env.METAFILE) {
  const outputs = Object.assign({}, ...[desktop, web, browser].map(({ metafile }) => metafile.outputs));
  await writeFile(process.env.METAFILE, JSON.stringify({ outputs }));
}
