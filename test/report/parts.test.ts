/** A report of very many trees: an index, and a page for each area. */

import { mkdir, readdir, readFile } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { folderWith } from '../cli/folder.ts';

const HOSTILE = `../../<script>alert(1)</script>' onload='alert(2)' "" onfocus=""alert(3)`;

/** A file in a folder. */
const HOSTILE_PATH = `<img src=x onerror=alert(4)>'&/"#?%2e%2e.wood`;

const trees = (first: number, count: number): string =>
  Array.from({ length: count }, (_, i) => `tree ${first + i}\n  species Quercus garryana\n`).join('\n');

/** 504 trees; a mistake in a file that has none. */
const FILES = {
  'people.wood': 'person RV "Ruth Varga"\n  qualifed consulting arborist\n',
  'street.wood': `site "Long Street"\n  region US-OR\n\n${trees(1, 501)}`,
  [HOSTILE_PATH]: `site "${HOSTILE}"\n  region US-OR\n\n${trees(601, 3)}`,
};

const top = (path: string): string => path.split('/')[0]!;

const ROW = /<tr role="row"[^>]*><th role="rowheader" scope="row">(\d+)</g;

const all = [
  ...Array.from({ length: 501 }, (_, i) => String(1 + i)),
  ...Array.from({ length: 3 }, (_, i) => String(601 + i)),
];

const hrefs = (page: string): readonly string[] =>
  [...page.matchAll(/ href="([^"]*)"/g)].map(([, to]) => to!);

test('more than 500 trees are no single page: the message says what to do', async () => {
  const folder = await folderWith(FILES);
  for (const to of [[], ['--output', 'report.html']]) {
    const { code, out, err } = await folder.run('report', ...to);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain('one page of 504 trees');
    expect(err).toContain('--output report/');
    expect(err).toContain('name the files or folders');
  }
  expect(await readdir(folder.path)).not.toContain('report.html');
  // A file of them alone is a page.
  const { code, out } = await folder.run('report', top(HOSTILE_PATH), '--for', 'office');
  expect(code).toBe(0);
  expect(hrefs(out).filter(to => !to.startsWith('#'))).toEqual([]);
});

test('an index and a page for each area, whatever sites and files are called', async () => {
  const folder = await folderWith(FILES);
  const { code, out, err } = await folder.run('report', '--for', 'office', '--output', 'out/report/');
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(out).toContain('504 trees; open index.html there');
  // Nothing is written elsewhere.
  expect((await readdir(folder.path)).sort()).toEqual([...Object.keys(FILES).map(top), '.git', 'out'].sort());
  expect(await readdir(folder.file('out'))).toEqual(['report']);
  const pages = (await readdir(folder.file('out/report'))).sort();
  expect(pages).toEqual(['area-001.html', 'area-002.html', 'area-003.html', 'index.html']);
  const read = (page: string) => readFile(folder.file(`out/report/${page}`), 'utf8');

  const index = await read('index.html');
  expect(hrefs(index).toSorted()).toEqual(pages.slice(0, -1));
  expect(index).toContain('504 trees');
  const tags: string[] = [];
  for (const page of hrefs(index)) {
    const text = await read(page);
    expect(hrefs(text).filter(to => !to.startsWith('#'))).toEqual(['index.html']);
    const own = [...text.match(/<caption[^>]*>Inventory<.*?<\/table>/s)![0].matchAll(ROW)].map(
      ([, tag]) => tag!,
    );
    expect(own.length).toBeLessThanOrEqual(500);
    const [, first, last] = index.match(new RegExp(`<a href="${page}">(.*?) to (.*?)</a>`))!;
    expect(own).toEqual(expect.arrayContaining([first, last]));
    tags.push(...own);
  }
  expect(tags.toSorted()).toEqual(all.toSorted());

  for (const page of pages) {
    const text = await read(page);
    // Tags of HTML are those of the templates.
    expect(text).not.toMatch(/<(?:img|svg|iframe)\b|<[^>]* on\w+=/);
    expect(text.match(/<script/g)?.length ?? 0).toBe(page === 'index.html' ? 0 : 1);
  }
  expect(await read(hrefs(index)[0]!)).toContain('../../&lt;script>alert(1)&lt;/script>');
  expect(index).toContain('../../&lt;script>alert(1)&lt;/script>');
});

