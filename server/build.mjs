/**
 * Bundles the command line and the programs for those who work on it into server/dist, or the folder that is given.
 * METAFILE names a file for what each bundle consists of.
 */

import { chmod, copyFile, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const server = dirname(fileURLToPath(import.meta.url));
const dist = process.argv[2] ?? join(server, 'dist');
const programs = {
  soundwood: join(server, 'cli', 'soundwood.ts'),
  generate: join(server, 'docs', 'generate.ts'),
  bench: join(server, 'bench', 'bench.ts'),
};

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

await rm(dist, { recursive: true, force: true });
const { metafile } = await build({
  entryPoints: programs,
  metafile: true,
  plugins: [withoutSubprograms],
  outdir: dist,
  bundle: true,
  // Each command becomes a chunk of its own, so that none pays for another at start-up.
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20.19',
  minify: true,
  sourcemap: 'linked',
  sourcesContent: false,
  chunkNames: 'parts/[name]-[hash]',
  logLevel: 'warning',
  banner: {
    // Some of the packages are CommonJS: they ask for Node's own modules with require, or for the name of their file.
    js: [
      "import { createRequire as requireFor } from 'node:module';",
      "import { fileURLToPath as fileNamed } from 'node:url';",
      'const require = requireFor(import.meta.url), __filename = fileNamed(import.meta.url);',
    ].join(' '),
  },
});
await chmod(join(dist, 'soundwood.js'), 0o755);
if (process.env.METAFILE) await writeFile(process.env.METAFILE, JSON.stringify(metafile));
// The forms of --as json and --part are published with the program.
for (const form of ['findings', 'part', 'comparison', 'weigh'])
  await copyFile(join(server, 'show', `${form}.schema.json`), join(dist, `${form}.schema.json`));
