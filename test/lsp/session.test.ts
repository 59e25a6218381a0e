import { expect, test } from 'vitest';
import { CancellationToken, ResponseError } from 'vscode-languageserver';
import { aboutFile, answering, refusal, type Session } from '../../server/lsp/session.ts';
import { Store } from '../../server/lsp/store.ts';

function session(): { session: Session; log: string[] } {
  const log: string[] = [];
  const console = { error: (line: string) => void log.push(line) };
  return {
    log,
    session: {
      connection: { console } as unknown as Session['connection'],
      store: new Store(),
      host: {} as Session['host'],
      capabilities: {},
      client: { name: undefined, namesRootPath: false },
      today: () => 20_605,
      ready: Promise.resolve(),
      whole: Promise.resolve(),
      cut: new Map(),
      wantsCounts: false,
      isOver: () => false,
    },
  };
}

test('a handler that throws becomes a line of the log and no answer', async () => {
  const { session: at, log } = session();
  const handler = answering(at, 'hover', () => {
    throw new TypeError('out of luck');
  });
  expect(await handler({}, CancellationToken.None)).toBeNull();
  expect(log).toEqual([expect.stringMatching(/^hover failed: TypeError: out of luck/)]);
});

test('what is meant for the person goes through', async () => {
  const { session: at, log } = session();
  const handler = answering(at, 'rename', () => {
    throw refusal('There is a tag 2 already.');
  });
  await expect(handler({}, CancellationToken.None)).rejects.toThrow(ResponseError);
  expect(log).toEqual([]);
});

test('a cancelled request is not begun', async () => {
  const { session: at } = session();
  let begun = false;
  const handler = answering(at, 'hover', () => {
    begun = true;
  });
  await expect(handler({}, CancellationToken.Cancelled)).rejects.toMatchObject({ code: -32800 });
  expect(begun).toBe(false);
});

test('a file that nobody has is not asked about', async () => {
  const { session: at } = session();
  const handler = aboutFile(at, 'hover', (_: { textDocument: { uri: string } }) => 'answer');
  expect(await handler({ textDocument: { uri: 'file:///x.wood' } }, CancellationToken.None)).toBeNull();
  at.store.openDocument({ uri: 'file:///x.wood', version: 1, text: 'tree 1\n' });
  expect(await handler({ textDocument: { uri: 'file:///x.wood' } }, CancellationToken.None)).toBe('answer');
});
