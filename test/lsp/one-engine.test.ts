/** The command line and the server say the same of every sample, the server in the words of the region. */

import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Diagnostic } from 'vscode-languageserver-types';
import { buildWorkspace, readFile, settingsFor } from '../../server/facts/workspace.ts';
import { readInRegion } from '../../server/show/in-region.ts';
import { PROGRAM } from '../built.ts';
import { SAMPLES, sampleFiles } from '../samples/sample-files.ts';
import { startEditor } from './client.ts';

interface Line {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly rule: string;
  readonly message: string;
}

const order = (a: Line, b: Line) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1);

test.each(['fernhollow', 'fernhollow/wren-park', 'errors'])('%s', async name => {
  const folder = join(SAMPLES, name);
  const { stdout } = spawnSync(
    process.execPath,
    [PROGRAM, 'check', '.', '--on', '2026-06-01', '--as', 'json', '--reject', 'never'],
    { cwd: folder, encoding: 'utf8', maxBuffer: 1 << 28 },
  );
  const printed = JSON.parse(stdout) as { findings: (Line & { remedy: string })[] };
  const [estate, ...below] = name.split('/');
  // With the sites of the folders above.
  const workspace = buildWorkspace(sampleFiles(estate!).map(({ path, text }) => readFile(path, text)));
  const checked = printed.findings.map(({ file, line, column, rule, message }) => ({
    file,
    line,
    column,
    rule,
    message: readInRegion(message, settingsFor(workspace, [...below, file].join('/')).region),
  }));

  const editor = await startEditor({ program: PROGRAM, folder, pulls: true });
  const { items } = await editor.request<{ items: { uri: string; items: Diagnostic[] }[] }>(
    'workspace/diagnostic',
    {
      previousResultIds: [],
    },
  );
  const served = items.flatMap(({ uri, items: found }) =>
    found.map(({ range, code, message }) => ({
      file: decodeURIComponent(uri.slice(editor.uri('').length)),
      line: range.start.line + 1,
      column: range.start.character + 1,
      rule: String(code),
      message: message.split('\n')[0]!,
    })),
  );
  expect(checked.length).toBeGreaterThan(0);
  expect(served.sort(order)).toEqual(checked.sort(order));
});
