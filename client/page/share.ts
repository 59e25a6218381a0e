/** A short text in the fragment of a link: it goes to nobody but who gets the link. */

import { gunzipSync, gzipSync } from 'fflate';

/** Longer links are cut by what people send them with. */
const MOST_LINK = 8_000;

const bytesOf = (text: string): Uint8Array => Uint8Array.from(atob(text), one => one.charCodeAt(0));

/** Undefined if the text is too long for a link. */
export function linkTo(text: string): string | undefined {
  // fflate's asynchronous functions make workers of blobs, which the policy of the page forbids.
  const packed = gzipSync(new TextEncoder().encode(text), { mtime: 0 });
  const code = btoa(String.fromCharCode(...packed))
    .replaceAll('+', '-')
    .replaceAll('/', '_')
    .replaceAll('=', '');
  const link = `${location.origin}${location.pathname}#text=${code}`;
  return link.length > MOST_LINK ? undefined : link;
}

/** Undefined if the link holds none, or a damaged one. */
export function sharedText(fragment: string): string | undefined {
  const code = /^#text=([\w-]+)$/.exec(fragment)?.[1];
  if (code === undefined) return undefined;
  try {
    const bytes = gunzipSync(bytesOf(code.replaceAll('-', '+').replaceAll('_', '/')));
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return undefined;
  }
}
