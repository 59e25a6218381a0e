/** Bundles the extension and its two servers into client/dist: CommonJS, as extension hosts ask for it. */

import { copyFile, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const client = dirname(fileURLToPath(import.meta.url));
const root = dirname(client);
const dist = join(client, 'dist');

const common = {
  outdir: dist,
  bundle: true,
  format: 'cjs',
  minify: true,
  target: 'es2022',
  external: ['vscode'],
  logLevel: 'warning',
};

await rm(dist, { recursive: true, force: true });
await build({
  ...common,
  platform: 'node',
  target: 'node20',
  entryPoints: {
    desktop: join(client, 'desktop.ts'),
    'server-node': join(root, 'server', 'lsp', 'node.ts'),
  },
});
await build({ ...common, platform: 'browser', entryPoints: { web: join(client, 'web.ts') } });
await build({
  ...common,
  platform: 'browser',
  format: 'iife',
  entryPoints: { 'server-browser': join(root, 'server', 'lsp', 'browser.ts') },
});
for (const name of ['soundwood.tmLanguage.json', 'language-configuration.json'])
  await copyFile(join(root, 'grammar', name), join(dist, name));
await copyFile(join(root, 'LICENSE'), join(dist, 'LICENSE.txt'));
