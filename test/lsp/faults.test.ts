/** A mistake in the program at one tree: the editor is told of that tree, and of all others as always. */

import { PassThrough } from 'node:stream';
import { expect, onTestFinished, test, vi } from 'vitest';
import {
  createConnection,
  createMessageConnection,
  ProposedFeatures,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node.js';
import type { Hover, InlayHint } from 'vscode-languageserver-types';
import { parseDate } from '../../server/base/dates.ts';
import type * as Reading from '../../server/facts/interval.ts';
import type { TreePreview } from '../../server/language/preview.ts';
import { serve } from '../../server/lsp/server.ts';
import { ON } from '../cli/folder.ts';

vi.mock('../../server/facts/interval.ts', async original => {
  const real = await original<typeof Reading>();
  const valuesOf: typeof real.valuesOf = (quantity, settings) => {
    if (Math.abs(quantity.low - 13 * 0.0254) < 1e-9) throw new RangeError('not an interval');
    return real.valuesOf(quantity, settings);
  };
  return { ...real, valuesOf };
});

const tree = (tag: number, inches: number) => `tree ${tag}
  dbh         ${inches} in, ${inches} in
  height      50 ft
  crown       from 12 ft, 40 ft wide

  defect A cavity
    on        trunk at 4 ft, facing S
    diameter  ${inches} in
    wall      2 in at S

  prescription R1 reduce
    height    50 ft to 45 ft

`;
const TEXT = tree(12, 30) + tree(13, 13) + tree(14, 30);
const LINES = TEXT.split('\n');
const lineOf = (start: string) => LINES.findIndex(line => line.startsWith(start));
const URI = 'untitled:lawn.wood';

async function editor() {
  const [up, down] = [new PassThrough(), new PassThrough()];
  serve(createConnection(ProposedFeatures.all, new StreamMessageReader(up), new StreamMessageWriter(down)), {
    files: { folder: async base => ({ base, files: [], problems: [] }), read: async () => undefined },
    today: () => parseDate(ON)!,
    pageOf: () => undefined,
  });
  const client = createMessageConnection(new StreamMessageReader(down), new StreamMessageWriter(up));
  onTestFinished(() => client.dispose());
  const log: string[] = [];
  const shown: string[] = [];
  client.onNotification('window/logMessage', ({ message }: { message: string }) => void log.push(message));
  client.onNotification('window/showMessage', ({ message }: { message: string }) => void shown.push(message));
  client.onRequest('window/showMessageRequest', ({ message }: { message: string }) => {
    shown.push(message);
    return null;
  });
  client.listen();
  await client.sendRequest('initialize', {
    processId: null,
    rootUri: null,
    capabilities: { textDocument: { hover: { contentFormat: ['markdown'] } } },
  });
  void client.sendNotification('initialized', {});
  void client.sendNotification('textDocument/didOpen', {
    textDocument: { uri: URI, languageId: 'soundwood', version: 1, text: TEXT },
  });
  const at = (line: number, character = 3) => ({
    textDocument: { uri: URI },
    position: { line, character },
  });
  return { client, at, log, shown };
}

/** Of the defect, prescription or tree on a line. */
const textOf = (hover: Hover | null) => (hover?.contents as { value: string } | undefined)?.value;

test('hovers, the panel and the command say that a tree was not computed; the log says where', async () => {
  const { client, at, log, shown } = await editor();
  const second = (start: string) =>
    lineOf('tree 13') + LINES.slice(lineOf('tree 13')).findIndex(line => line.startsWith(start));
  for (const line of [second('  defect A'), second('  prescription R1')]) {
    const hover = await client.sendRequest<Hover | null>('textDocument/hover', at(line));
    expect(textOf(hover)).toBe(
      '**Not computed**: not an interval. This is a mistake in the program, not in the record.',
    );
  }
  expect(log.filter(text => text.startsWith('hover failed: RangeError: not an interval'))).toHaveLength(2);
  const preview = await client.sendRequest<TreePreview>('soundwood/preview', at(lineOf('tree 13')));
  expect(preview.markdown).toContain('**Not computed**');
  const weighed = await client.sendRequest<TreePreview>('workspace/executeCommand', {
    command: 'soundwood.weigh',
    arguments: [URI, '13'],
  });
  expect(weighed.title).toBe('Tree 13');
  expect(shown.at(-1)).toContain('Tree 13: Not computed: not an interval.');
  const sound = await client.sendRequest<Hover | null>('textDocument/hover', at(lineOf('  defect A')));
  expect(textOf(sound)).toContain('loss of bending strength');
  const whole = await client.sendRequest<TreePreview>('soundwood/preview', at(lineOf('tree 14')));
  expect(whole.title).toBe('Tree 14');
});

test('figures beside the text stand at the other trees, and the report is without the one', async () => {
  const { client } = await editor();
  const hints = await client.sendRequest<InlayHint[]>('textDocument/inlayHint', {
    textDocument: { uri: URI },
    range: { start: { line: 0, character: 0 }, end: { line: LINES.length, character: 0 } },
  });
  const byTree = [12, 13, 14].map(tag => {
    const from = lineOf(`tree ${tag}`);
    return hints
      .filter(({ position: { line } }) => line >= from && line < from + 13)
      .map(({ label }) => label);
  });
  expect(byTree[0]).toEqual(byTree[2]);
  expect(byTree[0]).toEqual(expect.arrayContaining([expect.stringMatching(/^stress /)]));
  expect(byTree[1]).toEqual(['not computed']);
  const page = await client.sendRequest<string>('soundwood/report', { uri: URI });
  expect(page).toContain('tree 13 was not computed: not an interval');
  expect(page).toContain('Tree 14');
});
