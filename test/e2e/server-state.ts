/** A server that fails again and again: nothing looks checked that is not, and checking can be restarted. */

import { expect, test } from 'vitest';
import { type Editor, type Host, serversOf } from './editor.ts';
import { command, openFile, problem } from './hands.ts';

/** Failures after which the editor gives up. */
const FAILURES = 5;
const CAVITY = 'Cavity A (18 ft up): by its section';

/** Tests in an editor that others have used, which shows the sample inventory. */
export function serverStates(host: Host, editorOf: () => Editor): void {
  /** Ends the server as a crash would. */
  async function crash(): Promise<void> {
    const [server, ...others] = await serversOf(editorOf(), host);
    expect(server).toBeDefined();
    expect(others).toEqual([]);
    await server!.kill();
  }
  const cavityIs = async (words: RegExp) => {
    const row = await problem(editorOf().page, CAVITY);
    await expect.poll(() => row.textContent()).toMatch(words);
  };
  const stopped = () => editorOf().page.locator('.statusbar-item', { hasText: 'checking has stopped' });
  const offers = () =>
    editorOf().page.locator('.notification-toast', { hasText: `failed ${FAILURES} times` });

  test('a server that fails is started again', async () => {
    await openFile(editorOf().page, 'lawn.wood');
    for (let failure = 1; failure < FAILURES; failure++) {
      await cavityIs(/^(?!.*Old: )/);
      await crash();
      await expect.poll(async () => (await serversOf(editorOf(), host)).length).toBe(1);
    }
    await cavityIs(/^(?!.*Old: )/);
    expect(await stopped().isVisible()).toBe(false);
  });

  test('one that has failed five times is not: the findings are marked as old, and the status bar says so', async () => {
    await crash();
    await stopped().waitFor();
    await cavityIs(/Old: /);
    await problem(editorOf().page, 'This file is not being checked');
    await offers().waitFor();
    expect(await offers().count()).toBe(1);
    const background = await stopped().evaluate(
      item =>
        (
          globalThis as unknown as { getComputedStyle(of: unknown): { backgroundColor: string } }
        ).getComputedStyle(item).backgroundColor,
    );
    expect(background).not.toBe('rgba(0, 0, 0, 0)');
    expect(await serversOf(editorOf(), host)).toEqual([]);
  });

  test('the command restarts it, and the findings are those of now', async () => {
    await command(editorOf().page, 'Soundwood: Restart Checking');
    await stopped().waitFor({ state: 'hidden' });
    await cavityIs(/^(?!.*Old: )/);
    await editorOf().page.locator('.viewpane-filter input').first().fill('not being checked');
    await editorOf().page.locator('.markers-panel').getByText('No results found').waitFor();
    expect(await serversOf(editorOf(), host)).toHaveLength(1);
  });

  test('it also restarts a server that is running', async () => {
    const [before] = await serversOf(editorOf(), host);
    await command(editorOf().page, 'Soundwood: Restart Checking');
    await expect
      .poll(async () => (await serversOf(editorOf(), host)).map(({ id }) => id))
      .not.toContain(before!.id);
    await cavityIs(/^(?!.*Old: )/);
    expect(await stopped().isVisible()).toBe(false);
    await command(editorOf().page, 'Notifications: Clear All Notifications');
  });
}
