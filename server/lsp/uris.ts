/** Addresses of files and paths of a workspace. Editors write the same address in several ways. */

/** The scheme and authority, and the path behind them. */
const PARTS = /^([A-Za-z][A-Za-z0-9+.-]*:(?:\/\/[^/?#]*)?)([^?#]*)/;

/** One way of writing an address: each segment encoded alike, a drive letter small, no slash at the end. */
export function normalizeUri(uri: string): string {
  const [, scheme = '', path = ''] = PARTS.exec(uri) ?? [];
  // `untitled:One` has no slash and no folder: it gets one of its own, so that texts without files stay apart.
  const rooted = path.startsWith('/') ? path : `/${path}/${path}`;
  const segments = rooted.split('/').map(segment => encodeURIComponent(decodeSegment(segment)));
  if (/^[A-Za-z]%3A$/i.test(segments[1] ?? '')) segments[1] = segments[1]!.toLowerCase();
  return scheme.toLowerCase() + segments.join('/').replace(/\/+$/, '');
}

function decodeSegment(segment: string): string {
  try {
    return decodeURIComponent(segment);
  } catch {
    // A stray % stands for itself.
    return segment;
  }
}

/** The path of a file in a folder, with `/`; undefined where it does not lie in it. Both in the normal form. */
export function pathIn(folder: string, uri: string): string | undefined {
  if (!uri.startsWith(`${folder}/`)) return undefined;
  return uri
    .slice(folder.length + 1)
    .split('/')
    .map(decodeSegment)
    .join('/');
}

/** The address of a path in a folder. */
export const uriOf = (folder: string, path: string): string =>
  `${folder}/${path.split('/').map(encodeURIComponent).join('/')}`;

/** The folder that an address lies in. */
export const folderOfUri = (uri: string): string => uri.slice(0, uri.lastIndexOf('/'));
