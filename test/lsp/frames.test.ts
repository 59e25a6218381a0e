/** Messages out of bytes: none that is sound is lost, whatever stands between, and however the bytes come. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Frames } from '../../server/lsp/frames.ts';

const bytesOf = (text: string) => new TextEncoder().encode(text);
const framed = (body: string, length: number | string = bytesOf(body).length) =>
  `Content-Length: ${length}\r\n\r\n${body}`;
const bodyOf = (message: Uint8Array) =>
  new TextDecoder().decode(message).split('\r\n\r\n').slice(1).join('\r\n\r\n');

const sound = fc
  .record({ id: fc.nat(), text: fc.string({ unit: 'grapheme' }) })
  .map(value => JSON.stringify(value));
const broken = fc.oneof(
  fc
    .tuple(sound, fc.integer({ min: 1, max: 400 }))
    .map(([body, more]) => framed(body, bytesOf(body).length + more)),
  fc
    .tuple(sound, fc.constantFrom('-1', 'NaN', '', '1e3', '99999999999', '0x10'))
    .map(([body, length]) => framed(body, length)),
  sound.map(body => `Content-Type: x\r\n\r\n${body}`),
  fc.constantFrom(
    '\r\n\r\n',
    'Content-Length:',
    '\r\n',
    '{',
    'x\r\n\r\n',
    framed('7'),
    framed('[]'),
    framed(' '),
  ),
);

const piece = fc.oneof(
  sound.map(body => ({ body, text: framed(body) })),
  sound.map(body => ({
    body,
    text: `Content-Type: application/vscode-jsonrpc; charset=utf-8\r\ncontent-length:${bytesOf(body).length} \r\n\r\n${body}`,
  })),
  broken.map(text => ({ body: undefined, text })),
);

function isJson(body: string): boolean {
  try {
    JSON.parse(body);
    return true;
  } catch {
    return false;
  }
}

test('every sound message comes out, once and in order', () => {
  fc.assert(
    fc.property(
      fc.array(piece, { maxLength: 12 }),
      fc.array(fc.integer({ min: 1, max: 90 })),
      (pieces, sizes) => {
        const log: string[] = [];
        const frames = new Frames(text => log.push(text));
        const all = bytesOf(pieces.map(({ text }) => text).join(''));
        const found: string[] = [];
        for (let at = 0, i = 0; at < all.length; i++) {
          const size = sizes[i % (sizes.length || 1)] ?? all.length;
          found.push(...frames.take(all.subarray(at, at + size)).map(bodyOf));
          at += size;
        }
        const wanted = pieces.flatMap(({ body }) => body ?? []);
        // What only looks like an object from its ends is refused where it is read.
        expect(found.filter(isJson)).toEqual(wanted);
        if (pieces.every(({ body }) => body !== undefined)) expect(log).toEqual([]);
      },
    ),
    { numRuns: 2000 },
  );
});

test('JSON with line ends of its own is a message', () => {
  const body = '{\r\n\r\n  "a":\r\n\r\n 1\r\n}\r\n';
  expect(new Frames().take(bytesOf(framed(body))).map(bodyOf)).toEqual([body]);
});

test('what belongs to no message is not kept', () => {
  const frames = new Frames();
  for (let i = 0; i < 1000; i++) expect(frames.take(bytesOf('x'.repeat(10_000)))).toEqual([]);
  expect(frames.held).toBeLessThan(20_000);
});
