import { mkdir, symlink } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { photo, tagsOf } from '../mechanics/exif-file.ts';
import { repositoryWith } from '../team/repository.ts';
import { folderWith } from './folder.ts';

const taken = (takenAt: string) => {
  const { exif, gps } = tagsOf({ takenAt, imageWidth: 4000, imageHeight: 3000, focalLength35: 0.024 });
  return photo(exif, gps);
};

const TREE = `tree 1
  height 40 ft
  inspection 2026-05-30 from ground
    photo photos/a.jpg
    photo photos/b.jpg
    photo ../outside.jpg
`;

interface Report {
  readonly findings: readonly { readonly rule: string; readonly line: number; readonly subject: string }[];
}
const photoFindings = (out: string) =>
  (JSON.parse(out) as Report).findings
    .filter(({ rule }) => rule.startsWith('photo-'))
    .map(({ rule, line, subject }) => `${line} ${rule} ${subject}`);

test('check reads the photographs that the notation names, beside the file that names them', async () => {
  const folder = await folderWith({
    'lawn/a.wood': TREE,
    'b.wood': 'tree 2\n',
    'lawn/photos/a.jpg': taken('2025-01-02T10:00:00'),
  });
  const { out, err } = await folder.run('check', '--as', 'json');
  expect(err).toBe('');
  expect(photoFindings(out)).toEqual([
    '4 photo-date-disagrees photos/a.jpg',
    '5 photo-missing photos/b.jpg',
    // Inside the inventory as a whole, though not beside the file.
    '6 photo-missing ../outside.jpg',
  ]);
});

test('nothing outside is looked at, by no path and through no link', async () => {
  const outside = await folderWith({ 'old.jpg': taken('2025-01-02T10:00:00') });
  const folder = await folderWith({ 'a.wood': TREE });
  await mkdir(folder.file('photos'));
  await symlink(outside.file('old.jpg'), folder.file('photos/a.jpg'));
  await symlink(outside.file('none.jpg'), folder.file('photos/b.jpg'));
  const { out } = await folder.run('check', '--as', 'json');
  // Where the second link leads there is nothing to be found, which is all that is said.
  expect(photoFindings(out)).toEqual(['5 photo-missing photos/b.jpg']);
});

test('what is there and no picture', async () => {
  const folder = await folderWith({ 'a.wood': TREE, 'photos/a.jpg': 'not a picture', 'photos/b.jpg/c': '' });
  const { out } = await folder.run('check');
  expect(out).toContain('The photograph photos/b.jpg of the inspection is not a file.');
  expect(out).not.toContain('photos/a.jpg of');
});

test('lens and width of the file decide what a nest check could show', async () => {
  const check = `tree 1
  nest check 2026-05-30 from drone
    found none
    photo a.jpg, from 55 ft
  prescription R1 clean
    between 2026-06-02..2026-06-05
`;
  const folder = await folderWith({
    'site.wood': 'site "Fernhollow Court"\n  region US-OR\n',
    'a.wood': check,
    'a.jpg': taken('2026-05-30T10:00:00'),
  });
  const { out } = await folder.run('check', 'a.wood');
  expect(out).toContain('[nest-check-coarse]');
});

test('against a commit the photographs count as they lie now', async () => {
  const repository = await repositoryWith({ 'a.wood': TREE });
  const since = await repository.run('check', '--since', 'HEAD', '--as', 'json');
  expect(photoFindings(since.out)).toEqual([]);
  await repository.write({ 'a.wood': `${TREE}    photo photos/c.jpg\n` });
  const news = await repository.run('check', '--since', 'HEAD', '--as', 'json');
  expect(photoFindings(news.out)).toEqual(['7 photo-missing photos/c.jpg']);
  const compared = await repository.run('compare', 'HEAD', '--as', 'json');
  expect(compared.out).toContain('photos/c.jpg');
  expect(compared.out).not.toContain('photos/b.jpg');
});
