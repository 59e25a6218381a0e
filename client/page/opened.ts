/**
 * The inventory that is open: its texts, kept as they are typed. Of several tabs with the same inventory one writes;
 * the others show it and say so.
 */

import { inOrder, isInventory, NotSaved, type Place } from './place.ts';
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
}

export class Opened {
  private readonly texts = new Map<string, string>();
  private readonly unsaved = new Map<string, string>();
  private trouble: string | undefined;
  private elsewhere = false;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private saving: Promise<void> = Promise.resolve();
  private release: (() => void) | undefined;
  private readonly heeding = new Set<() => void>();

  private constructor(readonly place: Place) {}

  /** Reads all texts of a place. */
  static async of(place: Place): Promise<Opened> {
    const opened = new Opened(place);
    await opened.readAnew();
    await opened.own(false);
    return opened;
  }

  /** Calls back after each change of the texts or of what is saved. @returns ends it */
  heed(listener: () => void): () => void {
    this.heeding.add(listener);
    return () => this.heeding.delete(listener);
  }

  get paths(): readonly string[] {
    return inOrder(this.texts.keys());
  }

  get state(): SaveState {
    return {
      unsaved: [...this.unsaved.keys()],
      isElsewhere: this.elsewhere,
      ...(this.trouble === undefined ? {} : { trouble: this.trouble }),
    };
  }

  get mayWrite(): boolean {
    return !this.elsewhere;
  }

  text(path: string): string | undefined {
    return this.texts.get(path);
  }

  /** Keeps a text as it is now; writes it soon. */
  change(path: string, text: string): void {
    if (this.texts.get(path) === text) return;
    this.texts.set(path, text);
    this.unsaved.set(path, text);
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.save(), SAVE_AFTER);
    this.tell();
  }

  /** Another file, such as a photograph. */
  async add(path: string, content: Blob): Promise<void> {
    if (isInventory(path)) this.change(path, await content.text());
    else await this.place.write(path, content);
    this.tell();
  }

  async remove(path: string): Promise<void> {
    this.texts.delete(path);
    this.unsaved.delete(path);
    await this.place.remove(path);
    this.tell();
  }

  /** Writes what is not written. One write at a time, so that an older text never follows a newer one. */
  save(): Promise<void> {
    clearTimeout(this.timer);
    this.saving = this.saving.then(() => this.write());
    return this.saving;
  }

  private async write(): Promise<void> {
    if (this.elsewhere) return;
    let trouble: string | undefined;
    for (const [path, text] of this.unsaved) {
      try {
        await this.place.write(path, text);
        if (this.unsaved.get(path) === text) this.unsaved.delete(path);
      } catch (error) {
        // One that can't be written costs no other.
        trouble = error instanceof NotSaved ? error.message : String(error);
      }
    }
    this.trouble = trouble;
    if (trouble !== undefined) this.timer = setTimeout(() => void this.save(), 10 * SAVE_AFTER);
    this.tell();
  }

  /**
   * Becomes the tab that writes, unless another one is. With `steal` the other one stops, after what it has typed is
   * kept; this one then shows what is there.
   */
  async own(steal: boolean): Promise<void> {
    // Pages that are not secure have no locks.
    if (!('locks' in navigator)) return;
    if (steal) await this.askToStop();
    const name = `soundwood ${this.place.name}`;
    const mine = await new Promise<boolean>(resolve => {
      navigator.locks
        .request(name, steal ? { steal } : { ifAvailable: true }, lock => {
          resolve(lock !== null);
          if (!lock) return undefined;
          return new Promise<void>(release => {
            this.release = release;
          });
        })
        // Rejects when another tab takes it.
        .catch(() => this.stop());
    });
    this.elsewhere = !mine;
    if (steal && mine) await this.readAnew();
    this.tell();
  }

  private readonly channel = 'BroadcastChannel' in globalThis ? new BroadcastChannel('soundwood') : undefined;

  /** Asks the tab that writes to keep all it has, and waits until it says so, or for a second. */
  private askToStop(): Promise<void> {
    const { channel, place } = this;
    if (!channel) return Promise.resolve();
    return new Promise(resolve => {
      const heard = ({ data }: MessageEvent<{ readonly saved?: string }>) => {
        if (data.saved === place.name) resolve();
      };
      channel.addEventListener('message', heard);
      setTimeout(() => {
        channel.removeEventListener('message', heard);
        resolve();
      }, 1000);
      channel.postMessage({ stop: place.name });
    });
  }

  /** Listens to other tabs of this inventory. */
  listen(): void {
    this.channel?.addEventListener('message', ({ data }: MessageEvent<{ readonly stop?: string }>) => {
      if (data.stop !== this.place.name || this.elsewhere) return;
      void this.save().then(() => this.channel?.postMessage({ saved: this.place.name }));
    });
  }

  private stop(): void {
    this.elsewhere = true;
    this.release = undefined;
    this.tell();
  }

  /** Gives the inventory free for other tabs, and ends. */
  async close(): Promise<void> {
    await this.save();
    this.heeding.clear();
    this.release?.();
    this.channel?.close();
  }

  private async readAnew(): Promise<void> {
    this.texts.clear();
    for (const path of (await this.place.list()).filter(isInventory)) {
      const content = await this.place.read(path);
      if (content) this.texts.set(path, await content.text());
    }
    // What could not be written stands before what was.
    for (const [path, text] of this.unsaved) this.texts.set(path, text);
  }

  private tell(): void {
    for (const listener of this.heeding) listener();
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
