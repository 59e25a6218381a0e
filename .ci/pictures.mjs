// Draws the page and the reports of the sample estates as people see them, on a phone, a desk and paper, into the folders
// that the README and the samples show: node .ci/pictures.mjs. Needs Chromium (BROWSER). The editor's own pictures:
// PICTURES=1 .ci/e2e pictures.

import { execFileSync, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const PROGRAM = resolve('server/dist/soundwood.js');
const DAY = '2026-06-01';
/** Estates, and the readers of their reports. */
const REPORTS = [
  ['samples/aldermere', 'client'],
  ['samples/aldermere', 'crew'],
  ['samples/aldermere', 'office'],
  ['samples/cottonwood-bench', 'client'],
  ['samples/cottonwood-bench', 'crew'],
  ['samples/cottonwood-bench', 'office'],
];
/** Width and height, px; paper is A4 at 96 px to the inch. */
const SHEETS = {
  phone: { width: 390, height: 844, media: 'screen' },
  desk: { width: 1280, height: 900, media: 'screen' },
  paper: { width: 794, height: 1123, media: 'print' },
};

const temporary = mkdtempSync(join(tmpdir(), 'soundwood-pictures-'));
const browser = await chromium.launch({
  executablePath: process.env.BROWSER ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
});
try {
  for (const [estate, reader] of REPORTS) {
    const html = execFileSync(process.execPath, [PROGRAM, 'report', estate, '--date', DAY, '--for', reader], {
      encoding: 'utf8',
      maxBuffer: 1 << 28,
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    const file = join(temporary, 'report.html');
    writeFileSync(file, html);
    mkdirSync(join(estate, 'pictures'), { recursive: true });
    for (const [sheet, { width, height, media }] of Object.entries(SHEETS)) {
      const page = await browser.newPage({ viewport: { width, height } });
      await page.emulateMedia({ media });
      await page.goto(pathToFileURL(file).href);
      // A sheet of its own in print.
      const shown = reader === 'crew' && media === 'print' ? page.locator('.order').first() : page;
      await shown.screenshot({ path: join(estate, 'pictures', `${reader}-${sheet}.png`) });
      await page.close();
    }
  }
  const served = spawn(process.execPath, [PROGRAM, 'serve', '--page'], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  try {
    const address = await new Promise((done, failed) => {
      served.stdout.once('data', said => done(said.toString().trim()));
      served.once('exit', code => failed(new Error(`serve --page ended with ${code}`)));
    });
    const page = await browser.newPage({ viewport: { width: 1360, height: 820 } });
    await page.goto(`${address}?on=${DAY}`);
    await page
      .getByRole('button', { name: /sample/i })
      .first()
      .click();
    await page.locator('.cm-line', { hasText: 'defect A cavity' }).click();
    await page.getByRole('navigation').getByRole('button', { name: /^Tree/ }).click();
    await page.locator('.tree img').first().waitFor();
    await page.getByRole('button', { name: 'Close' }).click();
    await page.screenshot({ path: 'client/pictures/page.png' });
  } finally {
    served.kill();
  }
} finally {
  await browser.close();
  rmSync(temporary, { recursive: true, force: true });
}
