/**
 * Bytes that come in → whole messages (LSP 3.17, Base protocol). The library behind it takes one bad header for the
 * end of all that was sent with it, and a message that is no object for a reason to fail; here both are dropped, and
 * what follows is served.
 */

/** Longer headers, and texts beyond what a string of the engine may hold, come from no editor. */
const LONGEST_HEADER = 8192;
const LONGEST_BODY = 1 << 28;

const HEADER_END = [13, 10, 13, 10] as const;
/** Blanks that may stand before a value of JSON (RFC 8259). */
const BLANKS: readonly number[] = [32, 9, 10, 13];
const OPENING_BRACE = 123;

/** What comes in can't be told apart into messages any more. */
export class NoProtocol extends Error {}

export class Frames {
  private parts: Uint8Array[] = [];
  private size = 0;
  /** Bytes of the message, header and body; undefined while its header is not complete. */
  private wanted: { readonly header: number; readonly whole: number } | undefined;

  /** The messages, with their headers, that these bytes complete. Throws NoProtocol. */
  take(bytes: Uint8Array): readonly Uint8Array[] {
    this.parts.push(bytes);
    this.size += bytes.length;
    const messages: Uint8Array[] = [];
    for (;;) {
      this.wanted ??= this.header();
      if (!this.wanted || this.size < this.wanted.whole) return messages;
      const { header, whole } = this.wanted;
      this.wanted = undefined;
      const message = this.cut(whole);
      if (isObject(message, header)) messages.push(message);
    }
  }

  /** Reads the next header that says how long its message is; those that do not are dropped. */
  private header(): Frames['wanted'] {
    for (;;) {
      const held = this.joined();
      const header = endOfHeader(held);
      if (header === undefined) {
        if (held.length > LONGEST_HEADER) throw new NoProtocol('A header without end came in.');
        return undefined;
      }
      const length = /^content-length:[ \t]*(\d+)[ \t]*$/im.exec(
        new TextDecoder('latin1').decode(held.subarray(0, header)),
      )?.[1];
      if (length === undefined) {
        this.cut(header);
        continue;
      }
      if (Number(length) > LONGEST_BODY) throw new NoProtocol(`A message of ${length} bytes was announced.`);
      return { header, whole: header + Number(length) };
    }
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
    this.parts = [held.subarray(length)];
    this.size -= length;
    return held.subarray(0, length);
  }
}

function endOfHeader(bytes: Uint8Array): number | undefined {
  const last = Math.min(bytes.length, LONGEST_HEADER) - HEADER_END.length;
  for (let at = 0; at <= last; at++)
    if (HEADER_END.every((byte, i) => bytes[at + i] === byte)) return at + HEADER_END.length;
  return undefined;
}

function isObject(message: Uint8Array, from: number): boolean {
  let at = from;
  while (BLANKS.includes(message[at]!)) at++;
  return message[at] === OPENING_BRACE;
}
