/** Decodes the bytes of a file, or says why they are not text. */

import { constants, isUtf8 } from 'node:buffer';
import { isUtf16 } from '../base/utf16.ts';

export type TextRead =
  | { readonly text: string; readonly byteOrderMark: boolean }
  | { readonly problem: string };

/** Bytes; the longest string of the JavaScript engine. */
export const LONGEST_TEXT = constants.MAX_STRING_LENGTH;

/** UTF-8 with or without byte order mark, which is not part of the text. */
export function readText(bytes: Uint8Array): TextRead {
  if (bytes.length > LONGEST_TEXT)
    return { problem: `is longer than ${Math.floor(LONGEST_TEXT / 1e6)} MB; split it` };
  if (isUtf16(bytes)) return { problem: 'is UTF-16; save it as UTF-8' };
  if (!isUtf8(bytes)) {
    return { problem: `is not UTF-8 text (line ${lineOfFirstFault(bytes)}); save it as UTF-8` };
  }
  const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
  return text.startsWith('\uFEFF')
    ? { text: text.slice(1), byteOrderMark: true }
    : { text, byteOrderMark: false };
}

/** 1-based. In UTF-8 the byte of a line end occurs in no other character, so lines can be tested one by one. */
function lineOfFirstFault(bytes: Uint8Array): number {
  let line = 1;
  let start = 0;
  for (
    let end = bytes.indexOf(10);
    end >= 0 && isUtf8(bytes.subarray(start, end));
    end = bytes.indexOf(10, start)
  ) {
    start = end + 1;
    line++;
  }
  return line;
}
