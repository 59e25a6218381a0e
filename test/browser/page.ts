/** The page for browsers as `soundwood serve --page` serves it, and the people who open it. */

import { spawn } from 'node:child_process';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { PROGRAM } from '../built.ts';
import { HANG } from '../hang.ts';

export const DESKTOP = { viewport: { width: 1360, height: 820 } };
export const PHONE = { viewport: { width: 390, height: 780 }, hasTouch: true, isMobile: true };

/** A page that is served, and what is there to end it. */
export interface Served {
  readonly address: string;
  readonly end: () => void;
}

export async function servePage(): Promise<Served> {
  const program = spawn(process.execPath, [PROGRAM, 'serve', '--page'], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const address = await new Promise<string>((resolve, reject) => {
    program.stdout.once('data', (said: Buffer) => resolve(said.toString().trim()));
    program.once('exit', code => reject(new Error(`serve --page ended with ${code}`)));
  });
  return { address, end: () => program.kill() };
}

/** A person's browser, and what its pages asked for beside their own origin or complained of. */
export async function personOf(
  browser: Browser,
  address: string,
  options: Parameters<Browser['newContext']>[0] = DESKTOP,
) {
  const context = await browser.newContext(options);
  context.setDefaultTimeout(HANG / 6);
  const deeds: string[] = [];
  context.on('request', request => {
    const { origin, protocol } = new URL(request.url());
    if (origin !== new URL(address).origin && !['data:', 'blob:'].includes(protocol))
      deeds.push(`asked for ${request.url()}`);
  });
  context.on('page', page => {
    page.on('pageerror', error => deeds.push(String(error)));
    page.on('dialog', dialog => {
      deeds.push(`dialog ${dialog.message()}`);
      void dialog.dismiss();
    });
  });
  return { context, deeds };
}

export async function openPage(context: BrowserContext, address: string, fragment = ''): Promise<Page> {
  const page = await context.newPage();
  await page.goto(`${address}?on=2026-06-01${fragment}`);
  await page.locator('.cm-content').waitFor();
  return page;
}

export const finding = (page: Page, words: string) =>
  page.locator('.findings li', { hasText: words }).first();
export const part = (page: Page, name: string) =>
  page
    .getByRole('navigation')
    .getByRole('button', { name: new RegExp(`^${name}`) })
    .click();
export const textOf = async (page: Page) => (await page.locator('.cm-line').allTextContents()).join('\n');
export const type = async (page: Page, text: string) => {
  await page.locator('.cm-content').click();
  await page.keyboard.press('Control+Home');
  await page.keyboard.type(text);
  await page.keyboard.press('Escape');
};
export const isKept = (page: Page) =>
  page.getByRole('status').filter({ hasText: 'Kept on this device' }).waitFor();
