/**
 * The state of the server: folders with their files, and the documents that the editor has open, whose text
 * takes the place of what is on disk. Workspaces are built when somebody asks, from what did not change.
 */

import { type PhotoIndex, photoPaths } from '../facts/photos.ts';
import { offsetIn } from '../facts/positions.ts';
import {
  atPath,
  buildWorkspace,
  editFile,
  type FileSnapshot,
  readFile,
  type Workspace,
  withPhotos,
} from '../facts/workspace.ts';
import type { FolderContent } from './files.ts';
import { folderOfUri, normalizeUri, pathIn, uriOf } from './uris.ts';

/** A document that the editor hands over. */
export interface NewDocument {
  /** As the editor writes it. */
  readonly uri: string;
  readonly version: number;
  readonly text: string;
}

/** `text` in place of a stretch, or of the whole document. */
export interface DocumentChange {
  readonly range?: { readonly start: PositionOfEditor; readonly end: PositionOfEditor };
  readonly text: string;
}

/** From 0. */
interface PositionOfEditor {
  readonly line: number;
  readonly character: number;
}

interface OpenDocument {
  readonly uri: string;
  readonly version: number;
  /** Its path is the address in the normal form. */
  readonly file: FileSnapshot;
}

export interface Root {
  /** The folder of the editor, in the normal form. */
  readonly folder: string;
  /** Paths are relative to it: the folder, or one above. */
  readonly base: string;
  readonly workspace: Workspace;
}

/** A file in the root that owns it. */
export interface Located {
  readonly root: Root;
  readonly file: FileSnapshot;
}

interface RootState {
  readonly folder: string;
  base: string;
  /** By path. */
  onDisk: Map<string, string>;
  /** By path; replaced as a whole when anything of it changes. Absent as long as nobody looked. */
  photos: PhotoIndex | undefined;
  /** Paths of photographs that were looked up, whatever came of it. */
  asked: Set<string>;
  workspace: Workspace | undefined;
  changed: boolean;
  /** Stands for an open document outside all folders; goes with the last of them. */
  readonly loose: boolean;
}

const newRoot = (given: Pick<RootState, 'folder' | 'base' | 'onDisk' | 'loose'>): RootState => ({
  ...given,
  photos: undefined,
  asked: new Set(),
  workspace: undefined,
  changed: true,
});

export class Store {
  private readonly roots = new Map<string, RootState>();
  /** By address in the normal form. */
  private readonly open = new Map<string, OpenDocument>();

  addFolder(uri: string, content: FolderContent): void {
    const folder = normalizeUri(uri);
    const base = normalizeUri(content.base);
    const onDisk = new Map<string, string>();
    for (const file of content.files) {
      const path = pathIn(base, normalizeUri(file.uri));
      if (path !== undefined) onDisk.set(path, file.text);
    }
    this.roots.set(folder, newRoot({ folder, base, onDisk, loose: false }));
    this.dropLoose();
  }

  removeFolder(uri: string): void {
    this.roots.delete(normalizeUri(uri));
    for (const key of this.open.keys()) this.touch(key);
  }

  openDocument({ uri, version, text }: NewDocument): void {
    const key = normalizeUri(uri);
    const known = this.rootsOver(key).flatMap(
      ({ base, workspace }) => workspace?.files.get(pathIn(base, key)!) ?? [],
    )[0];
    this.open.set(key, { uri, version, file: atPath(key, readFile(key, text, known)) });
    this.touch(key);
  }

  /** Where one of the changes can't be made, none is. */
  changeDocument(uri: string, version: number, changes: readonly DocumentChange[]): void {
    const key = normalizeUri(uri);
    const document = this.open.get(key);
    if (!document) return;
    this.open.set(key, { ...document, version, file: changes.reduce(changed, document.file) });
    this.touch(key);
  }

  document(uri: string): OpenDocument | undefined {
    return this.open.get(normalizeUri(uri));
  }

  closeDocument(uri: string): void {
    const key = normalizeUri(uri);
    this.open.delete(key);
    for (const root of this.rootsOver(key)) root.changed = true;
    this.dropLoose();
  }

  /** @param text undefined where the file is gone */
  fileOnDisk(uri: string, text: string | undefined): void {
    const key = normalizeUri(uri);
    for (const root of this.rootsOver(key)) {
      const path = pathIn(root.base, key)!;
      if (text === undefined) root.onDisk.delete(path);
      else root.onDisk.set(path, text);
      root.changed = true;
    }
  }

  /** Files on disk below a folder that is gone. */
  pathsUnder(uri: string): readonly string[] {
    const key = normalizeUri(uri);
    return [...this.roots.values()].flatMap(({ base, onDisk }) =>
      [...onDisk.keys()].map(path => uriOf(base, path)).filter(file => file.startsWith(`${key}/`)),
    );
  }

