/** How much of each package is in what is shipped, as the bundler tells it. */

import { readFileSync } from 'node:fs';
import { metafileOf } from '../built.ts';

interface Output {
  readonly bytes: number;
  readonly inputs: Readonly<Record<string, { readonly bytesInOutput: number }>>;
}

type Outputs = Readonly<Record<string, Output>>;

/** The bundles of the program, the extension or the page, without their maps. */
const outputsOf = (part: 'server' | 'client' | 'client-page'): Outputs =>
  (JSON.parse(readFileSync(metafileOf(part), 'utf8')) as { outputs: Outputs }).outputs;

/** The program with everything that it loads; what is made for those who work on it is not shipped in it. */
export const program = (): readonly Output[] =>
  Object.entries(outputsOf('server'))
    .filter(([path]) => path.endsWith('.js'))
    .map(([, output]) => output);

/** The extension with its servers for both hosts. */
export const extension = (): readonly Output[] => Object.values(outputsOf('client'));

/** The page with its service worker and its server. */
export const page = (): readonly Output[] => Object.values(outputsOf('client-page'));

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
