/** The inventory that is open on the page: what is kept, what other programs write meanwhile, and how texts lie in files. */

import { describe, expect, onTestFinished, test } from 'vitest';
import { Opened } from '../../client/page/opened.ts';
import { memoryPlace, type Place, Trouble } from '../../client/page/place.ts';

interface Disk extends Place {
  isFull: boolean;
  /** What another program does. */
  readonly holds: (path: string) => Promise<string | undefined>;
}

function disk(): Disk {
  const place = memoryPlace('grove');
  let writes = 0;
  const stamps = new Map<string, string>();
  const made: Disk = {
    ...place,
    keeps: true,
    isFull: false,
    async write(path, content) {
      if (made.isFull) throw new Trouble('There is no room.');
      await place.write(path, content);
      stamps.set(path, String(++writes));
    },
    async remove(path) {
      await place.remove(path);
      stamps.delete(path);
    },
    stamp: async path => stamps.get(path),
    holds: async path => (await place.read(path))?.text(),
  };
  return made;
}

async function openedWith(files: Readonly<Record<string, string | Uint8Array>>) {
  const place = disk();
  for (const [path, content] of Object.entries(files))
    await place.write(path, typeof content === 'string' ? content : new Blob([new Uint8Array(content)]));
  const opened = await Opened.of(place);
  onTestFinished(() => opened.close(true));
  const told: string[] = [];
  opened.follow((path, change) => told.push(`${path} ${change}`));
  return { place, opened, told };
}

const MARK = '\uFEFF';

describe('how a text lies in its file', () => {
  test.each([
    ['line feeds', 'tree 1\n', 'tree 1\ntree 2\n'],
    ['carriage returns and line feeds', 'tree 1\r\n', 'tree 1\r\ntree 2\r\n'],
    ['carriage returns alone', 'tree 1\r', 'tree 1\rtree 2\r'],
    ['a byte order mark', `${MARK}tree 1\n`, `${MARK}tree 1\ntree 2\n`],
    ['both', `${MARK}tree 1\r\n`, `${MARK}tree 1\r\ntree 2\r\n`],
  ])('stays: %s', async (_what, before, after) => {
    const { place, opened } = await openedWith({ 'a.wood': new TextEncoder().encode(before) });
    expect(opened.text('a.wood')).toBe('tree 1\n');
    opened.change('a.wood', 'tree 1\ntree 2\n');
    await opened.save();
    const kept = new Uint8Array(await (await place.read('a.wood'))!.arrayBuffer());
    expect(kept).toEqual(new TextEncoder().encode(after));
    expect(opened.state.unsaved).toEqual([]);
  });

  test('half a character is kept as one that stands for it, and is no change by another program', async () => {
    const { place, opened } = await openedWith({ 'a.wood': 'tree 1\n' });
    opened.change('a.wood', '# \ud83c\n');
    await opened.save();
    opened.change('a.wood', '# \ud83c\ntree 2\n');
    await opened.save();
    expect(await place.holds('a.wood')).toBe('# \ufffd\ntree 2\n');
    expect(opened.state.conflicts).toEqual([]);
  });

  test.each([
    ['not UTF-8', Uint8Array.of(116, 114, 101, 101, 32, 0xe9, 10)],
    ['UTF-16', Uint8Array.of(0xff, 0xfe, 116, 0)],
  ])('a file that is %s is neither opened nor written', async (why, bytes) => {
    const { place, opened } = await openedWith({ 'a.wood': bytes, 'b.wood': 'tree 2\n' });
    expect(opened.paths).toEqual(['b.wood']);
    expect(opened.state.refused).toEqual([expect.stringMatching(`^a.wood is ${why}.*save it as UTF-8`)]);
    opened.change('b.wood', 'tree 3\n');
    // A new file of the same name does not take its place.
    opened.change('a.wood', 'tree 4\n');
    await opened.save();
    expect(new Uint8Array(await (await place.read('a.wood'))!.arrayBuffer())).toEqual(bytes);
    expect(await place.holds('b.wood')).toBe('tree 3\n');
    expect(opened.state.unsaved).toEqual(['a.wood']);
  });
});