test('no finding is lost between the pages, and what could not be read is on all of them', async () => {
  const folder = await folderWith({ ...FILES, 'broken.wood': new Uint8Array([0xff, 0x0a]) });
  await mkdir(folder.file('report'));
  const { code } = await folder.run('report', '--for', 'office', '--output', 'report');
  expect(code).toBe(2);
  const pages = (await readdir(folder.file('report'))).sort();
  const texts = await Promise.all(pages.map(page => readFile(folder.file(`report/${page}`), 'utf8')));
  for (const text of texts)
    expect(text).toMatch(/Not everything could be read or computed<\/strong>: broken\.wood /);
  const { out } = await folder.run('check', '--format', 'json');
  const { findings } = JSON.parse(out) as { findings: readonly { file: string; line: number }[] };
  expect(findings.map(({ file }) => file)).toContain('people.wood');
  const places = texts.flatMap(text =>
    [...text.matchAll(/data-head="Place">([^<]*)</g)].map(([, at]) => at!),
  );
  expect(places.toSorted()).toEqual(
    findings
      .map(({ file, line }) =>
        `${file}:${line}`.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;'),
      )
      .toSorted(),
  );
});

test('pages that an earlier report left in the folder are named', async () => {
  const folder = await folderWith({
    'a.wood': 'tree 1\n',
    'report/area-001.html': 'old',
    'report/area-002.html': 'old',
    'report/notes.html': 'mine',
  });
  const { code, err } = await folder.run('report', 'a.wood', '--output', 'report');
  expect(code).toBe(0);
  expect(err).toBe(
    'soundwood: area-002.html in report is of an earlier report and may be wrong now: delete it.\n',
  );
  expect(await readFile(folder.file('report/area-001.html'), 'utf8')).not.toBe('old');
});

test('for a client the index names the trees of all areas that need something now, the gravest first', async () => {
  const now = `
  dbh 20 in
  height 60 ft
  crown from 10 ft, 30 ft wide

  inspection 2026-10-02 from ground

  target "Path"
    distance  8 ft
    occupied  constant

  defect C crack
    on stem at 6 ft
    length 4 ft
`;
  const folder = await folderWith({
    'street/a.wood': `site "Long Street"\n  region GB-ENG\n\n${trees(1, 501)}\ntree 600${now}\n  prescription R1 fell\n    priority immediate\n`,
    'lane/b.wood': `site "Mill Lane"\n  region GB-ENG\n\ntree 700 "Elm"${now}    state increasing\n`,
  });
  const run = (reader: string) =>
    folder.run('report', '--date', '2026-10-05', '--for', reader, '--output', `${reader}/`);
  expect(await run('client')).toMatchObject({ code: 0, err: '' });
  const index = await readFile(folder.file('client/index.html'), 'utf8');
  expect(index).toContain('503 trees as of 5 October 2026, on 3 pages');
  expect(index).toContain('2 trees need something now.');
  const [, stop, areas, group] = /(<div class="stop">.*?<\/div>)(.*?)(<section class="group now">.*)/s.exec(
    index,
  )!;
  expect(stop).toMatch(/Keep people out today.*&quot;Path&quot;.*Elm.*Nothing is prescribed yet/s);
  expect(stop).not.toContain('600');
  expect(hrefs(areas!)).toEqual(['area-001.html', 'area-003.html', 'area-002.html']);
  expect(hrefs(group!).map(to => to.split('#')[0])).toEqual(['area-001.html', 'area-003.html']);
  for (const to of [...hrefs(stop!), ...hrefs(group!)]) {
    const [page, anchor] = to.split('#');
    expect(await readFile(folder.file(`client/${page}`), 'utf8')).toContain(`id="${anchor}"`);
  }
  expect(group).toMatch(/Mill Lane.*Long Street.*at once, no dates set/s);
  await run('crew');
  expect(await readFile(folder.file('crew/index.html'), 'utf8')).not.toContain('Keep people out today');
});
