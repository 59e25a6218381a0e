/** A real editor served on the loopback interface, with the packaged extension in it, and a browser before it. */

import { type ChildProcess, spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { HANG } from '../hang.ts';

/** Where the extension runs: in a process of its own, or in the browser. */
export type Host = 'node' | 'web';

export interface Editor {
  readonly page: Page;
  /** The folder that is open. */
  readonly folder: string;
  /** Addresses other than this machine's that the page asked for. */
  readonly foreign: ReadonlySet<string>;
  readonly stop: () => Promise<void>;
}

/** What .ci/e2e has put in place. */
const needed = (name: string): string => {
  const value = process.env[name];
  if (!value) throw new Error(`${name} is not set: run .ci/e2e.`);
  return value;
};

/** None changes how the editor takes keys. */
const SETTINGS = {
  'telemetry.telemetryLevel': 'off',
  'update.mode': 'none',
  'extensions.autoCheckUpdates': false,
  'extensions.autoUpdate': false,
  'workbench.startupEditor': 'none',
  'workbench.enableExperiments': false,
  'workbench.tips.enabled': false,
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.colorTheme': 'Default Light Modern',
  'chat.disableAIFeatures': true,
  'git.enabled': false,
  'editor.minimap.enabled': false,
  // What moves is painted anew, which takes much of the time of a machine without a graphics card.
  'editor.cursorBlinking': 'solid',
  'workbench.reduceMotion': 'on',
  'window.commandCenter': false,
  'window.title': 'Fernhollow Court',
  'files.autoSave': 'off',
  // So that what a terminal shows is text in the page.
  'terminal.integrated.gpuAcceleration': 'off',
  'soundwood.on': '2026-06-01',
};

/** Neither extensions nor anything else is looked up anywhere. */
const NO_GALLERY = JSON.stringify({
  serviceUrl: 'http://127.0.0.1:9/none',
  itemUrl: '',
  resourceUrlTemplate: '',
  controlUrl: '',
  recommendationsUrl: '',
});

/** @param files what is in the folder instead of the sample inventory */
export async function startEditor(host: Host, files?: Readonly<Record<string, string>>): Promise<Editor> {
  const home = mkdtempSync(join(tmpdir(), 'soundwood-'));
  const folder = join(home, 'fernhollow');
  if (!files) cpSync('samples/fernhollow', folder, { recursive: true });
  else mkdirSync(folder);
  for (const [path, text] of Object.entries(files ?? {})) writeFileSync(join(folder, path), text);
  // The folder of a repository: nothing above it counts.
  mkdirSync(join(folder, '.git'));
  mkdirSync(join(home, 'user', 'User'), { recursive: true });
  const kind = host === 'web' ? { 'remote.extensionKind': { 'soundwood.soundwood': ['web'] } } : {};
  writeFileSync(join(home, 'user', 'User', 'settings.json'), JSON.stringify({ ...SETTINGS, ...kind }));

  const folders = ['--user-data-dir', join(home, 'user'), '--extensions-dir', join(home, 'extensions')];
  const run = (args: readonly string[]) =>
    spawn(needed('EDITOR_SERVER'), [...folders, ...args], {
      detached: true,
      stdio: ['ignore', 'pipe', 'inherit'],
      env: {
        ...process.env,
        PATH: needed('EDITOR_PATH'),
        XDG_CONFIG_HOME: home,
        XDG_DATA_HOME: home,
        XDG_CACHE_HOME: home,
        EXTENSIONS_GALLERY: NO_GALLERY,
      },
    });
  await ended(run(['--install-extension', needed('EXTENSION'), '--force']));
  const server = run([
    ...['--auth', 'none', '--bind-addr', '127.0.0.1:0', '--disable-telemetry', '--disable-update-check'],
    ...['--disable-workspace-trust', '--disable-getting-started-override'],
  ]);
  const address = await said(server, /HTTP server listening on (http:\/\/127\.0\.0\.1:\d+)/);

  const foreign = new Set<string>();
  const context = await openBrowser(join(home, 'browser'), foreign);
  const page = context.pages()[0] ?? (await context.newPage());
  // Shorter than a test, so that the failure names what was waited for.
  page.setDefaultTimeout(HANG / 6);
  await page.goto(`${address}/?folder=${folder}`);
  return {
    page,
    folder,
    foreign,
    stop: async () => {
      await context.close();
      process.kill(-server.pid!);
      await ended(server);
      rmSync(home, { recursive: true, force: true });
    },
  };
}

/** A language server of this editor. */
interface Server {
  readonly id: string;
  readonly kill: () => Promise<void>;
}

export const serversOf = (editor: Editor, host: Host): Promise<readonly Server[]> =>
  host === 'node' ? Promise.resolve(processesOf(editor)) : workersOf(editor);

/** Processes started from the editor's own folder of extensions. */
function processesOf({ folder }: Editor): readonly Server[] {
  const commandOf = (pid: string): string => {
    try {
      return readFileSync(`/proc/${pid}/cmdline`, 'utf8');
    } catch {
      // It has just ended.
      return '';
    }
  };
  return readdirSync('/proc')
    .filter(name => /^\d+$/.test(name))
    .filter(pid => {
      const command = commandOf(pid);
      return command.includes(dirname(folder)) && command.includes('soundwood.js\0serve');
    })
    .map(id => ({
      id,
      async kill() {
        process.kill(Number(id), 'SIGKILL');
      },
    }));
}

async function workersOf({ page }: Editor): Promise<readonly Server[]> {
  const named = await Promise.all(
    page.workers().map(async worker => ({
      worker,
      // A worker may end while it is asked.
      id: await worker.evaluate(() => (globalThis as unknown as { name: string }).name).catch(() => ''),
    })),
  );
  return named
    .filter(({ id }) => id.includes('soundwood-'))
    .map(({ worker, id }) => ({
      id,
      kill: () => worker.evaluate(() => (globalThis as unknown as { close(): void }).close()).catch(() => {}),
    }));
}

async function openBrowser(profile: string, foreign: Set<string>): Promise<BrowserContext> {
  const context = await chromium.launchPersistentContext(profile, {
    // So that Ctrl+V pastes.
    permissions: ['clipboard-read', 'clipboard-write'],
    executablePath: needed('BROWSER'),
    headless: true,
    viewport: { width: 1360, height: 820 },
    args: [
      ...['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-sync'],
      ...['--disable-background-networking', '--disable-component-update'],
    ],
  });
  await context.route(/^(https?|wss?):\/\/(?!127\.0\.0\.1[:/])/, route => {
    foreign.add(new URL(route.request().url()).host);
    return route.abort();
  });
  return context;
}

const ended = (child: ChildProcess): Promise<void> =>
  new Promise(resolve => {
    child.stdout?.resume();
    child.once('exit', () => resolve());
  });

/** The first group of what the process says; rejects if it ends before. */
const said = (child: ChildProcess, pattern: RegExp): Promise<string> =>
  new Promise((resolve, reject) => {
    let text = '';
    child.stdout!.on('data', (chunk: Buffer) => {
      text += chunk.toString();
      const match = pattern.exec(text);
      if (match) resolve(match[1]!);
    });
    child.once('exit', code => reject(new Error(`The editor server ended with ${code}:\n${text}`)));
  });
