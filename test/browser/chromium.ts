/** The browser that the pages are tried in: Chromium, as the system has it. */

import { existsSync } from 'node:fs';
import { type Browser, chromium, type Page } from 'playwright-core';
import { HANG } from '../hang.ts';

/** Shorter than a test, so that the failure names what was waited for, in ms. */
const WAIT = HANG / 6;

const PLACES = [
  process.env.BROWSER ?? '',
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
];

const found = PLACES.find(path => path !== '' && existsSync(path));

/** Without a browser these tests are passed over, save where all of them have to run. */
export const withoutBrowser = found === undefined && process.env.CI !== 'true';

if (withoutBrowser)
  console.warn(
    'Tests in a browser are passed over: no Chromium here (apt-get install chromium, or set BROWSER).',
  );

export async function openChromium(): Promise<Browser> {
  if (found === undefined) throw new Error(`No Chromium at ${PLACES.filter(Boolean).join(', ')}.`);
  return chromium.launch({
    executablePath: found,
    timeout: WAIT,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--disable-component-update'],
  });
}

/** A page whose waiting only ends for a hang. */
export async function newPage(browser: Browser, options?: Parameters<Browser['newPage']>[0]): Promise<Page> {
  const page = await browser.newPage(options);
  page.setDefaultTimeout(WAIT);
  return page;
}
