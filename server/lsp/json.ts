/**
 * Answers that are long lists of places. What a block adds to the list is written once, as bytes of JSON in which line
 * numbers have a fixed width, so that wherever the block comes to lie only the digits are set.
 */

import { memo } from '../base/memo.ts';
import { type BlockNode, fileOf } from '../facts/file.ts';
import type { FileSnapshot } from '../facts/workspace.ts';

/** Bytes before and behind an answer, for the rest of its message. */
const [ROOM_BEFORE, ROOM_BEHIND] = [256, 1];

/**
 * JSON, in UTF-8, in the place of an answer; it is sent once. Where messages are no text, `toJSON` gives the value.
 */
export class Json {
  constructor(
    private readonly memory: Uint8Array,
    private readonly length: number,
  ) {}

  toJSON(): unknown {
    const bytes = this.memory.subarray(ROOM_BEFORE, ROOM_BEFORE + this.length);
    return JSON.parse(new TextDecoder().decode(bytes));
  }

  /** The whole message, made around the answer where it lies. */
  within(before: string, behind: string): Uint8Array | undefined {
    const head = encoder.encode(before);
    const tail = encoder.encode(behind);
    if (head.length > ROOM_BEFORE || tail.length > ROOM_BEHIND) return undefined;
    const start = ROOM_BEFORE - head.length;
    const end = ROOM_BEFORE + this.length;
    this.memory.set(head, start);
    this.memory.set(tail, end);
    return this.memory.subarray(start, end + tail.length);
  }

  /** Gives its memory to the next answer. */
  sent(): void {
    free.push(this.memory);
    if (free.length > MOST_FREE) free.shift();
  }
}

const encoder = new TextEncoder();

/** Memory of answers that were sent. To get as much anew would take longer than to fill it. */
const free: Uint8Array[] = [];
const MOST_FREE = 4;
const SPARE = 1.1;

/** Memory for an answer of this length, with what an edit or two may add. */
function memoryFor(length: number): Uint8Array {
  const all = ROOM_BEFORE + length + ROOM_BEHIND;
  let best: Uint8Array | undefined;
  for (const memory of free)
    if (memory.length >= all && !(best && best.length <= memory.length)) best = memory;
  if (!best) return new Uint8Array(Math.ceil(all * SPARE));
  free.splice(free.indexOf(best), 1);
  return best;
}

/** A message as it is sent. */
export function written(message: object): Uint8Array {
  const { id, result } = message as { readonly id?: unknown; readonly result?: unknown };
  const within =
    result instanceof Json
      ? result.within(`{"jsonrpc":"2.0","id":${JSON.stringify(id)},"result":`, '}')
      : undefined;
  return within ?? encoder.encode(JSON.stringify(message));
}

/** The message was sent, or never will be. */
export function forget(message: object): void {
  const { result } = message as { readonly result?: unknown };
  if (result instanceof Json) result.sent();
}

/** The same message for a transport of values. */
export function plain<Message extends object>(message: Message): Message {
  const { result } = message as { readonly result?: unknown };
  return result instanceof Json ? { ...message, result: result.toJSON() } : message;
}

/** What a block adds: elements of the list, with a comma behind each. */
interface Part {
  readonly bytes: Uint8Array;
  /** Where its line numbers end, and which they are if the file begins with the block. */
  readonly ends: Uint32Array;
  readonly lines: Uint32Array;
}

function joined(parts: readonly Uint8Array[], length: number): Uint8Array {
  const all = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

/** What a block adds to the list about a document. */
export type PartOf = (node: BlockNode, uri: string) => Part;

/** Digits of the greatest line number: the engine has no longer strings. */
const WIDTH = 9;

/** Line numbers of the protocol. Within a string every quotation mark is escaped, so that none matches there. */
const LINE = /(?<="(?:line|startLine|endLine)":)\d+/g;

const NOTHING: Part = { bytes: new Uint8Array(), ends: new Uint32Array(), lines: new Uint32Array() };

/** @param list what a file of one block has, given the URI of the document */
export const partOf = (list: (block: FileSnapshot, uri: string) => readonly object[]): PartOf =>
  memo((node: BlockNode, uri: string): Part => {
    const own = list(fileOf('', [node]), uri);
    if (own.length === 0) return NOTHING;
    const ends: number[] = [];
    const lines: number[] = [];
    const bytes: Uint8Array[] = [];
    let length = 0;
    let from = 0;
    const text = `${JSON.stringify(own).slice(1, -1)},`;
    const add = (piece: string) => {
      const written = encoder.encode(piece);
      bytes.push(written);
      length += written.length;
    };
    for (const { 0: line, index } of text.matchAll(LINE)) {
      add(text.slice(from, index) + ' '.repeat(WIDTH));
      ends.push(length);
      lines.push(Number(line));
      from = index + line.length;
    }
    add(text.slice(from));
    return { bytes: joined(bytes, length), ends: Uint32Array.from(ends), lines: Uint32Array.from(lines) };
  });

const [ZERO, OPENING_BRACKET, CLOSING_BRACKET] = [0x30, 0x5b, 0x5d];

/** The list of a whole file. */
export function* listOf(
  { nodes, firstLines }: FileSnapshot,
  part: PartOf,
  uri: string,
): Generator<unknown, Json> {
  const parts: Part[] = [];
  let length = 2;
  for (const node of nodes) {
    const own = part(node, uri);
    parts.push(own);
    length += own.bytes.length;
    yield;
  }
  const all = memoryFor(length);
  const start = ROOM_BEFORE;
  all[start] = OPENING_BRACKET;
  let at = start + 1;
  for (let i = 0; i < parts.length; i++) {
    const { bytes, ends, lines } = parts[i]!;
    all.set(bytes, at);
    for (let j = 0; j < ends.length; j++) setNumber(all, at + ends[j]!, firstLines[i]! + lines[j]!);
    at += bytes.length;
  }
  // In the place of the last comma, where there is one.
  const end = Math.max(start + 1, at - 1);
  all[end] = CLOSING_BRACKET;
  return new Json(all, end + 1 - start);
}

/** @param end of the digits; what is before them stays blank */
function setNumber(bytes: Uint8Array, end: number, number: number): void {
  let rest = number;
  let at = end;
  do {
    bytes[--at] = ZERO + (rest % 10);
    rest = Math.floor(rest / 10);
  } while (rest > 0);
}
