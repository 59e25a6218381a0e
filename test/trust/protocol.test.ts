/**
 * A hostile client: wrong order, wrong numbers, wrong bytes. The server answers by the protocol and lives, or ends
 * with the code that the protocol asks for.
 */

import { describe, expect, test } from 'vitest';
import { PROGRAM } from '../built.ts';
import { type Answer, framed, opened, openWire, type Wire } from './wire.ts';

/** JSON-RPC 2.0 and LSP 3.17, error codes. */
const INVALID_REQUEST = -32600;
const METHOD_NOT_FOUND = -32601;
const NOT_INITIALIZED = -32002;
const CANCELLED = -32800;

const URI = 'untitled:one.wood';
const TEXT = 'tree 1 "Oak 🌳"\n  dbh 41 in\n  height 9 m\n';

const open = (wire: Wire, text = TEXT, version = 1) =>
  wire.notify('textDocument/didOpen', {
    textDocument: { uri: URI, languageId: 'soundwood', version, text },
  });
const about = { textDocument: { uri: URI } };
const at = (line: number, character: number) => ({ line, character });
const range = (line: number, from: number, to: number, toLine = line) => ({
  start: at(line, from),
  end: at(toLine, to),
});
const edit = (wire: Wire, version: number, contentChanges: readonly unknown[]) =>
  wire.notify('textDocument/didChange', { textDocument: { uri: URI, version }, contentChanges });

const DEEP = '['.repeat(50_000) + ']'.repeat(50_000);

let asked = 0;
/** The trees of the text as the server has it. */
async function treesOf(wire: Wire): Promise<unknown> {
  const id = `symbols ${++asked}`;
  wire.request(id, 'textDocument/documentSymbol', about);
  const { result } = await wire.answerTo(id);
  return (result as readonly { readonly name: string }[]).map(({ name }) => name);
}
const lives = async (wire: Wire) => {
  open(wire, 'tree 77\n');
  expect(await treesOf(wire)).toEqual(['tree 77']);
};

describe('out of order', () => {
  test('before initialize requests are refused, notifications dropped; a second initialize is refused', async () => {
    const wire = openWire(PROGRAM);
    open(wire);
    wire.notify('initialized', {});
    wire.request(1, 'textDocument/hover', { ...about, position: at(1, 6) });
    wire.request(2, 'shutdown');
    expect((await wire.answerTo(1)).error?.code).toBe(NOT_INITIALIZED);
    expect((await wire.answerTo(2)).error?.code).toBe(NOT_INITIALIZED);
    wire.request(3, 'initialize', { processId: null, rootUri: null, capabilities: {} });
    expect((await wire.answerTo(3)).result).toHaveProperty('capabilities');
    wire.notify('initialized', {});
    open(wire);
    wire.request(4, 'initialize', { processId: null, rootUri: null, capabilities: {} });
    expect((await wire.answerTo(4)).error?.code).toBe(INVALID_REQUEST);
    expect(await treesOf(wire)).toEqual(['tree 1 "Oak 🌳"']);
  });

  test('after shutdown requests are refused; exit ends with 0', async () => {
    const wire = await opened(PROGRAM);
    open(wire);
    wire.request(1, 'shutdown');
    expect((await wire.answerTo(1)).result).toBeNull();
    wire.request(2, 'textDocument/hover', { ...about, position: at(1, 6) });
    wire.request(3, 'textDocument/unheardOf', {});
    wire.request(4, 'shutdown');
    for (const id of [2, 3, 4]) expect((await wire.answerTo(id)).error?.code).toBe(INVALID_REQUEST);
    wire.notify('exit');
    expect(await wire.exitCode).toBe(0);
  });

  test.each([
    ['shutdown, then the end of input', true, 0],
    ['the end of input', false, 1],
  ] as const)('%s ends it with the code', async (_, shutdown, code) => {
    const wire = await opened(PROGRAM);
    if (shutdown) {
      wire.request(1, 'shutdown');
      await wire.answerTo(1);
    }
    wire.close();
    expect(await wire.exitCode).toBe(code);
  });

  test('exit before anything, and in the middle of work, ends with 1', async () => {
    const first = openWire(PROGRAM);
    first.notify('exit');
    expect(await first.exitCode).toBe(1);
    const second = await opened(PROGRAM);
    open(second, TEXT.repeat(300));
    for (let id = 0; id < 50; id++) second.request(id, 'textDocument/codeLens', about);
    second.notify('exit');
    expect(await second.exitCode).toBe(1);
  });
});