  /** The photographs that files name and nobody looked up; from now on they count as looked up. */
  photosWanted(): readonly { readonly root: Root; readonly paths: readonly string[] }[] {
    return [...this.roots.values()].flatMap(state => {
      const root = this.built(state);
      const named = new Set(this.filesOf(root).flatMap(photoPaths));
      const paths = [...named].filter(path => !state.asked.has(path));
      for (const path of paths) state.asked.add(path);
      return paths.length > 0 ? [{ root, paths }] : [];
    });
  }

  /** What was found for the folder of a root; whether that is news. */
  photosRead(folder: string, found: PhotoIndex): boolean {
    const state = this.roots.get(folder);
    if (!state || found.size === 0) return false;
    state.photos = new Map([...(state.photos ?? []), ...found]);
    state.changed = true;
    return true;
  }

  /** A file, or a folder with all that is in it, changed: whether photographs are to be looked up again for it. */
  photoTouched(uri: string): boolean {
    const key = normalizeUri(uri);
    let touched = false;
    for (const state of this.rootsOver(key)) {
      const at = pathIn(state.base, key)!;
      for (const path of state.asked) {
        if (path !== at && !path.startsWith(`${at}/`)) continue;
        state.asked.delete(path);
        touched = true;
      }
    }
    return touched;
  }

  find(uri: string): Located | undefined {
    const key = normalizeUri(uri);
    const state = this.owner(key);
    if (!state) return undefined;
    const root = this.built(state);
    const file = root.workspace.files.get(pathIn(root.base, key)!);
    return file && { root, file };
  }

  all(): readonly Root[] {
    return [...this.roots.values()].map(state => this.built(state));
  }

  /** The files that a root speaks for: those of its folder that no folder inside it owns. */
  filesOf(root: Root): readonly FileSnapshot[] {
    return [...root.workspace.files.values()].filter(
      ({ path }) => this.owner(uriOf(root.base, path))?.folder === root.folder,
    );
  }

  /** The address of a file as the editor writes it, where it has it open. */
  uriOf({ base }: Root, path: string): string {
    const uri = uriOf(base, path);
    return this.open.get(uri)?.uri ?? uri;
  }

  private touch(key: string): void {
    if (!this.owner(key)) {
      const folder = folderOfUri(key);
      this.roots.set(folder, newRoot({ folder, base: folder, onDisk: new Map(), loose: true }));
    }
    for (const root of this.rootsOver(key)) root.changed = true;
  }

  private dropLoose(): void {
    for (const [folder, { loose }] of this.roots) {
      if (!loose) continue;
      const used = [...this.open.keys()].some(key => this.owner(key)?.folder === folder);
      if (!used) this.roots.delete(folder);
    }
  }

  private rootsOver(key: string): readonly RootState[] {
    return [...this.roots.values()].filter(({ base }) => pathIn(base, key) !== undefined);
  }

  /** The innermost folder; one of the editor's before a loose one. */
  private owner(key: string): RootState | undefined {
    let found: RootState | undefined;
    for (const root of this.roots.values()) {
      // A loose root holds what lies right in its folder: deeper documents have their own.
      const inside = root.loose ? folderOfUri(key) === root.folder : pathIn(root.folder, key) !== undefined;
      if (!inside) continue;
      const better =
        !found ||
        (found.loose && !root.loose) ||
        (found.loose === root.loose && root.folder.length > found.folder.length);
      if (better) found = root;
    }
    return found;
  }

  private built(state: RootState): Root {
    if (state.changed || !state.workspace) {
      const before = state.workspace;
      const files = new Map<string, FileSnapshot>();
      for (const [key, { file }] of this.open) {
        const path = pathIn(state.base, key);
        if (path === undefined || (state.loose && path.includes('/'))) continue;
        const known = before?.files.get(path);
        files.set(path, known?.nodes === file.nodes ? known : atPath(path, file));
      }
      for (const [path, text] of state.onDisk)
        if (!files.has(path)) files.set(path, readFile(path, text, before?.files.get(path)));
      const workspace = buildWorkspace([...files.values()], before);
      state.workspace = state.photos ? withPhotos(workspace, state.photos) : workspace;
      state.changed = false;
    }
    return { folder: state.folder, base: state.base, workspace: state.workspace };
  }
}

/** An editor may name the ends of a stretch the wrong way round, and places where nothing is. */
function changed(file: FileSnapshot, { range, text }: DocumentChange): FileSnapshot {
  if (!range) return readFile(file.path, text, file);
  const at = ({ line, character }: PositionOfEditor) => offsetIn(file, { line, column: character });
  const ends = [at(range.start), at(range.end)] as const;
  return editFile(file, Math.min(...ends), Math.max(...ends), text);
}
