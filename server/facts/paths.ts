/** Paths in a workspace: relative to its root, with `/`. */

/** The folder of a path, without a slash at its end; '' for the root. */
export const folderOf = (path: string): string => path.slice(0, Math.max(0, path.lastIndexOf('/')));

/** A folder and those above it, nearest first, down to the root ''. */
export function foldersUp(folder: string): readonly string[] {
  const folders = [folder];
  for (let at = folder; at !== ''; ) folders.push((at = folderOf(at)));
  return folders;
}

/** Whether a path is one of the files, or lies in one of the folders; the folder '' holds everything. */
export const liesIn = (path: string, asked: readonly string[]): boolean =>
  asked.some(one => one === '' || path === one || path.startsWith(`${one}/`));
