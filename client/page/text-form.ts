/** Text and how it lies in its file: byte order mark and line ends, which editors do not show, come back as they were. */

import { isUtf16 } from '../../server/base/utf16.ts';
import { Trouble } from './place.ts';

type LineEnd = '\n' | '\r\n' | '\r';

export interface TextForm {
  readonly hasMark: boolean;
  /** The one that most lines have: as other editors do, one that writes a file makes its line ends equal. */
  readonly lineEnd: LineEnd;
}

export const NEW_FORM: TextForm = { hasMark: false, lineEnd: '\n' };

const MARK = '\uFEFF';
const LINE_END = /\r\n|\r|\n/g;

/** The text of a file as it is, with byte order mark and line ends. @throws Trouble if it is not UTF-8 */
export async function rawText(path: string, content: Blob): Promise<string> {
  const bytes = new Uint8Array(await content.arrayBuffer());
  if (isUtf16(bytes)) throw new Trouble(`${path} is UTF-16; save it as UTF-8.`);
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw new Trouble(`${path} is not UTF-8 text; save it as UTF-8.`);
  }
}

export function formOf(raw: string): TextForm {
  const counts: Record<LineEnd, number> = { '\n': 0, '\r\n': 0, '\r': 0 };
  for (const [end] of raw.matchAll(LINE_END)) counts[end as LineEnd]++;
  const [lineEnd] = (Object.entries(counts) as [LineEnd, number][]).reduce((most, one) =>
    one[1] > most[1] ? one : most,
  );
  return { hasMark: raw.startsWith(MARK), lineEnd };
}

/** As editors have it: lines end in a line feed. */
export const textOf = (raw: string): string =>
  (raw.startsWith(MARK) ? raw.slice(MARK.length) : raw).replace(LINE_END, '\n');

/** As String.toWellFormed of ECMAScript 2024, which is faster. */
const wellFormed = (text: string): string =>
  (text as { toWellFormed?(): string }).toWellFormed?.() ?? text.replace(/\p{Surrogate}/gu, '\uFFFD');

export function rawOf(text: string, { hasMark, lineEnd }: TextForm): string {
  // Half a character has no bytes in UTF-8.
  const whole = wellFormed(text);
  return `${hasMark ? MARK : ''}${lineEnd === '\n' ? whole : whole.replaceAll('\n', lineEnd)}`;
}