describe('another program', () => {
  test('what it changed, added and deleted is taken in', async () => {
    const { place, opened, told } = await openedWith({ 'a.wood': 'tree 1\n', 'b.wood': 'tree 2\n' });
    await place.write('a.wood', 'tree 1\n  dbh 40 cm\n');
    await place.remove('b.wood');
    await place.write('c.wood', 'tree 3\n');
    await place.write('photos/1.jpg', 'picture');
    await opened.lookAgain();
    expect(opened.paths).toEqual(['a.wood', 'c.wood']);
    expect(opened.text('a.wood')).toBe('tree 1\n  dbh 40 cm\n');
    expect(told.sort()).toEqual(['a.wood 2', 'b.wood 3', 'c.wood 1', 'photos/1.jpg 1']);
  });

  const both = async () => {
    const all = await openedWith({ 'a.wood': 'tree 1\n', 'b.wood': 'tree 2\n' });
    all.opened.change('a.wood', '# here\n');
    all.opened.change('b.wood', '# here too\n');
    await all.place.write('a.wood', '# there\n');
    await all.opened.save();
    expect(all.opened.state.conflicts).toEqual(['a.wood']);
    expect(await all.place.holds('a.wood')).toBe('# there\n');
    expect(await all.place.holds('b.wood')).toBe('# here too\n');
    return all;
  };

  test('what changed here as well is asked about: the text of here stays', async () => {
    const { place, opened } = await both();
    await expect(opened.close()).rejects.toThrow('Not kept: a.wood');
    await opened.keepMine('a.wood');
    expect(await place.holds('a.wood')).toBe('# here\n');
    expect(opened.state).toMatchObject({ conflicts: [], unsaved: [] });
  });

  test('what changed here as well is asked about: the other text comes', async () => {
    const { place, opened, told } = await both();
    opened.takeTheirs('a.wood');
    await opened.save();
    expect(opened.text('a.wood')).toBe('# there\n');
    expect(await place.holds('a.wood')).toBe('# there\n');
    expect(told).toEqual(['a.wood 2']);
    expect(opened.state).toMatchObject({ conflicts: [], unsaved: [] });
  });

  test('deleted there and changed here, and the other way round', async () => {
    const { place, opened } = await openedWith({ 'a.wood': 'tree 1\n', 'b.wood': 'tree 2\n' });
    opened.change('a.wood', '# here\n');
    await place.remove('a.wood');
    opened.remove('b.wood');
    await place.write('b.wood', '# there\n');
    await opened.save();
    expect(opened.state.conflicts).toEqual(['a.wood', 'b.wood']);
    await opened.keepMine('a.wood');
    opened.takeTheirs('b.wood');
    await opened.save();
    expect(await place.holds('a.wood')).toBe('# here\n');
    expect(opened.text('b.wood')).toBe('# there\n');
    expect(await place.holds('b.wood')).toBe('# there\n');
  });

  test('the same change there and here is no conflict', async () => {
    const { place, opened } = await openedWith({ 'a.wood': 'tree 1\n' });
    opened.change('a.wood', '# same\n');
    await place.write('a.wood', '# same\n');
    await opened.save();
    expect(opened.state).toMatchObject({ conflicts: [], unsaved: [] });
  });
});

test('a deleted file can be brought back', async () => {
  const { place, opened, told } = await openedWith({ 'a.wood': 'tree 1\r\n' });
  opened.remove('a.wood');
  await opened.save();
  expect(await place.list()).toEqual([]);
  expect(opened.state.removed).toEqual(['a.wood']);
  opened.bringBack('a.wood');
  await opened.save();
  expect(await place.holds('a.wood')).toBe('tree 1\r\n');
  expect(opened.state.removed).toEqual([]);
  expect(told).toEqual(['a.wood 3', 'a.wood 1']);
});

test('an inventory that can not be kept stays open, and is let go only where that is allowed', async () => {
  const { place, opened } = await openedWith({ 'a.wood': 'tree 1\n' });
  place.isFull = true;
  opened.change('a.wood', 'tree 2\n');
  await expect(opened.close()).rejects.toThrow('Not kept: a.wood. There is no room.');
  expect(opened.isSafe).toBe(false);
  place.isFull = false;
  opened.change('a.wood', 'tree 3\n');
  await opened.close();
  expect(await place.holds('a.wood')).toBe('tree 3\n');
  // Nothing is written after that.
  await place.write('a.wood', '# of another tab\n');
  opened.change('a.wood', 'tree 4\n');
  await opened.save();
  expect(await place.holds('a.wood')).toBe('# of another tab\n');
});

test('what is in memory alone is not safe once it changed', async () => {
  const place = memoryPlace('Sample');
  await place.write('a.wood', 'tree 1\n');
  const opened = await Opened.of(place);
  onTestFinished(() => opened.close(true));
  expect(opened.isSafe).toBe(true);
  opened.change('a.wood', 'tree 2\n');
  await opened.save();
  expect(opened.isSafe).toBe(false);
  await expect(opened.close()).rejects.toThrow('This browser does not store anything.');
});

test('a picture is kept beside the inventory that names it, and the server is told', async () => {
  const { place, opened, told } = await openedWith({ 'north/trees.wood': 'tree 1\n', 'a.wood': '' });
  // As large as those of good cameras: nothing reads more of it than its head.
  const picture = new Blob([new Uint8Array(40_000_000)]);
  const named = await opened.addPicture(picture, 'north/trees.wood', '2026-06-01', 'jpg');
  expect(named).toBe('photos/2026-06-01-1.jpg');
  const add = (beside: string) => opened.addPicture(new Blob(['picture']), beside, '2026-06-01', 'jpg');
  expect(await add('north/trees.wood')).toBe('photos/2026-06-01-2.jpg');
  expect(await add('a.wood')).toBe('photos/2026-06-01-1.jpg');
  expect(told).toEqual([
    'north/photos/2026-06-01-1.jpg 1',
    'north/photos/2026-06-01-2.jpg 1',
    'photos/2026-06-01-1.jpg 1',
  ]);
  const [head] = await opened.answers.photos({
    folder: 'file:///inventory',
    paths: [`north/${named}`],
    bytes: 1000,
  });
  expect(head?.head?.length).toBe(1000);
  expect(await place.list()).toContain('north/photos/2026-06-01-2.jpg');
});
