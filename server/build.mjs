/**
 * Bundles the command line and the programs for those who work on it into server/dist, or the folder that is given.
 * METAFILE names a file for what each bundle consists of.
 *
 *   soundwood.js         what is started: loads parts/main.js from a code cache (server/cli/load-program.ts)
 *   parts/main.js        the program; parts/*.js  packages that only some commands need
 *   LICENSES.txt         of the packages that are bundled
 *   generate.mjs, bench.mjs  for those who work on it
 */

import { copyFile, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { buildProgram, common } from './build-program.mjs';
import { writeLicenses } from './licenses.mjs';

const server = dirname(fileURLToPath(import.meta.url));
const dist = process.argv[2] ?? join(server, 'dist');

const program = await buildProgram(dist);
const tools = await build({
  ...common,
  outdir: dist,
  entryPoints: { generate: join(server, 'docs', 'generate.ts'), bench: join(server, 'bench', 'bench.ts') },
  format: 'esm',
  outExtension: { '.js': '.mjs' },
  banner: {
    // Some of the packages are CommonJS: they ask for Node's own modules with require.
    js: "import { createRequire as requireFor } from 'node:module'; const require = requireFor(import.meta.url);",
  },
});

if (process.env.METAFILE) {
  const outputs = Object.assign({}, ...[...program, tools.metafile].map(({ outputs }) => outputs));
  await writeFile(process.env.METAFILE, JSON.stringify({ outputs }));
}
await writeLicenses(program, dist);
// The forms of --format json, --format jsonl and --shard are published with the program.
for (const form of ['findings', 'part', 'comparison', 'weigh', 'history', 'season', 'inventory'])
  await copyFile(join(server, 'show', `${form}.schema.json`), join(dist, `${form}.schema.json`));
