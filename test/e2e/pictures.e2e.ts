/** The pictures of the README, as the editor shows them today: `PICTURES=1 .ci/e2e pictures`. */

import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, test } from 'vitest';
import { type Editor, startEditor } from './editor.ts';
import { command, fromHover, goTo, openFile, pageWith, problem } from './hands.ts';

const INTO = 'client/pictures';

describe.runIf(process.env.PICTURES)('pictures', () => {
  let editor: Editor;
  const lawn = readFileSync('samples/fernhollow/lawn.wood', 'utf8');
  const lineOf = (wanted: string) =>
    lawn.slice(0, lawn.indexOf(wanted, lawn.indexOf('tree 14 '))).split('\n').length;

  beforeAll(async () => {
    editor = await startEditor('node');
    await editor.page.setViewportSize({ width: 1160, height: 860 });
    await openFile(editor.page, 'lawn.wood');
  });
  afterAll(() => editor?.stop());

  test('the problems below the text', async () => {
    const { page } = editor;
    await goTo(page, lineOf('prescription R1'), 3);
    // When the other files are checked too, findings that come anew close no hover.
    await problem(page, 'The union of South and Upright (cracked)');
    await problem(page, 'Cavity A (18 ft up)');
    await page.screenshot({ path: `${INTO}/problems.png` });
    await command(page, 'View: Toggle Panel Visibility');
  });

  test('a hover', async () => {
    const { page } = editor;
    // Nothing is found at it that would stand above its section.
    await fromHover(page, lineOf('defect B cavity'), 4, async (hover, within) => {
      await hover.locator('img').first().waitFor(within);
      await page.screenshot({
        path: `${INTO}/hover.png`,
        clip: { x: 340, y: 60, width: 820, height: 700 },
      });
    });
  });

  test('the preview beside the text', async () => {
    const { page } = editor;
    await goTo(page, lineOf('tree 14 '), 1);
    await command(page, 'Soundwood: Open Tree Preview to the Side');
    const shown = await pageWith(page, '14');
    await shown.locator('img').nth(1).waitFor();
    await page.screenshot({ path: `${INTO}/preview.png` });
  });
});
