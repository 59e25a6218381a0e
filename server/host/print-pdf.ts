/** A page as PDF, printed by a browser that the machine has: Chromium or one of its kin, which number pages by CSS. */

import { execFile } from 'node:child_process';
import { access, constants, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { UserError } from '../base/user-error.ts';

const run = promisify(execFile);

const NAMES = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'microsoft-edge',
  'microsoft-edge-stable',
  'brave-browser',
];

const IN_PROGRAM_FILES = [
  'Google\\Chrome\\Application\\chrome.exe',
  'Microsoft\\Edge\\Application\\msedge.exe',
];

const MAC_APPLICATIONS = ['Google Chrome', 'Chromium', 'Microsoft Edge', 'Brave Browser'];

/** Where a browser may be; one that `BROWSER_PATH` names is the only one. */
function places({ BROWSER_PATH, PATH, ...env }: NodeJS.ProcessEnv): readonly string[] {
  if (BROWSER_PATH) return [BROWSER_PATH];
  const named = (PATH ?? '').split(delimiter).flatMap(folder => NAMES.map(name => join(folder, name)));
  const windows = [env.ProgramFiles, env['ProgramFiles(x86)'], env.LOCALAPPDATA].flatMap(folder =>
    folder ? IN_PROGRAM_FILES.map(name => join(folder, name)) : [],
  );
  const mac = MAC_APPLICATIONS.map(name => `/Applications/${name}.app/Contents/MacOS/${name}`);
  return [...named, ...windows, ...(process.platform === 'darwin' ? mac : [])];
}

/** Throws UserError if there is none. */
export async function findBrowser(env: NodeJS.ProcessEnv): Promise<string> {
  for (const place of places(env)) {
    const runs = await access(place, constants.X_OK).then(
      () => true,
      () => false,
    );
    if (runs) return place;
  }
  throw new UserError(
    `no browser was found to print a PDF with${env.BROWSER_PATH ? ` at ${env.BROWSER_PATH} (BROWSER_PATH)` : ''}: install Chromium, Chrome or Edge, or name its program in BROWSER_PATH; or write the page (--output report.html), open it in any browser and print it to a file.`,
  );
}

/** ms; a page of five hundred trees takes some seconds. */
const LONGEST = 10 * 60_000;

/**
 * @param html a complete page without external resources
 * @returns the bytes of a PDF with tags and an outline
 * Throws UserError if the browser can't print.
 */
export async function printPdf(html: string, browser: string): Promise<Uint8Array> {
  const folder = await mkdtemp(join(tmpdir(), 'soundwood-'));
  try {
    const page = join(folder, 'report.html');
    const pdf = join(folder, 'report.pdf');
    await writeFile(page, html);
    await run(
      browser,
      [
        '--headless',
        '--disable-gpu',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
        // Chromium refuses to run sandboxed as root, as in containers; the page can load nothing and run only its own script.
        ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
        `--user-data-dir=${join(folder, 'profile')}`,
        '--no-pdf-header-footer',
        '--generate-pdf-document-outline',
        `--print-to-pdf=${pdf}`,
        pathToFileURL(page).href,
      ],
      { timeout: LONGEST },
    ).catch((error: Error) => {
      throw new UserError(`${browser} could not print the page: ${error.message.split('\n')[0]}.`);
    });
    return await readFile(pdf).catch(() => {
      throw new UserError(`${browser} ended without a PDF: name another browser in BROWSER_PATH.`);
    });
  } finally {
    await rm(folder, { recursive: true, force: true, maxRetries: 3 });
  }
}
