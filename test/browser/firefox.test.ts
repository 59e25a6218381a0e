/** The newcomer's walk on the page for browsers in Firefox: from nothing to a report. */

import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Firefox, withoutFirefox } from './firefox.ts';
import { DESKTOP, PHONE, type Served, servePage } from './page.ts';

describe.skipIf(withoutFirefox)('in Firefox', () => {
  let served: Served;

  beforeAll(async () => {
    served = await servePage();
  });
  afterAll(() => served?.end());

  test.each([
    ['at a desk', DESKTOP.viewport],
    ['in a narrow window', PHONE.viewport],
  ])('from nothing to a report %s', async (_where, viewport) => {
    const firefox = await Firefox.start();
    try {
      await firefox.open(`${served.address}?on=2026-06-01`, viewport);
      await firefox.click('nav button', 'Findings');
      const dose = firefox.withWords('.findings li', 'The dose of 18 %');
      await firefox.waitFor(dose);
      await firefox.value(
        `[...${dose}.querySelectorAll('button')].find(one => one.textContent === 'Quick fixes').click()`,
      );
      await firefox.waitFor(`document.querySelector('dialog button')`);
      await firefox.value(`document.querySelector('dialog[aria-label="Quick fixes"] button').click()`);
      await firefox.waitFor(`!${dose}`);
      await firefox.click('.findings li:has(.what) .place button', 'line 30');
      await firefox.waitFor(firefox.withWords('.cm-activeLine', 'defect A'));
      await firefox.type('# typed here\uE007');
      await firefox.waitFor(firefox.withWords('.cm-line', '# typed here'));
      await firefox.click('nav button', 'Tree');
      await firefox.waitFor(`document.querySelector('.tree img')?.naturalWidth > 0`);
      await firefox.click('nav button', 'Papers');
      await firefox.click('.papers button', 'Report');
      await firefox.waitFor(`document.querySelector('iframe')?.srcdoc.includes('Fernhollow Court')`);
      await firefox.waitFor(firefox.withWords('.saved', 'Kept on this device'));
      expect(firefox.complaints).toEqual([]);
    } finally {
      await firefox.end();
    }
  });
});
