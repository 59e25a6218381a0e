/** Of several tabs with the same inventory one writes: the browser's locks say which, and a channel lets them talk. */

type Answer = 'saved' | 'unsaved';

/** Between tabs. */
interface TabMessage {
  readonly inventory: string;
  readonly says: 'stop' | Answer;
}

/** How long to wait for another tab, in ms, that may be asleep. */
const PATIENCE = 1_000;

export class OneWriter {
  private release: (() => void) | undefined;
  private readonly channel = 'BroadcastChannel' in globalThis ? new BroadcastChannel('soundwood') : undefined;

  constructor(private readonly inventory: string) {}

  /**
   * Becomes the one that writes, unless another tab is, or in its place with `steal`.
   * @param stop is called when another tab takes it. @returns whether it is the one
   */
  own(steal: boolean, stop: () => void): Promise<boolean> {
    // Pages that are not secure have no locks.
    if (!('locks' in navigator)) return Promise.resolve(true);
    return new Promise(resolve => {
      navigator.locks
        .request(`soundwood ${this.inventory}`, steal ? { steal } : { ifAvailable: true }, lock => {
          resolve(lock !== null);
          if (!lock) return undefined;
          return new Promise<void>(release => {
            this.release = release;
          });
        })
        .catch(() => {
          this.release = undefined;
          stop();
        });
    });
  }

  /** Asks the tab that writes to keep all it has; undefined if it does not say whether it did. */
  askToStop(): Promise<Answer | undefined> {
    const { channel, inventory } = this;
    if (!channel) return Promise.resolve(undefined);
    return new Promise(resolve => {
      const end = (answer?: Answer) => {
        channel.removeEventListener('message', heard);
        resolve(answer);
      };
      const heard = ({ data }: MessageEvent<TabMessage>) => {
        if (data.inventory === inventory && data.says !== 'stop') end(data.says);
      };
      channel.addEventListener('message', heard);
      setTimeout(end, PATIENCE);
      channel.postMessage({ inventory, says: 'stop' } satisfies TabMessage);
    });
  }

  /** Answers tabs that ask; undefined where this one does not write. */
  onAsked(answer: () => Promise<Answer | undefined>): void {
    const { channel, inventory } = this;
    channel?.addEventListener('message', async ({ data }: MessageEvent<TabMessage>) => {
      if (data.inventory !== inventory || data.says !== 'stop') return;
      const says = await answer();
      if (says) channel.postMessage({ inventory, says } satisfies TabMessage);
    });
  }

  close(): void {
    this.release?.();
    this.channel?.close();
  }
}
