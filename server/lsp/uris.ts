/** URIs of files and paths in a folder. Clients encode the same URI in different ways. */

/** Scheme and authority, then path. */
const PARTS = /^([A-Za-z][A-Za-z0-9+.-]*:(?:\/\/[^/?#]*)?)([^?#]*)/;

/** The normal form: uniform encoding of segments, lower-case drive letter, no trailing slash. */
export function normalizeUri(uri: string): string {
  const [, scheme = '', path = ''] = PARTS.exec(uri) ?? [];
  // `untitled:One` has no folder; it gets one of its own, so that unsaved texts stay separate.
  const rooted = path.startsWith('/') ? path : `/${path}/${path}`;
  const segments = rooted.split('/').map(segment => encodeURIComponent(decodeSegment(segment)));
  if (/^[A-Za-z]%3A$/i.test(segments[1] ?? '')) segments[1] = segments[1]!.toLowerCase();
  return scheme.toLowerCase() + segments.join('/').replace(/\/+$/, '');
}

function decodeSegment(segment: string): string {
  try {
    return decodeURIComponent(segment);
  } catch {
    // A stray % is literal.
    return segment;
  }
}

/** The path of a file relative to a folder, with `/`; undefined if it is outside. Both URIs in normal form. */
export function pathIn(folder: string, uri: string): string | undefined {
  if (!uri.startsWith(`${folder}/`)) return undefined;
  return uri
    .slice(folder.length + 1)
    .split('/')
    .map(decodeSegment)
    .join('/');
}

/** The URI of a path in a folder. */
export const uriOf = (folder: string, path: string): string =>
  `${folder}/${path.split('/').map(encodeURIComponent).join('/')}`;

/** The URI of the folder that contains the file. */
export const folderOfUri = (uri: string): string => uri.slice(0, uri.lastIndexOf('/'));
