/**
 * The inventory that is open: its texts, kept as they are typed. Of several tabs with the same inventory one writes;
 * the others show it and say so. What another program wrote is taken in, or asked about if the text changed here too.
 */

import { folderOf } from '../../server/facts/paths.ts';
import { OneWriter } from './one-writer.ts';
import { inOrder, isInventory, type Place, reasonOf, Trouble } from './place.ts';
import { formOf, NEW_FORM, rawOf, rawText, type TextForm, textOf } from './text-form.ts';
import type { FileAnswers } from './transport.ts';

/** How long after a change it is written, in ms: a crash costs no more than that. */
const SAVE_AFTER = 300;

/** URI of the folder that the server sees. */
export const FOLDER = 'file:///inventory';
export const uriOf = (path: string): string =>
  `${FOLDER}/${path.split('/').map(encodeURIComponent).join('/')}`;
export const pathOf = (uri: string): string =>
  decodeURIComponent(uri.startsWith(`${FOLDER}/`) ? uri.slice(FOLDER.length + 1) : uri);

export interface SaveState {
  /** Paths of texts that are not kept yet. */
  readonly unsaved: readonly string[];
  /** Why saving failed, for people. */
  readonly trouble?: string;
  /** Whether another tab writes this inventory. */
  readonly isElsewhere: boolean;
  /** Paths of files that changed here and, by another program, where they lie. */
  readonly conflicts: readonly string[];
  /** Why files are neither shown nor checked, for people. */
  readonly refused: readonly string[];
  /** Paths of files that were deleted here and can be brought back. */
  readonly removed: readonly string[];
}

/** LSP 3.17, FileChangeType. */
export type FileChange = 1 | 2 | 3;

/** A file where it lies. */
interface There {
  /** With byte order mark and line ends; undefined if there is no file. */
  readonly raw: string | undefined;
  /** Of what was read; undefined where that says nothing. */
  readonly stamp: string | undefined;
}

export class Opened {
  /** As editors have them. */
  private readonly texts = new Map<string, string>();
  private readonly forms = new Map<string, TextForm>();
  /** As they were when they were read or written last. */
  private readonly stored = new Map<string, There>();
  /** Paths of files that are not written or deleted yet. */
  private readonly unsaved = new Set<string>();
  private readonly conflicts = new Map<string, There>();
  private readonly refused = new Map<string, string>();
  /** Texts of files that were deleted here. */
  private readonly removed = new Map<string, string>();
  /** Paths of photographs and other files that are no inventories. */
  private others: ReadonlySet<string> = new Set();
  private trouble: string | undefined;
  private elsewhere = false;
  private isClosed = false;
  /** Whether anything was changed here. */
  private isTouched = false;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private working: Promise<void> = Promise.resolve();
  private readonly writer: OneWriter;
  private readonly heeding = new Set<() => void>();
  private readonly following = new Set<(path: string, change: FileChange) => void>();

  private constructor(readonly place: Place) {
    this.writer = new OneWriter(place.name);
  }

  /** Reads all texts of a place. */
  static async of(place: Place): Promise<Opened> {
    const opened = new Opened(place);
    await opened.lookAgain();
    return opened;
  }

  /** Calls back after each change of the texts or of what is saved. @returns ends it */
  heed(listener: () => void): () => void {
    this.heeding.add(listener);
    return () => this.heeding.delete(listener);
  }

  /** Calls back with files that changed by something else than the editor that shows them. @returns ends it */
  follow(listener: (path: string, change: FileChange) => void): () => void {
    this.following.add(listener);
    return () => this.following.delete(listener);
  }

  get paths(): readonly string[] {
    return inOrder(this.texts.keys());
  }

  get state(): SaveState {
    return {
      unsaved: [...this.unsaved],
      isElsewhere: this.elsewhere,
      conflicts: [...this.conflicts.keys()],
      refused: [...this.refused.values()],
      removed: [...this.removed.keys()],
      ...(this.trouble === undefined ? {} : { trouble: this.trouble }),
    };
  }

  get mayWrite(): boolean {
    return !this.elsewhere;
  }

  /** Whether nothing is lost when the page is closed. */
  get isSafe(): boolean {
    return this.unsaved.size === 0 && (this.place.keeps || !this.isTouched);
  }

  text(path: string): string | undefined {
    return this.texts.get(path);
  }

