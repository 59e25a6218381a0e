/**
 * Bytes that come in → whole messages (LSP 3.17, Base protocol). The library behind it takes one bad header for the
 * end of all that was sent with it, and a message that is no object for a reason to fail; here what is no message is
 * dropped, and what follows is served. A header is known wherever it stands: JSON has line ends only between its
 * values, so that no message holds one.
 */

/** Longer headers, and texts beyond what a string of the engine may hold, come from no editor. */
const LONGEST_HEADER = 1024;
const LONGEST_BODY = 1 << 28;

/** A header that says how long its message is, at the end of what is looked at; other lines may begin it. */
const HEADER =
  /(?:^(?:[!-9;-~]+:[^\r\n]*\r\n)*|(?<!-))content-length:[ \t]*(\d+)[ \t]*\r\n(?:[!-9;-~]+:[^\r\n]*\r\n)*\r\n$/i;
const RETURN = 13;
const LINE_FEED = 10;
/** Blanks that may stand around a value of JSON (RFC 8259). */
const BLANKS: readonly number[] = [32, 9, LINE_FEED, RETURN];
const [OPENING_BRACE, CLOSING_BRACE] = [123, 125];

interface Header {
  /** Offset at which it begins. */
  readonly start: number;
  /** Offset at which its message begins. */
  readonly end: number;
  readonly length: number;
}

export class Frames {
  private parts: Uint8Array[] = [];
  private size = 0;
  /** The header that the bytes begin with, once it is complete. */
  private header: Header | undefined;
  /** Up to here the message behind it holds no other header. */
  private searched = 0;
  private readonly log: (text: string) => void;

  /** @param log hears of what is dropped */
  constructor(log: (text: string) => void = () => {}) {
    this.log = log;
  }

  /** The messages, with their headers, that these bytes complete. */
  take(bytes: Uint8Array): readonly Uint8Array[] {
    this.parts.push(bytes);
    this.size += bytes.length;
    const messages: Uint8Array[] = [];
    while (this.header || this.findHeader()) {
      const { end, length } = this.header!;
      const next = this.headerWithin();
      if (next) {
        this.log('a message was longer or shorter than its header said, and was dropped');
        this.cut(next.start);
      } else if (this.size < end + length) return messages;
      else if (isObject(this.joined().subarray(end, end + length))) messages.push(this.cut(end + length));
      else {
        this.log('a message was not a JSON object, and was dropped');
        this.cut(end);
      }
    }
    return messages;
  }

  /** Bytes that wait for more. */
  get held(): number {
    return this.size;
  }

  /** Drops what stands before the next header; whether there is one. */
  private findHeader(): boolean {
    const held = this.joined();
    const found = nextHeader(held, 0);
    if (found) {
      if (found.start > 0) this.drop(found.start);
      this.header = { start: 0, end: found.end - found.start, length: found.length };
      this.searched = this.header.end;
      return true;
    }
    // A header may still be on its way.
    if (held.length > 2 * LONGEST_HEADER) this.drop(held.length - LONGEST_HEADER);
    return false;
  }

  private drop(length: number): void {
    this.log(`${length} bytes belonged to no message and were dropped`);
    this.cut(length);
  }

  /** A header within the message that is waited for: its own one spoke of another length. */
  private headerWithin(): Header | undefined {
    const { end, length } = this.header!;
    const upTo = Math.min(this.size, end + length);
    // A header that came in two pieces begins at the most so far back.
    const from = Math.max(end, this.searched - LONGEST_HEADER);
    this.searched = upTo;
    if (!this.hasReturn(from, upTo)) return undefined;
    return nextHeader(this.joined().subarray(0, upTo), from);
  }

  /** Most messages hold no line end at all: they are put together when they are whole. */
  private hasReturn(from: number, to: number): boolean {
    let at = 0;
    for (const part of this.parts) {
      const found = part.indexOf(RETURN, Math.max(0, from - at));
      if (found >= 0 && at + found < to) return true;
      at += part.length;
    }
    return false;
  }

  private joined(): Uint8Array {
    if (this.parts.length !== 1) {
      const all = new Uint8Array(this.size);
      let at = 0;
      for (const part of this.parts) {
        all.set(part, at);
        at += part.length;
      }
      this.parts = [all];
    }
    return this.parts[0]!;
  }

  private cut(length: number): Uint8Array {
    const held = this.joined();
    this.header = undefined;
    this.parts = [held.subarray(length)];
    this.size -= length;
    return held.subarray(0, length);
  }
}

/** The first header that ends behind `from`. */
function nextHeader(bytes: Uint8Array, from: number): Header | undefined {
  for (let at = bytes.indexOf(RETURN, from); at >= 0; at = bytes.indexOf(RETURN, at + 1)) {
    if (bytes[at + 1] !== LINE_FEED || bytes[at + 2] !== RETURN || bytes[at + 3] !== LINE_FEED) continue;
    // An empty line before it ends no header.
    if (bytes[at - 1] === LINE_FEED) continue;
    const end = at + 4;
    // One letter for each byte, so that offsets stay what they are.
    const lines = new TextDecoder('latin1').decode(bytes.subarray(Math.max(from, end - LONGEST_HEADER), end));
    const match = HEADER.exec(lines);
    const length = Number(match?.[1]);
    if (match && length <= LONGEST_BODY) return { start: end - match[0].length, end, length };
  }
  return undefined;
}

function isObject(body: Uint8Array): boolean {
  let [first, last] = [0, body.length - 1];
  while (BLANKS.includes(body[first]!)) first++;
  while (BLANKS.includes(body[last]!)) last--;
  return body[first] === OPENING_BRACE && body[last] === CLOSING_BRACE;
}