describe('odd messages', () => {
  test('unknown methods, answers to nothing, repeated ids, parameters of a wrong kind', async () => {
    const wire = await opened(PROGRAM);
    open(wire);
    wire.request(1, 'textDocument/unheardOf', {});
    wire.request(2, '$/unheardOf', {});
    wire.notify('$/unheardOf', {});
    wire.notify('textDocument/unheardOf', {});
    wire.write(framed({ jsonrpc: '2.0', id: 999, result: 'nobody asked' }));
    wire.write(framed({ jsonrpc: '2.0', id: null, error: { code: 1, message: 'nobody asked' } }));
    expect((await wire.answerTo(1)).error?.code).toBe(METHOD_NOT_FOUND);
    expect((await wire.answerTo(2)).error?.code).toBe(METHOD_NOT_FOUND);
    const kinds = [null, [], 'text', 7, {}, { textDocument: null }, { textDocument: { uri: 7 } }];
    const methods = ['hover', 'completion', 'rename', 'codeAction', 'formatting', 'diagnostic', 'inlayHint'];
    const ids = methods.flatMap(method =>
      kinds.map((params, i) => {
        const id = `${method} ${i}`;
        wire.request(id, `textDocument/${method}`, params);
        return id;
      }),
    );
    for (const method of ['didOpen', 'didChange', 'didClose'])
      for (const params of kinds) wire.notify(`textDocument/${method}`, params);
    for (const id of ids) await wire.answerTo(id);
    wire.request('same', 'textDocument/hover', { ...about, position: at(1, 6) });
    wire.request('same', 'textDocument/hover', { ...about, position: at(2, 9) });
    await lives(wire);
    await wire.answerTo('same');
  });

  test('addresses of every kind name no file that is not open', async () => {
    const wire = await opened(PROGRAM);
    const uris = [
      '',
      'file:',
      'file:///',
      'file:///etc/passwd',
      'file:///%00',
      '%',
      'file:///%zz',
      'a b',
      '../../x',
    ];
    for (const [id, uri] of uris.entries())
      wire.request(id, 'textDocument/hover', { textDocument: { uri }, position: at(0, 0) });
    for (const id of uris.keys()) {
      const answer = await wire.answerTo(id);
      expect(answer.result ?? null).toBeNull();
    }
    wire.notify('workspace/didChangeWatchedFiles', { changes: uris.map(uri => ({ uri, type: 2 })) });
    await lives(wire);
  });

  test('positions beyond every end are pulled back into the text', async () => {
    const wire = await opened(PROGRAM);
    open(wire);
    const far = [at(99, 0), at(0, 9999), at(-1, -1), at(2 ** 31, 2 ** 31), at(0, 0.5), at(Number.NaN, 0)];
    let id = 0;
    for (const position of far) {
      for (const method of ['hover', 'completion', 'definition', 'documentHighlight', 'prepareRename'])
        wire.request(++id, `textDocument/${method}`, { ...about, position });
      wire.request(++id, 'textDocument/codeAction', {
        ...about,
        range: { start: position, end: at(0, 0) },
        context: { diagnostics: [] },
      });
      wire.request(++id, 'textDocument/inlayHint', { ...about, range: { start: at(5, 5), end: position } });
    }
    for (let i = 1; i <= id; i++) expect((await wire.answerTo(i)).error).toBeUndefined();
  });

  test('ten thousand requests, each cancelled: every one is answered, once', async () => {
    const wire = await opened(PROGRAM);
    open(wire);
    const MANY = 10_000;
    for (let id = 0; id < MANY; id++) {
      wire.request(id, 'textDocument/hover', { ...about, position: at(1, 6) });
      wire.notify('$/cancelRequest', { id });
    }
    wire.notify('$/cancelRequest', { id: 'never asked' });
    await wire.answerTo(MANY - 1);
    const answers = wire.received.filter(
      (answer): answer is Answer & { id: number } => typeof answer.id === 'number',
    );
    expect(new Set(answers.map(({ id }) => id)).size).toBe(MANY);
    expect(answers).toHaveLength(MANY);
    for (const { error } of answers) if (error) expect(error.code).toBe(CANCELLED);
    await lives(wire);
  });
});

