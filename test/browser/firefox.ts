/** Firefox, as the system has it, over WebDriver BiDi (W3C): no more of it than these tests ask for. */

import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect } from 'vitest';
import { HANG } from '../hang.ts';

/** Node 20 has no WebSocket of its own. */
const { ws: Socket } = createRequire(import.meta.url)('playwright-core/lib/utilsBundle') as {
  readonly ws: new (url: string) => WebSocket;
};

const found = ['/usr/bin/firefox-esr', '/usr/bin/firefox'].find(path => existsSync(path));

export const withoutFirefox = found === undefined;
if (withoutFirefox)
  console.warn('Tests in Firefox are passed over: there is none (apt-get install firefox-esr).');

type Answer = Readonly<Record<string, unknown>>;

export class Firefox {
  private readonly waiting = new Map<number, (answer: Answer) => void>();
  private last = 0;
  private context = '';
  /** What the page complained of. */
  readonly complaints: string[] = [];

  private constructor(
    private readonly socket: WebSocket,
    readonly end: () => Promise<void>,
  ) {
    socket.addEventListener('message', ({ data }) => {
      const message = JSON.parse(String(data)) as Answer & { readonly id?: number };
      if (message.id !== undefined) this.waiting.get(message.id)?.(message);
      else if ((message.params as Answer).level === 'error')
        this.complaints.push(String((message.params as Answer).text));
    });
  }

  static async start(): Promise<Firefox> {
    const profile = await mkdtemp(join(tmpdir(), 'soundwood-firefox-'));
    const options = ['--headless', '--no-remote', '--remote-debugging-port=0', '--profile', profile];
    const program = spawn(found!, options, { stdio: ['ignore', 'ignore', 'pipe'] });
    const ended = new Promise(resolve => program.once('exit', resolve));
    const address = await new Promise<string>(resolve =>
      program.stderr.on('data', (said: Buffer) => {
        const [, url] = /listening on (ws:\S+)/.exec(said.toString()) ?? [];
        if (url) resolve(url);
      }),
    );
    const socket = new Socket(`${address}/session`);
    await new Promise(resolve => socket.addEventListener('open', resolve));
    const firefox = new Firefox(socket, async () => {
      socket.close();
      program.kill();
      await ended;
      await rm(profile, { recursive: true, force: true });
    });
    await firefox.send('session.new', { capabilities: {} });
    await firefox.send('session.subscribe', { events: ['log.entryAdded'] });
    return firefox;
  }

  private async send(method: string, params: object): Promise<Answer> {
    const id = ++this.last;
    const answer = new Promise<Answer>(resolve => this.waiting.set(id, resolve));
    this.socket.send(JSON.stringify({ id, method, params }));
    const { type, error, message, result } = await answer;
    if (type === 'error') throw new Error(`${method}: ${error}, ${message}`);
    return result as Answer;
  }

  async open(url: string, viewport: { readonly width: number; readonly height: number }): Promise<void> {
    this.context = String((await this.send('browsingContext.create', { type: 'tab' })).context);
    await this.send('browsingContext.setViewport', { context: this.context, viewport });
    await this.send('browsingContext.navigate', { context: this.context, url, wait: 'complete' });
  }

  /** The value of an expression on the page. */
  async value(expression: string): Promise<unknown> {
    const answer = await this.send('script.evaluate', {
      expression,
      target: { context: this.context },
      awaitPromise: true,
    });
    if (answer.type === 'exception') throw new Error(JSON.stringify(answer.exceptionDetails));
    return (answer.result as Answer).value;
  }

  async waitFor(expression: string): Promise<void> {
    await expect.poll(() => this.value(`Boolean(${expression})`), { timeout: HANG / 6 }).toBe(true);
  }

  /** The first element with these words. */
  withWords(selector: string, words: string): string {
    return `[...document.querySelectorAll(${JSON.stringify(selector)})].find(one => one.textContent.includes(${JSON.stringify(words)}))`;
  }

  async click(selector: string, words: string): Promise<void> {
    const element = this.withWords(selector, words);
    await this.waitFor(element);
    await this.value(`${element}.click()`);
  }

  async type(text: string): Promise<void> {
    const actions = [...text].flatMap(value => [
      { type: 'keyDown', value },
      { type: 'keyUp', value },
    ]);
    await this.send('input.performActions', {
      context: this.context,
      actions: [{ type: 'key', id: 'keyboard', actions }],
    });
  }
}
