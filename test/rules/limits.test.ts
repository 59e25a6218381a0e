/** Every limit that is listed binds: somebody reads it, and another value of it says something else. */

import { describe, expect, it } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { folderOf } from '../../server/facts/paths.ts';
import type { PhotoIndex } from '../../server/facts/photos.ts';
import type { Settings } from '../../server/facts/settings.ts';
import {
  buildWorkspace,
  readFile,
  settingsByFolder,
  settingsFor,
  withPhotos,
} from '../../server/facts/workspace.ts';
import { type LimitName, limitNames } from '../../server/practice/limits.ts';
import { checkWorkspace } from '../../server/rules/check.ts';
import { examplePhotos } from '../../server/rules/example-photos.ts';
import { RULES } from '../../server/rules/registry.ts';
import { sampleFiles } from '../samples/sample-files.ts';

interface Inventory {
  readonly files: readonly { readonly path: string; readonly text: string }[];
  readonly on: string;
  readonly photos?: PhotoIndex | undefined;
}

/** The examples of the rules first: they are short. */
const INVENTORIES: readonly Inventory[] = [
  ...RULES.flatMap(({ examples }) =>
    examples.map(example => ({
      files: [{ path: 'example.wood', text: example.text }],
      on: example.on ?? '2026-06-01',
      photos: examplePhotos(example),
    })),
  ),
  ...['errors', 'street', 'fernhollow'].map(folder => ({ files: sampleFiles(folder), on: '2026-06-01' })),
];

/** What is said of an inventory where its settings are changed. */
function said({ files, on, photos }: Inventory, change: (settings: Settings) => Settings): string {
  const read = buildWorkspace(files.map(({ path, text }) => readFile(path, text)));
  const workspace = photos ? withPhotos(read, photos) : read;
  for (const folder of new Set(files.map(({ path }) => folderOf(path)))) {
    const path = folder === '' ? 'here.wood' : `${folder}/here.wood`;
    const day = parseDate(on)!;
    settingsByFolder(workspace.shared, day).set(folder, change(settingsFor(workspace, path, day)));
  }
  return JSON.stringify(
    checkWorkspace(workspace, parseDate(on)!).map(({ rule, file, line, level, message, related }) => [
      rule,
      file,
      line,
      level,
      message,
      related?.map(one => one.message),
    ]),
  );
}

const usual = INVENTORIES.map(inventory => {
  const read = new Set<string>();
  const text = said(inventory, settings => ({
    ...settings,
    limit: (name, on) => {
      read.add(name);
      return settings.limit(name, on);
    },
  }));
  return { inventory, text, read };
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
  it.each(limitNames)('%s is read, and another value of it tells', name => {
    const readers = usual.filter(({ read }) => read.has(name));
    expect(readers.length).toBeGreaterThan(0);
    const tells = readers.some(({ inventory, text }) =>
      [0, 0.5, 2, 1000].some(factor => said(inventory, withValue(name, factor)) !== text),
    );
    expect(tells).toBe(true);
  });
});
