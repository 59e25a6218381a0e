/** Bundles the program: what `soundwood` loads, on the command line and in the extension. */

import { createHash } from 'node:crypto';
import { chmod, mkdir, readdir, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const server = dirname(fileURLToPath(import.meta.url));

/**
 * Commander loads child_process for subcommands that are programs of their own. There are none here, and loading it
 * would cost every start several milliseconds.
 */
const withoutSubprograms = {
  name: 'without subprograms',
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^node:child_process$/ }, ({ path, importer }) =>
      importer.includes('/commander/') ? { path, namespace: 'none' } : undefined,
    );
    onLoad({ filter: /.*/, namespace: 'none' }, () => ({ contents: 'module.exports = {};' }));
  },
};

/** Large packages that a check does without, by the file each is bundled into: a start does not read them. */
const APART = {
  'clipper2-ts': 'clipper2-ts',
  'cli-progress': 'cli-progress',
  'csv-parse': 'csv-parse',
  exifr: 'exifr',
  'fast-glob': 'fast-glob',
  'hyparquet-writer': 'hyparquet-writer',
  'sql.js': 'sqlite',
  'vscode-languageserver': 'vscode-languageserver',
  // The whole of the package, with what only Node has.
  'vscode-languageserver/node.js': 'vscode-languageserver',
  'vscode-languageserver-types': 'vscode-languageserver-types',
};

/** With its WebAssembly in the same file. */
const ENTRIES = { 'sql.js': 'sql.js/dist/sql-wasm-inline.js' };

const packagesApart = {
  name: 'packages apart',
  setup({ onResolve }) {
    onResolve({ filter: /^[a-z]/ }, ({ path, importer, kind }) =>
      kind !== 'entry-point' && path in APART && !importer.includes('/node_modules/')
        ? { path: `./${APART[path]}.js`, external: true }
        : undefined,
    );
  },
};

export const common = {
  metafile: true,
  bundle: true,
  platform: 'node',
  target: 'node20.19',
  minify: true,
  // Their texts are in LICENSES.txt.
  legalComments: 'none',
  sourcemap: 'linked',
  sourcesContent: false,
  logLevel: 'warning',
};

/**
 * The program is read as Latin-1, which is faster. The bundler writes ASCII but for regular expressions, in which an escape
 * means the same as the letter.
 */
const inAscii = text =>
  text.replace(/[\u0080-\uffff]/g, unit => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`);

/**
 * Replaces the folder by the program; the page for browsers, which is built by itself, stays in it.
 * @returns what the bundler says of each bundle
 */
export async function buildProgram(dist, options = {}) {
  const settings = { ...common, ...options, outdir: dist };
  const old = (await readdir(dist).catch(() => [])).filter(name => name !== 'page');
  for (const name of old) await rm(join(dist, name), { recursive: true });
  const main = await build({
    ...settings,
    entryPoints: { 'parts/main': join(server, 'cli', 'main.ts') },
    plugins: [withoutSubprograms, packagesApart],
    format: 'cjs',
    supported: { 'dynamic-import': false },
    define: { 'import.meta.url': 'importMetaUrl' },
    // One function expression, to be run as a script that has a code cache.
    banner: {
      js: "(function (exports, require, module, __filename, __dirname) { const importMetaUrl = require('node:url').pathToFileURL(__filename).href;",
    },
    footer: { js: '})' },
    write: false,
  });
  await mkdir(join(dist, 'parts'), { recursive: true });
  for (const { path, text } of main.outputFiles)
    await writeFile(path, path.endsWith('.js') ? inAscii(text) : text);
  const { hash } = main.outputFiles.find(({ path }) => path.endsWith('.js'));

  const parts = await build({
    ...settings,
    entryPoints: {
      ...Object.fromEntries(
        Object.entries(APART).map(([path, name]) => [`parts/${name}`, ENTRIES[path] ?? path]),
      ),
      soundwood: join(server, 'cli', 'soundwood.ts'),
    },
    format: 'cjs',
    define: { BUNDLE_HASH: JSON.stringify(createHash('sha256').update(hash).digest('hex').slice(0, 16)) },
  });
  // In a package of ES modules.
  await writeFile(join(dist, 'package.json'), '{ "type": "commonjs" }\n');
  await chmod(join(dist, 'soundwood.js'), 0o755);
  return [main.metafile, parts.metafile];
}
