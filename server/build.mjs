/**
 * Bundles the command line and the programs for those who work on it into server/dist, or the folder that is given.
 * METAFILE names a file for what each bundle consists of.
 *
 *   soundwood.js         what is started: loads parts/main.js from a code cache (server/cli/load-program.ts)
 *   parts/main.js        the program; parts/*.js  packages that only some commands need
 *   generate.mjs, bench.mjs  for those who work on it
 */

import { createHash } from 'node:crypto';
import { chmod, copyFile, mkdir, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const server = dirname(fileURLToPath(import.meta.url));
const dist = process.argv[2] ?? join(server, 'dist');

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
  'vscode-languageserver': 'vscode-languageserver',
  // The whole of the package, with what only Node has.
  'vscode-languageserver/node.js': 'vscode-languageserver',
  'vscode-languageserver-types': 'vscode-languageserver-types',
};

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

const common = {
  metafile: true,
  outdir: dist,
  bundle: true,
  platform: 'node',
  target: 'node20.19',
  minify: true,
  sourcemap: 'linked',
  sourcesContent: false,
  logLevel: 'warning',
};

await rm(dist, { recursive: true, force: true });
const main = await build({
  ...common,
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
for (const { path, contents } of main.outputFiles) await writeFile(path, contents);
const { hash } = main.outputFiles.find(({ path }) => path.endsWith('.js'));

const parts = await build({
  ...common,
  entryPoints: {
    ...Object.fromEntries(Object.entries(APART).map(([path, name]) => [`parts/${name}`, path])),
    soundwood: join(server, 'cli', 'soundwood.ts'),
  },
  format: 'cjs',
  define: { BUNDLE_HASH: JSON.stringify(createHash('sha256').update(hash).digest('hex').slice(0, 16)) },
});
// In a package of ES modules.
await writeFile(join(dist, 'package.json'), '{ "type": "commonjs" }\n');
await chmod(join(dist, 'soundwood.js'), 0o755);

const tools = await build({
  ...common,
  entryPoints: { generate: join(server, 'docs', 'generate.ts'), bench: join(server, 'bench', 'bench.ts') },
  format: 'esm',
  outExtension: { '.js': '.mjs' },
  banner: {
    // Some of the packages are CommonJS: they ask for Node's own modules with require.
    js: "import { createRequire as requireFor } from 'node:module'; const require = requireFor(import.meta.url);",
  },
});

if (process.env.METAFILE) {
  const outputs = Object.assign({}, ...[main, parts, tools].map(({ metafile }) => metafile.outputs));
  await writeFile(process.env.METAFILE, JSON.stringify({ outputs }));
}
// The forms of --format json, --format jsonl and --shard are published with the program.
for (const form of ['findings', 'part', 'comparison', 'weigh', 'inventory'])
  await copyFile(join(server, 'show', `${form}.schema.json`), join(dist, `${form}.schema.json`));
