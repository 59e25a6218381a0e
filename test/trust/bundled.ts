/** How much of each package is in what is shipped, as the bundler tells it. */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

interface Output {
  readonly bytes: number;
  readonly inputs: Readonly<Record<string, { readonly bytesInOutput: number }>>;
  readonly imports?: readonly { readonly path: string }[];
}

type Outputs = Readonly<Record<string, Output>>;

/** The bundles that a build script makes, without their maps. */
function outputsOf(script: string): Outputs {
  const folder = mkdtempSync(join(tmpdir(), 'soundwood-bundled-'));
  try {
    const metafile = join(folder, 'metafile.json');
    const { status, stderr } = spawnSync(process.execPath, [script, join(folder, 'dist')], {
      encoding: 'utf8',
      env: { ...process.env, METAFILE: metafile },
    });
    if (status !== 0) throw new Error(stderr);
    return (JSON.parse(readFileSync(metafile, 'utf8')) as { outputs: Outputs }).outputs;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What a bundle loads, now or later, and what the bundles so found do. */
function reached(outputs: Outputs, starts: (path: string) => boolean): readonly Output[] {
  const open = Object.keys(outputs).filter(starts);
  const found = new Map<string, Output>();
  for (let path = open.pop(); path !== undefined; path = open.pop()) {
    const output = outputs[path];
    if (!output || found.has(path)) continue;
    found.set(path, output);
    open.push(...(output.imports ?? []).map(one => one.path));
  }
  return [...found.values()];
}

/** The program with everything that it loads; what is made for those who work on it is not shipped in it. */
export const program = (): readonly Output[] =>
  reached(outputsOf('server/build.mjs'), path => path.endsWith('/soundwood.js'));

/** The extension with its servers for both hosts. */
export const extension = (): readonly Output[] => Object.values(outputsOf('client/build.mjs'));

const NODE_MODULES = 'node_modules/';

/** Bytes by the name of the package; our own under ''. */
export function bytesByPackage(outputs: readonly Output[]): ReadonlyMap<string, number> {
  const bytes = new Map<string, number>();
  for (const { inputs } of outputs)
    for (const [path, { bytesInOutput }] of Object.entries(inputs)) {
      // What lies inside of a package was installed for it alone.
      const at = path.indexOf(NODE_MODULES);
      const name = at < 0 ? '' : /^(@[^/]+\/)?[^/]+/.exec(path.slice(at + NODE_MODULES.length))![0];
      bytes.set(name, (bytes.get(name) ?? 0) + bytesInOutput);
    }
  return bytes;
}
