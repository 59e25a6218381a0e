import { expect, test } from 'vitest';
import { resolveInside } from '../../server/facts/photos.ts';
import { photoEdits, photoLinks, relativeTo } from '../../server/language/photos.ts';
import { editedFiles, fixture } from './fixture.ts';

test.each([
  ['lawn', 'photos/1.jpg', 'lawn/photos/1.jpg'],
  ['', './photos//1.jpg', 'photos/1.jpg'],
  ['lawn', '../photos/1.jpg', 'photos/1.jpg'],
  ['lawn', 'photos\\1.jpg', 'lawn/photos/1.jpg'],
  ['lawn', '../../etc/1.jpg', undefined],
  ['', '../1.jpg', undefined],
  ['', '/etc/1.jpg', undefined],
  ['', '\\\\host\\1.jpg', undefined],
  ['', 'C:/1.jpg', undefined],
  ['', 'https://x/1.jpg', undefined],
  ['', 'a/../../1.jpg', undefined],
  ['', '..', undefined],
  ['', '', undefined],
])('in "%s" %s is %s', (folder, written, expected) => {
  expect(resolveInside(folder, written)).toBe(expected);
});

test.each([
  ['', 'photos/1.jpg', 'photos/1.jpg'],
  ['a/b', 'a/photos/1.jpg', '../photos/1.jpg'],
  ['a', 'a/1.jpg', '1.jpg'],
  ['a', 'b/1.jpg', '../b/1.jpg'],
])('from "%s" to %s', (folder, target, expected) => {
  expect(relativeTo(folder, target)).toBe(expected);
  expect(resolveInside(folder, expected)).toBe(target);
});

const SOURCE = `--- lawn/a.wood
tree 1
  photo photos/1.jpg
  photo "photos/my tree.jpg"
  photo ../../secret.jpg
  inspection 2026-03-14 from ground
    photo ../shared/2.jpg, from 5 m
--- b.wood
tree 2
  photo shared/2.jpg
`;

test('photographs in the workspace are links, others are not', () => {
  const { file } = fixture(SOURCE);
  expect(photoLinks(file).map(({ target }) => target)).toEqual([
    'lawn/photos/1.jpg',
    'lawn/photos/my tree.jpg',
    'shared/2.jpg',
  ]);
});

test('where photographs move, every file that names them follows', () => {
  const given = fixture(SOURCE);
  const after = editedFiles(
    given,
    photoEdits(given.snapshot.workspace, [{ from: 'shared', to: 'all photos' }]),
  );
  expect(after['lawn/a.wood']).toContain('photo "../all photos/2.jpg", from 5 m');
  expect(after['b.wood']).toBe('tree 2\n  photo "all photos/2.jpg"\n');
});

test('where an inventory moves, its paths still lead to the same photographs', () => {
  const given = fixture(SOURCE);
  const moved = photoEdits(given.snapshot.workspace, [{ from: 'lawn/a.wood', to: 'a.wood' }]);
  const after = editedFiles(given, moved)['lawn/a.wood']!;
  expect(after).toContain('photo lawn/photos/1.jpg\n');
  expect(after).toContain('photo "lawn/photos/my tree.jpg"\n');
  expect(after).toContain('photo ../../secret.jpg\n');
  expect(after).toContain('photo shared/2.jpg, from 5 m\n');
});

test('where a folder moves with its photographs, nothing changes', () => {
  const given = fixture(SOURCE);
  const moves = [{ from: 'lawn', to: 'meadow' }];
  const after = editedFiles(given, photoEdits(given.snapshot.workspace, moves));
  expect(after).toEqual({});
});