describe('edits', () => {
  test('stale, repeated and missing versions: edits are made in the order in which they come', async () => {
    const wire = await opened(PROGRAM);
    open(wire, 'tree 1\n', 5);
    edit(wire, 9, [{ range: range(0, 5, 6), text: '22' }]);
    edit(wire, 3, [{ range: range(0, 5, 7), text: '333' }]);
    edit(wire, 3, [{ range: range(0, 8, 8), text: '4' }]);
    wire.notify('textDocument/didChange', {
      textDocument: { uri: URI },
      contentChanges: [{ range: range(0, 9, 9), text: '5' }],
    });
    expect(await treesOf(wire)).toEqual(['tree 33345']);
    wire.notify('textDocument/didChange', {
      textDocument: { uri: 'untitled:never-opened', version: 1 },
      contentChanges: [{ text: 'tree 9\n' }],
    });
    open(wire, 'tree 2\n', 1);
    expect(await treesOf(wire)).toEqual(['tree 2']);
    wire.notify('textDocument/didClose', about);
    wire.notify('textDocument/didClose', about);
    await lives(wire);
  });

  test('overlapping and turned ranges, and ranges beyond the text', async () => {
    const wire = await opened(PROGRAM);
    open(wire, 'tree 1\ntree 2\n');
    edit(wire, 2, [
      { range: range(0, 5, 6, 1), text: '7\ntree 8' },
      { range: range(0, 5, 6), text: '9' },
    ]);
    expect(await treesOf(wire)).toEqual(['tree 9', 'tree 8']);
    edit(wire, 3, [{ range: { start: at(0, 6), end: at(0, 5) }, text: '1' }]);
    edit(wire, 4, [{ range: range(99, 5, 9, 120), text: 'tree 5\n' }]);
    edit(wire, 5, [{ range: range(0, 5, 99_999), text: '3' }]);
    expect(await treesOf(wire)).toEqual(['tree 3', 'tree 8', 'tree 5']);
  });

  test('an edit that can not be made is not half made, and those after it are', async () => {
    const wire = await opened(PROGRAM);
    open(wire, 'tree 1\n');
    open(wire, 7 as unknown as string);
    for (const broken of [{}, { range: 'all', text: 'x' }, { range: range(0, 5, 6), text: 7 }, null])
      edit(wire, 2, [{ range: range(0, 5, 6), text: 'half' }, broken]);
    edit(wire, 3, 'everything' as unknown as []);
    edit(wire, 4, [{ range: range(0, 6, 6), text: '2' }]);
    expect(await treesOf(wire)).toEqual(['tree 12']);
  });
});

