import { expect, test } from 'vitest';
import { readText } from '../../server/host/read-text.ts';

const utf8 = (text: string) => new TextEncoder().encode(text);

test('a byte order mark is no part of the text', () => {
  expect(readText(utf8('\uFEFFtree 1\r\n'))).toEqual({ text: 'tree 1\r\n', byteOrderMark: true });
  expect(readText(utf8('tree 1\n'))).toEqual({ text: 'tree 1\n', byteOrderMark: false });
  expect(readText(new Uint8Array())).toEqual({ text: '', byteOrderMark: false });
});

test('what is not UTF-8 is named with its line', () => {
  expect(readText(new Uint8Array([97, 10, 98, 10, 0xc3, 0x28, 10]))).toEqual({
    problem: 'is not UTF-8 text (line 3); save it as UTF-8',
  });
  expect(readText(new Uint8Array([97, 10, 98, 0xff]))).toEqual({
    problem: 'is not UTF-8 text (line 2); save it as UTF-8',
  });
});

test('UTF-16 is recognised, also without a byte order mark', () => {
  expect(readText(new Uint8Array([116, 0, 114, 0]))).toEqual({ problem: 'is UTF-16; save it as UTF-8' });
  expect(readText(new Uint8Array([0, 116, 0, 114]))).toEqual({ problem: 'is UTF-16; save it as UTF-8' });
  expect(readText(new Uint8Array([0xff, 0xfe, 116, 0]))).toEqual({ problem: 'is UTF-16; save it as UTF-8' });
  expect(readText(new Uint8Array([0xfe, 0xff, 0, 116]))).toEqual({ problem: 'is UTF-16; save it as UTF-8' });
});
