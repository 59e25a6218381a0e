/** How many findings there are: as the server tells where it does not send all of a file, else by counting them. */

import type { Diagnostic } from 'vscode-languageserver-protocol';
import type { CountsParams } from '../../server/lsp/requests.ts';

/** The findings of files by their paths; undefined where one could not be checked, none where it is not checked yet. */
export type Checked = ReadonlyMap<string, readonly Diagnostic[] | undefined>;

export type Counts = NonNullable<CountsParams['counts']>;

/** Of files by their paths, where not all findings are there. */
export type ToldCounts = ReadonlyMap<string, Counts>;

/** Undefined while a file is not checked. */
export function totalOf(paths: readonly string[], found: Checked, told: ToldCounts): Counts | undefined {
  let [errors, warnings] = [0, 0];
  for (const path of paths) {
    const findings = found.get(path);
    if (!findings) return undefined;
    const count = (level: number) => findings.filter(({ severity }) => severity === level).length;
    const counts = told.get(path);
    errors += counts?.errors ?? count(1);
    warnings += counts?.warnings ?? count(2);
  }
  return { errors, warnings };
}
