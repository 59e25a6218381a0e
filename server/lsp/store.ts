/**
 * The state of the server: folders with their files, and the documents that the editor has open, whose text
 * takes the place of what is on disk. Workspaces are built when somebody asks, from what did not change.
 */

import { type BlockNode, difference, fileOf, nodesOf, withoutTrees } from '../facts/file.ts';
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

/** So many edited blocks of a document are known. */
const MOST_EDITED = 50;

interface OpenDocument {
  readonly uri: string;
  readonly version: number;
  /** Blocks edited lately, the latest first. */
  readonly edited: readonly BlockNode[];
  /** First and last line in view, from 0, where the editor let it be known. */
  readonly seen?: readonly [number, number];
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
  readonly onDisk: Map<string, FileOnDisk>;
  /** By path; replaced as a whole when anything of it changes. Absent as long as nobody looked. */
  photos: PhotoIndex | undefined;
  /** Paths of photographs that were looked up, whatever came of it. */
  asked: Set<string>;
  workspace: Workspace | undefined;
  changed: boolean;
  /** Stands for an open document outside all folders; goes with the last of them. */
  readonly loose: boolean;
}

interface FileOnDisk {
  readonly text: string;
  /** Undefined until somebody asks. */
  file?: FileSnapshot;
  /** Whether it was read as a whole; until then its trees are not known. */
  isWhole: boolean;
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

  /** @param now the day of the clock, where the editor may ask for the state of another day */
  constructor(private readonly now?: () => number) {}

  addFolder(uri: string, content: FolderContent): void {
    const folder = normalizeUri(uri);
    const base = normalizeUri(content.base);
    const onDisk = new Map<string, FileOnDisk>();
    for (const { uri: address, text } of content.files) {
      const path = pathIn(base, normalizeUri(address));
      if (path !== undefined) onDisk.set(path, { text, isWhole: false });
    }
    this.roots.set(folder, newRoot({ folder, base, onDisk, loose: false }));
    this.dropLoose();
  }

  /**
   * Reads the files of all folders as wholes, in steps. Until it is done, of files that are not open only what they
   * state besides trees is known: enough to judge the trees of those that are.
   * @param done hears how many of how many files are read
   */
  *readRest(done: (read: number, of: number) => void = () => {}): Iterable<void> {
    for (const state of this.roots.values()) {
      let read = 0;
      let isNews = false;
      for (const [path, one] of state.onDisk) {
        done(read++, state.onDisk.size);
        if (one.isWhole || this.open.has(uriOf(state.base, path))) continue;
        const nodes: BlockNode[] = [];
        for (const node of nodesOf(one.text)) {
          nodes.push(node);
          yield;
        }
        // It may have changed meanwhile.
        if (one.isWhole) continue;
        one.file = fileOf(path, nodes);
        one.isWhole = true;
        isNews = true;
      }
      if (isNews) state.changed = true;
    }
  }

  removeFolder(uri: string): void {
    this.roots.delete(normalizeUri(uri));
    for (const key of this.open.keys()) this.touch(key);
  }

  openDocument({ uri, version, text }: NewDocument): void {
    const key = normalizeUri(uri);
    const known = this.rootsOver(key).flatMap(
      state => this.wholeFile(state, pathIn(state.base, key)!) ?? [],
    )[0];
    this.open.set(key, { uri, version, edited: [], file: atPath(key, readFile(key, text, known)) });
    this.touch(key);
  }

  /** Where one of the changes can't be made, none is. */
  changeDocument(uri: string, version: number, changes: readonly DocumentChange[]): void {
    const key = normalizeUri(uri);
    const document = this.open.get(key);
    if (!document) return;
    const file = changes.reduce(changed, document.file);
    const { from, newEnd } = difference(document.file.nodes, file.nodes);
    const edited = [...file.nodes.slice(from, Math.min(newEnd, from + MOST_EDITED)), ...document.edited];
    this.open.set(key, { ...document, version, file, edited: edited.slice(0, MOST_EDITED) });
    this.touch(key);
  }

  document(uri: string): OpenDocument | undefined {
    return this.open.get(normalizeUri(uri));
  }

  /** Lines of an open document came into view; whether that is news. */
  see(uri: string, first: number, last: number): boolean {
    const document = this.document(uri);
    if (!document || (document.seen?.[0] === first && document.seen[1] === last)) return false;
    this.open.set(normalizeUri(uri), { ...document, seen: [first, last] });
    return true;
  }

  /** Whether a block of a file, by its index, was edited lately or is in view. */
  atHand({ root, file }: Located): (block: number) => boolean {
    const document = this.open.get(uriOf(root.base, file.path));
    if (!document) return () => false;
    const edited = new Set(document.edited);
    const [first, last] = document.seen ?? [0, -1];
    const { nodes, firstLines } = file;
    return block =>
      edited.has(nodes[block]!) ||
      (firstLines[block]! <= last && firstLines[block]! + nodes[block]!.lineEnds >= first);
  }

  closeDocument(uri: string): void {
    const key = normalizeUri(uri);
    for (const root of this.rootsOver(key)) {
      const path = pathIn(root.base, key)!;
      const onDisk = root.onDisk.get(path);
      // What of the document is on disk stays the same.
      const known = this.wholeFile(root, path);
      if (onDisk)
        root.onDisk.set(path, { ...onDisk, file: readFile(path, onDisk.text, known), isWhole: true });
      root.changed = true;
    }
    this.open.delete(key);
    this.dropLoose();
  }

  /** @param text undefined where the file is gone */
  fileOnDisk(uri: string, text: string | undefined): void {
    const key = normalizeUri(uri);
    for (const root of this.rootsOver(key)) {
      const path = pathIn(root.base, key)!;
      const known = this.wholeFile(root, path);
      if (text === undefined) root.onDisk.delete(path);
      else root.onDisk.set(path, { text, file: readFile(path, text, known), isWhole: true });
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
    const path = pathIn(state.base, key)!;
    const onDisk = state.onDisk.get(path);
    if (onDisk && !onDisk.isWhole && !this.open.has(key)) {
      // Somebody asks about it before its turn.
      state.onDisk.set(path, { ...onDisk, file: readFile(path, onDisk.text), isWhole: true });
      state.changed = true;
    }
    const root = this.built(state);
    const file = root.workspace.files.get(path);
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

  /** The latest state of a file in a root, if it was read as a whole. */
  private wholeFile({ base, onDisk, workspace }: RootState, path: string): FileSnapshot | undefined {
    const isOpen = this.open.has(uriOf(base, path));
    return isOpen || onDisk.get(path)?.isWhole ? workspace?.files.get(path) : undefined;
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
      for (const [path, one] of state.onDisk)
        if (!files.has(path)) files.set(path, (one.file ??= withoutTrees(path, one.text)));
      const built = buildWorkspace([...files.values()], before);
      const workspace = this.now ? { ...built, now: this.now() } : built;
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
