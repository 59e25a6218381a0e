/** Every limit that is listed binds: somebody reads it, and another value of it says something else. */

import { describe, expect, it } from 'vitest';
import { parseDate } from '../../grammar/dates.ts';
import type { Settings } from '../../server/facts/settings.ts';
import { buildWorkspace, folderOf, readFile, settingsFor, withPhotos } from '../../server/facts/workspace.ts';
import { type LimitName, limitNames } from '../../server/practice/index.ts';
import { checkWorkspace } from '../../server/rules/check.ts';
import { examplePhotos } from '../../server/rules/example-photos.ts';
import { RULES } from '../../server/rules/registry.ts';
import type { Example } from '../../server/rules/rule.ts';

/** Read by the standing of signs, which is not in yet: the test says so once it is. */
const TO_COME: ReadonlySet<LimitName> = new Set(['safety-factor', 'lean', 'root-loss']);

const EXAMPLES: readonly Example[] = RULES.flatMap(({ examples }) => examples);

/** What is said of an example where its settings are asked for limits by way of `change`. */
function said(example: Example, change: (settings: Settings) => Settings): string {
  const { text, on = '2026-06-01' } = example;
  const read = buildWorkspace([readFile('example.wood', text)]);
  const photos = examplePhotos(example);
  const workspace = photos ? withPhotos(read, photos) : read;
  for (const path of workspace.files.keys())
    workspace.shared.settings.set(folderOf(path), change(settingsFor(workspace, path)));
  return JSON.stringify(
    checkWorkspace(workspace, parseDate(on)!).map(({ rule, line, level, message }) => [
      rule,
      line,
      level,
      message,
    ]),
  );
}

const usual = EXAMPLES.map(example => {
  const read = new Set<string>();
  const text = said(example, settings => ({
    ...settings,
    limit: (name, on) => {
      read.add(name);
      return settings.limit(name, on);
    },
  }));
  return { example, text, read };
});

const withValue =
  (name: LimitName, factor: number) =>
  (settings: Settings): Settings => ({
    ...settings,
    limit: (asked, on) => {
      const setting = settings.limit(asked, on);
      return asked === name
        ? { ...setting, value: factor === 0 ? 0 : (setting.value || 1) * factor }
        : setting;
    },
  });

describe('every limit', () => {
  const names = limitNames.filter(name => !TO_COME.has(name));

  it.each(names)('%s is read, and another value of it tells', name => {
    const readers = usual.filter(({ read }) => read.has(name));
    expect(readers.length).toBeGreaterThan(0);
    const tells = readers.some(({ example, text }) =>
      [0, 0.5, 2, 1000].some(factor => said(example, withValue(name, factor)) !== text),
    );
    expect(tells).toBe(true);
  });

  it('is read by now, but for those that are still to come', () => {
    const read = new Set(usual.flatMap(one => [...one.read]));
    expect(limitNames.filter(name => !read.has(name))).toEqual([...TO_COME]);
  });
});