  /** Keeps a text as it is now; writes it soon. */
  change(path: string, text: string): void {
    if (this.texts.get(path) === text) return;
    this.texts.set(path, text);
    this.removed.delete(path);
    this.soon(path);
  }

  /** A file that no editor shows yet, or a text by something else than its editor. */
  put(path: string, text: string): void {
    const isNew = !this.texts.has(path);
    this.change(path, text);
    this.told(path, isNew ? 1 : 2);
  }

  /** A file goes soon, and can be brought back. */
  remove(path: string): void {
    const text = this.texts.get(path);
    if (text === undefined) return;
    this.texts.delete(path);
    this.removed.set(path, text);
    this.soon(path);
    this.told(path, 3);
  }

  bringBack(path: string): void {
    const text = this.removed.get(path);
    if (text !== undefined) this.put(path, text);
  }

  private soon(path: string): void {
    this.isTouched = true;
    this.unsaved.add(path);
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.save(), SAVE_AFTER);
    this.tell();
  }

  /**
   * Keeps a picture in `photos` beside an inventory.
   * @param day the beginning of its name
   * @returns its path as that inventory names it. @throws Trouble if it could not be kept
   */
  async addPicture(picture: Blob, beside: string, day: string, type: string): Promise<string> {
    const folder = folderOf(beside);
    const taken = new Set(await this.place.list());
    const fullOf = (name: string) => (folder === '' ? name : `${folder}/${name}`);
    let name = '';
    for (let i = 1; name === '' || taken.has(fullOf(name)); i++) name = `photos/${day}-${i}.${type}`;
    await this.place.write(fullOf(name), picture);
    this.others = new Set(this.others).add(fullOf(name));
    this.told(fullOf(name), 1);
    return name;
  }

  /** Writes what is not written. One write at a time, so that an older text never follows a newer one. */
  save(): Promise<void> {
    clearTimeout(this.timer);
    return this.inTurn(() => this.write());
  }

  private inTurn(work: () => Promise<void>): Promise<void> {
    const turn = this.working.then(work);
    this.working = turn.catch(() => {});
    return turn;
  }

  private async write(): Promise<void> {
    if (this.elsewhere || this.isClosed) return;
    let trouble: string | undefined;
    for (const path of this.unsaved) {
      if (this.conflicts.has(path)) continue;
      try {
        await this.writeOne(path);
      } catch (error) {
        // One that can't be written costs no other.
        trouble = reasonOf(error);
      }
    }
    this.trouble = trouble;
    if (trouble !== undefined) this.timer = setTimeout(() => void this.save(), 10 * SAVE_AFTER);
    this.tell();
  }

  private async writeOne(path: string): Promise<void> {
    const text = this.texts.get(path);
    const raw = text === undefined ? undefined : rawOf(text, this.forms.get(path) ?? NEW_FORM);
    const there = await this.there(path);
    if (there.raw !== this.stored.get(path)?.raw && there.raw !== raw) {
      this.conflicts.set(path, there);
      return;
    }
    if (there.raw !== raw) await (raw === undefined ? this.place.remove(path) : this.place.write(path, raw));
    this.stored.set(path, { raw, stamp: await this.place.stamp(path) });
    if (this.texts.get(path) === text) this.unsaved.delete(path);
  }

  /** It is read only if it may have changed: while another tab writes, its stamp says nothing. */
  private async there(path: string): Promise<There> {
    const stamp = this.elsewhere ? undefined : await this.place.stamp(path);
    const before = this.stored.get(path);
    if (before && stamp !== undefined && stamp === before.stamp) return before;
    const content = await this.place.read(path);
    return { raw: content && (await rawText(path, content)), stamp };
  }

  /**
   * Takes in what another program or tab wrote since. What changed here as well becomes a conflict: neither is lost
   * before somebody chose.
   */
  lookAgain(): Promise<void> {
    return this.inTurn(async () => {
      if (this.isClosed) return;
      const all = await this.place.list();
      for (const path of new Set([...all.filter(isInventory), ...this.texts.keys(), ...this.stored.keys()])) {
        try {
          this.compare(path, await this.there(path));
          this.refused.delete(path);
        } catch (error) {
          this.refused.set(path, reasonOf(error));
          if (!this.unsaved.has(path)) this.take(path, { raw: undefined, stamp: undefined });
        }
      }
      const others = new Set(all.filter(path => !isInventory(path)));
      for (const path of others) if (!this.others.has(path)) this.told(path, 1);
      for (const path of this.others) if (!others.has(path)) this.told(path, 3);
      this.others = others;
      this.tell();
    });
  }

  private compare(path: string, there: There): void {
    if (there.raw === this.stored.get(path)?.raw) {
      this.stored.set(path, there);
      this.conflicts.delete(path);
    } else if (this.unsaved.has(path)) this.conflicts.set(path, there);
    else this.take(path, there);
  }

  private take(path: string, there: There): void {
    const { raw } = there;
    const before = this.texts.get(path);
    this.stored.set(path, there);
    if (raw === undefined) this.texts.delete(path);
    else {
      this.texts.set(path, textOf(raw));
      this.forms.set(path, formOf(raw));
      this.removed.delete(path);
    }
    const after = this.texts.get(path);
    if (before !== after) this.told(path, before === undefined ? 1 : after === undefined ? 3 : 2);
  }

  /** Writes the text of here over what another program wrote. */
  keepMine(path: string): Promise<void> {
    const there = this.conflicts.get(path);
    if (!there) return Promise.resolve();
    this.stored.set(path, there);
    this.conflicts.delete(path);
    return this.save();
  }

  /** Shows what another program wrote in place of the text of here. */
  takeTheirs(path: string): void {
    const there = this.conflicts.get(path);
    if (!there) return;
    this.conflicts.delete(path);
    this.unsaved.delete(path);
    this.take(path, there);
    this.tell();
  }

  /** The text of a file with its own line ends. */
  raw(path: string): string {
    return rawOf(this.texts.get(path) ?? '', this.forms.get(path) ?? NEW_FORM);
  }

  /**
   * Becomes the tab that writes, unless another one is. With `steal` the other one stops, after what it has typed is
   * kept; this one then shows what is there.
   */
  async own(steal: boolean): Promise<void> {
    // What is in memory alone is no other tab's.
    if (!this.place.keeps) return;
    if (steal && (await this.writer.askToStop()) === 'unsaved') {
      this.trouble =
        'The other tab could not save what was typed in it, so editing stays there. Download the inventory there as a ZIP or free some storage, then come back.';
      this.tell();
      return;
    }
    this.elsewhere = !(await this.writer.own(steal, () => {
      this.elsewhere = true;
      this.tell();
    }));
    // Another tab may have written until now.
    for (const [path, { raw }] of this.stored) this.stored.set(path, { raw, stamp: undefined });
    this.trouble = undefined;
    if (this.mayWrite)
      await this.lookAgain().catch(error => {
        this.trouble = reasonOf(error);
      });
    this.tell();
  }

  /** Listens to other tabs of this inventory. */
  listen(): void {
    this.writer.onAsked(async () => {
      if (this.elsewhere || !this.place.keeps) return undefined;
      await this.save();
      return this.unsaved.size > 0 ? 'unsaved' : 'saved';
    });
  }

  /**
   * Gives the inventory free for other tabs, and ends.
   * @param force whether what can't be kept may be lost. @throws Trouble if something is not kept
   */
  async close(force = false): Promise<void> {
    await this.save();
    if (!this.isSafe && !force) throw new Trouble(this.whyUnsafe);
    this.isClosed = true;
    clearTimeout(this.timer);
    this.heeding.clear();
    this.following.clear();
    this.writer.close();
  }

  private get whyUnsafe(): string {
    if (!this.place.keeps) return 'This browser does not store anything. Download the inventory as a ZIP.';
    const names = inOrder(this.unsaved).join(', ');
    return `Not kept: ${names}. ${this.trouble ?? 'First choose which version to keep.'}`;
  }

  private tell(): void {
    for (const listener of this.heeding) listener();
  }

  private told(path: string, change: FileChange): void {
    for (const listener of this.following) listener(path, change);
  }

  /** What the server is told of files. */
  readonly answers: FileAnswers = {
    files: async ({ file }) =>
      [...this.texts]
        .filter(([path]) => file === undefined || uriOf(path) === file)
        .map(([path, text]) => ({ uri: uriOf(path), text })),
    photos: async ({ paths, bytes }) =>
      Promise.all(
        paths.map(async path => {
          const content = await this.place.read(path);
          if (!content) return { path, missing: true };
          return { path, missing: false, head: new Uint8Array(await content.slice(0, bytes).arrayBuffer()) };
        }),
      ),
    namedPaths: async ({ most }) =>
      (await this.place.list()).filter(path => !isInventory(path)).slice(0, most),
  };
}