describe('bytes', () => {
  test('messages cut anywhere are put together again, in the middle of a character, too', async () => {
    const wire = openWire(PROGRAM);
    const all = Buffer.concat([
      framed({ jsonrpc: '2.0', id: 1, method: 'initialize', params: { processId: null, capabilities: {} } }),
      framed({ jsonrpc: '2.0', method: 'initialized', params: {} }),
      framed({
        jsonrpc: '2.0',
        method: 'textDocument/didOpen',
        params: { textDocument: { uri: URI, languageId: 'soundwood', version: 1, text: TEXT } },
      }),
    ]);
    for (const byte of all) wire.write(Uint8Array.of(byte));
    expect(await treesOf(wire)).toEqual(['tree 1 "Oak 🌳"']);
  });

  test.each([
    ['a header without a colon', 'nonsense\r\n\r\n'],
    ['several bad headers at once', 'a\r\n\r\nb\r\n\r\nc: d\r\n\r\n'],
    ['a header without a length', 'Content-Type: text/plain\r\n\r\n'],
    ['a length that is no number', 'Content-Length: many\r\n\r\n'],
    ['a length below nothing', 'Content-Length: -5\r\n\r\n'],
    ['a body that is no JSON', framed('{"jsonrpc":')],
    ['a body that is no object', Buffer.concat([framed('7'), framed('null'), framed('"x"'), framed('[]')])],
    [
      'a body that is no UTF-8',
      Buffer.concat([Buffer.from('Content-Length: 3\r\n\r\n'), Buffer.of(0xff, 0xfe, 0)]),
    ],
    ['an empty body', 'Content-Length: 0\r\n\r\n'],
    ['a request without a method', framed({ jsonrpc: '2.0', id: 5 })],
    ['JSON as deep as it is long', framed(DEEP)],
    [
      'parameters as deep as they are long',
      framed(`{"jsonrpc":"2.0","method":"textDocument/didOpen","params":${DEEP}}`),
    ],
  ])('%s: what follows is served', async (_, bytes) => {
    const wire = await opened(PROGRAM);
    wire.write(bytes);
    await lives(wire);
  });

  test.each([
    ['a message cut off', 'Content-Length: 50\r\n\r\n{"jsonrpc"'],
    ['a header cut off', 'Content-Le'],
  ])('%s: the server waits, and ends with the input', async (_, bytes) => {
    const wire = await opened(PROGRAM);
    wire.write(bytes);
    wire.close();
    expect(await wire.exitCode).toBe(1);
  });

  // An editor's plug-in that counts letters instead of bytes, or writes to the wrong pipe once, is no reason to fall silent.
  const said = (length: string) => `Content-Length: ${length}\r\n\r\n`;
  const HELLO = '{"jsonrpc":"2.0","id":"lost","method":"textDocument/unheardOf"}';
  test.each([
    ['a message longer than any text', said('99999999999999')],
    ['a header without end', 'x'.repeat(100_000)],
    ['a length below nothing, and its message', said('-5') + HELLO],
    ['a length that is no number, and its message', said('NaN') + HELLO],
    ['no length, and the message', `Content-Type: x\r\n\r\n${HELLO}`],
    ['no header at all', HELLO],
    ['a length with a fraction', said('64.5') + HELLO],
    ['a length far too large', said('99999999') + HELLO],
    [
      'lengths too large by little',
      [1, 5, 17, 30].map(more => said(`${HELLO.length + more}`) + HELLO).join(''),
    ],
    ['lengths too small', [1, 2, 30, 63].map(less => said(`${HELLO.length - less}`) + HELLO).join('')],
    ['a length counted in letters', said('52') + HELLO.replace('lost', '🌳🌳🌳🌳🌳🌳')],
    ['a line end of another system', `Content-Length: ${HELLO.length}\n\n${HELLO}`],
    ['words of a shell', 'npm warn deprecated\r\n\r\nContent-Length\r\n\r\n'],
    ['members of a wrong kind', framed({ jsonrpc: '2.0', id: {}, method: 'textDocument/hover' })],
    ['a method that is no name', framed({ jsonrpc: '2.0', id: 1, method: 7, params: 'x' })],
    ['a method of every object', framed({ jsonrpc: '2.0', id: 1, method: '__proto__' })],
    ['neither request nor answer', framed({})],
    ['an error of nobody', framed({ jsonrpc: '2.0', id: [1], error: 'x', result: null })],
  ])('%s: the next message is answered, also byte by byte', async (_, bytes) => {
    for (const piecewise of [false, true]) {
      const wire = await opened(PROGRAM);
      const next = framed({ jsonrpc: '2.0', id: 'next', method: 'textDocument/unheardOf' });
      const all = Buffer.concat([Buffer.from(bytes), next]);
      if (piecewise) for (const byte of all.subarray(-2000)) wire.write(Uint8Array.of(byte));
      else wire.write(all);
      expect((await wire.answerTo('next')).error?.code).toBe(METHOD_NOT_FOUND);
      await lives(wire);
    }
  });
});
