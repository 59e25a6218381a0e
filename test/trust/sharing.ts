/** One inventory, checked in several ways. */

import { resolve } from 'node:path';
import { expect } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { findingsIn } from '../../server/cli/checking/find.ts';
import { commonFolder, inWorkspace } from '../../server/cli/files.ts';
import { loadInventory } from '../../server/cli/inventory.ts';
import type { Io } from '../../server/cli/io.ts';
import { photoPaths } from '../../server/facts/photos.ts';
import { buildWorkspace, readFile, withPhotos } from '../../server/facts/workspace.ts';
import { shown } from '../../server/host/paths.ts';
import { readPhotos } from '../../server/host/photos.ts';
import { readText } from '../../server/host/read-text.ts';
import { checkWorkspace } from '../../server/rules/check.ts';
import { INTERNAL_ERROR } from '../../server/rules/raw-finding.ts';
import { findingForJson } from '../../server/show/json.ts';
import { type Folder, ON, type Result } from '../cli/folder.ts';
import { type Files, fill } from './folders.ts';

/** What is found when the whole inventory is held at once, its files in this order. */
async function heldAtOnce(folder: Folder, names: readonly string[], files: Files): Promise<unknown> {
  const root = commonFolder(names.map(folder.file), folder.path);
  const read = names.flatMap(name => {
    const content = readText(files[name]!);
    return 'problem' in content ? [] : [readFile(inWorkspace(root, folder.file(name)), content.text)];
  });
  const photos = await readPhotos(root, read.flatMap(photoPaths));
  const found = checkWorkspace(withPhotos(buildWorkspace(read), photos), parseDate(ON)!);
  expect(found.filter(({ rule }) => rule === INTERNAL_ERROR)).toEqual([]);
  // As it is read back.
  return JSON.parse(
    JSON.stringify(
      found.map(finding => findingForJson(finding, name => shown(folder.path, resolve(root, name)))),
    ),
  );
}

const inventoriesOf = (files: Files): readonly string[] =>
  Object.keys(files).filter(name => name.endsWith('.wood'));

/** In the form for programs. */
const check = (folder: Folder, ...args: readonly string[]): Promise<Result> =>
  folder.run('check', '--as', 'json', ...args);

/** Judged by so many machines, and put together. */
async function inParts(folder: Folder, of: number, ...paths: readonly string[]): Promise<Result> {
  const names = Array.from({ length: of }, (_, i) => `part-${i + 1}.json`);
  for (const [i, name] of names.entries())
    await folder.run('check', ...paths, '--part', `${i + 1}/${of}`, '--to', name);
  return folder.run('gather', '--as', 'json', ...names.reverse());
}

/** However the files come and whoever judges them in this process, the same is found. */
export async function isFoundInParts(folder: Folder, files: Files): Promise<void> {
  await fill(folder, files);
  const names = inventoriesOf(files);
  const whole = await check(folder);
  const { findings } = JSON.parse(whole.out) as { findings: readonly unknown[] };
  expect(findings).toEqual(await heldAtOnce(folder, names, files));
  expect(await heldAtOnce(folder, names.toReversed(), files)).toEqual(findings);
  expect(await check(folder, ...names.toReversed(), names[0]!)).toEqual(whole);
  for (const of of [1, 2, 3]) expect(await inParts(folder, of)).toEqual(whole);
  // With the rest around it.
  expect(await inParts(folder, 2, names[0]!)).toEqual(await check(folder, names[0]!));
}

/** Whether all blocks are kept, or files are read again when they are checked. */
export async function isFoundBlockByBlock(folder: Folder, files: Files): Promise<void> {
  await fill(folder, files);
  const today = parseDate(ON)!;
  const found = async (keep: boolean) => {
    const io = { cwd: folder.path, today, progress: false } as Io;
    const inventory = await loadInventory([], { keep }, io);
    const all = [];
    for (const file of inventory.files)
      for await (const some of findingsIn(inventory, file, today)) all.push(...some.found);
    return { all, problems: inventory.problems, tags: inventory.files.map(({ tags }) => tags) };
  };
  expect(await found(false)).toEqual(await found(true));
}
