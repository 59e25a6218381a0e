import { describe, expect, test } from 'vitest';
import { cameraBearing, photoViews, viewsWords } from '../../server/assess/photo-views.ts';
import type { PhotoRecord } from '../../server/facts/photos.ts';
import { withPhotos } from '../../server/facts/workspace.ts';
import { previewOf } from '../../server/language/preview.ts';
import { fixture } from '../language/fixture.ts';
import { treeIn } from './inventory.ts';

const TREE = `tree 14
  species Quercus alba
  position 44.31270, -122.87140
  dbh 40 in
  height 60 ft
  inspection 2026-03-14 from ground
    photo whole.jpg
  defect A cavity
    on trunk at 4 ft, facing E
    diameter 36 in
    wall 4 in
    photo north.jpg, from 20 ft
    photo south.jpg, from 20 ft
  defect B wound
    on trunk at 6 ft
  nest check 2026-03-14 from drone
    found none
    stand-off 60 ft
    photo nest.jpg
`;

const lens: PhotoRecord = { focalLength35: 0.026, imageWidth: 4000, imageHeight: 3000 };
const FILES: Readonly<Record<string, PhotoRecord>> = {
  'north.jpg': { ...lens, facing: 180, facingFrom: 'true north' },
  'south.jpg': { ...lens, latitude: 44.3122, longitude: -122.8714, positionError: 3 },
  'nest.jpg': { focalLength35: 0.026, imageWidth: 4000, imageHeight: 3000 },
};
const fileOf = (path: string) => {
  const record = FILES[path];
  return record ? ({ state: 'read', record } as const) : ({ state: 'missing' } as const);
};

describe('what photographs show', () => {
  const { tree, settings } = treeIn(TREE);
  const [a, b] = tree.defects;

  test('the bearing of a camera, by its position or by its direction of view', () => {
    const by = (record: PhotoRecord) => cameraBearing(record, tree, settings);
    expect(by(FILES['north.jpg']!)?.from).toBe(0);
    // 20 degrees of the compass, a third of half the view.
    expect(by(FILES['north.jpg']!)?.off).toBeCloseTo(20 + 39.77 / 3, 1);
    // 55.6 m south, with 3 m and 10 m of error.
    expect(by(FILES['south.jpg']!)?.from).toBeCloseTo(180, 6);
    expect(by(FILES['south.jpg']!)?.off).toBeCloseTo(13.5, 1);
    // Beside the tree nothing is known.
    expect(by({ latitude: 44.3127, longitude: -122.87141 })).toBeUndefined();
    expect(by({})).toBeUndefined();
  });

  test('the sides of a defect, and the size of a thing', () => {
    const views = photoViews(tree, a!, settings, fileOf)!;
    expect(views.photographs).toBe(3);
    expect(views.cameras).toHaveLength(2);
    const words = viewsWords(views, a!.diameter!.value);
    expect(words).toMatch(/^3 photographs; shown: S[SEW]* to S[SEW]* /);
    expect(words).toContain('the side it faces, E, is in none');
    expect(words).toContain('1 of them has no recorded camera position.');
    // 20 ft in 4,000 pixels of a 26 mm lens, three pixels: 0.24 in, rounded up.
    expect(words).toContain('Features of 0.3 in or more would be visible');
  });

  test('a nest check by its own photographs', () => {
    const views = photoViews(tree, tree.nestChecks[0]!, settings, fileOf)!;
    expect(viewsWords(views, undefined)).toBe(
      'one photograph without a recorded camera position: the sides shown are not known. Features of 0.1 ft or more would be visible square to the sharpest photograph; at an angle, of twice that size.',
    );
  });

  test('a defect without photographs has those of its inspection', () => {
    expect(photoViews(tree, b!, settings, fileOf)).toMatchObject({ photographs: 1, arcs: undefined });
  });
});

test('the preview draws the ring and says it', () => {
  const { snapshot, file } = fixture(TREE);
  const photos = new Map(
    Object.entries(FILES).map(([path, record]) => [path, { state: 'read', record } as const]),
  );
  const workspace = withPhotos(snapshot.workspace, photos);
  const preview = previewOf({ ...snapshot, workspace }, workspace.files.get(file.path)!, file.trees[0]!);
  expect(preview.words).toContain('## Sides shown in photographs');
  const drawn = preview.pictures.map(({ source }) => Buffer.from(source.split(',')[1]!, 'base64').toString());
  const section = drawn.findIndex(svg => svg.includes('side in photographs'));
  expect(section).toBeGreaterThanOrEqual(0);
  expect(preview.words).toContain('Cavity A: 3 photographs; shown:');
  expect(preview.pictures[section]!.places[0]!.area).toEqual([0, 0, 100, 100]);
});
