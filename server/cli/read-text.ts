/** Bytes of a file → text, or what is wrong with them. */

import { isUtf8 } from 'node:buffer';

export type TextRead =
  | { readonly text: string; readonly byteOrderMark: boolean }
  | { readonly problem: string };

/** UTF-8, with or without byte order mark (which is no part of the text). */
export function readText(bytes: Uint8Array): TextRead {
  if (
    bytes.length >= 2 &&
    ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff))
  ) {
    return { problem: 'is UTF-16; save it as UTF-8' };
  }
  if (!isUtf8(bytes)) {
    return { problem: `is not UTF-8 text (line ${lineOfFirstFault(bytes)}); save it as UTF-8` };
  }
  const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
  return text.startsWith('\uFEFF')
    ? { text: text.slice(1), byteOrderMark: true }
    : { text, byteOrderMark: false };
}

/** 1-based. Lines are independent in UTF-8: no character but the line end has its byte. */
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
