/** The years of a tree as a picture: marks by kind, and plots of what was measured, with units and limits. */

import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { readFile } from '../../server/facts/file.ts';
import { buildWorkspace, type DatedWorkspace } from '../../server/facts/workspace.ts';
import { previewOf } from '../../server/language/preview.ts';
import { illegible, textsOf } from './drawn.ts';

/** The timelines of the trees of some files. */
function timelines(files: Readonly<Record<string, string>>): readonly string[] {
  const read = Object.entries(files).map(([name, text]) => readFile(name, text));
  const snapshot: DatedWorkspace = { workspace: buildWorkspace(read), today: parseDate('2026-06-01')! };
  return read.flatMap(file =>
    file.trees.flatMap(placed =>
      previewOf(snapshot, file, placed)
        .pictures.filter(({ description }) => description.includes('over the years:'))
        .map(({ source }) => Buffer.from(source.split(',')[1]!, 'base64').toString()),
    ),
  );
}
const words = (svg: string) => textsOf(svg).map(({ text }) => text);

const READ = `tree 1
  dbh 20 in
  inspection 2020-05-01 from ground
    dbh 20 in
  defect A cavity
    on trunk at 4 ft
    diameter 24 in
    bark 0 in
    wall 6..7 in
  inspection 2024-05-01 from ground
    dbh 21.5 in
  defect A cavity
    wall 5 in
`;

test('walls and sizes are plotted over the years, in the unit of the record, with limit and forecast', () => {
  const [svg] = timelines({ 'a.wood': READ });
  expect(words(svg!)).toEqual(
    expect.arrayContaining([
      'wall of cavity A: 5 in at the least',
      'limit 4 in',
      'diameter: 20 in, then 21.5 in',
      'what may be left, by the rates on record',
      'what it allows',
    ]),
  );
  expect(svg).toContain('url(#doubt)');
  // Both axes up have their unit.
  expect(words(svg!).filter(text => /^[\d.]+ in$/.test(text))).toHaveLength(2);
  expect(svg).toMatch(/<desc>[^<]*wall of cavity A 5 in at the least on 1 May 2024/);
});

test('every timeline of the samples can be read', () => {
  for (const folder of ['fernhollow', 'quillbrook']) {
    const files = readdirSync(`samples/${folder}`).filter(name => name.endsWith('.wood'));
    const all = timelines(
      Object.fromEntries(files.map(name => [name, readFileSync(`samples/${folder}/${name}`, 'utf8')])),
    );
    expect(all.length).toBeGreaterThan(3);
    for (const svg of all) expect(illegible(svg), words(svg)[0]).toEqual([]);
  }
});
