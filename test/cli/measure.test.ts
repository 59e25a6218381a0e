import { readFile } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { photo, tagsOf } from '../mechanics/exif-file.ts';
import { folderWith } from './folder.ts';

const TREE = `tree 14
  species  Quercus alba
  inspection 2026-03-14 from ground
  defect A cavity
    on       trunk at 4 ft, facing SW
    opening  9 in wide, 14 in tall
    photo    photos/14-a.jpg, from 10 ft
  defect B wound
    on       trunk at 30 ft
`;

function picture(record: Parameters<typeof tagsOf>[0]): Uint8Array {
  const { exif, gps } = tagsOf(record);
  return photo(exif, gps);
}

const folder = () =>
  folderWith({
    'trees.wood': TREE,
    'photos/14-a.jpg': picture({ imageWidth: 4000, imageHeight: 3000, focalLength35: 0.026 }),
    'photos/bare.jpg': picture({ imageWidth: 4000, imageHeight: 3000 }),
    'photos/empty.jpg': Uint8Array.of(0xff, 0xd8, 0xff, 0xd9),
  });

const POINTS = ['--points', '1900,1500', '2100,1500'];

test('a size is a range, in the unit of the distance', async () => {
  const { run } = await folder();
  const { code, out } = await run(
    'measure',
    'photos/14-a.jpg',
    ...POINTS,
    '--from',
    '10ft',
    '--oblique',
    '0deg',
  );
  expect(code).toBe(0);
  // 200 of 5,000 pixels of the diagonal of 43.27 mm at 26 mm from 120 in: 7.99 in.
  const [, low, high] = /^([\d.]+)\.\.([\d.]+) in {2}in photos\/14-a\.jpg\n/.exec(out)!.map(Number);
  expect(low).toBeGreaterThan(7);
  expect(low).toBeLessThan(7.99);
  expect(high).toBeGreaterThan(7.99);
  expect(high).toBeLessThan(9);
  const metric = await run('measure', 'photos/14-a.jpg', ...POINTS, '--from', '3 m', '--format', 'json');
  const { metres, written } = JSON.parse(metric.out);
  expect(written).toMatch(/ cm$/);
  expect(metres.low).toBeLessThan(0.2);
});

test('it is written into a defect, with its photograph and how it was measured', async () => {
  const { run, file } = await folder();
  const record = ['--tree', '14', '--defect', 'A', '--field', 'opening-width'];
  // The distance of the record.
  const shown = await run('measure', 'photos/14-a.jpg', ...POINTS, ...record);
  expect(shown.out).toContain('distance: 10 ft, within 2 %');
  expect(shown.out).toContain('Nothing was written');
  expect(await readFile(file('trees.wood'), 'utf8')).toBe(TREE);
  const { code, out } = await run('measure', 'photos/14-a.jpg', ...POINTS, ...record, '--write');
  expect(code).toBe(0);
  const size = /^([\d.]+\.\.[\d.]+ in)/.exec(out)![1]!;
  const text = await readFile(file('trees.wood'), 'utf8');
  expect(text).toContain(`opening ${size} wide, 14 in tall\n`);
  expect(text).toContain(`note "opening width ${size} measured in photos/14-a.jpg from 10 ft"\n`);
  expect(text.match(/photos\/14-a\.jpg, from/g)).toHaveLength(1);
  expect((await run('check', '--reject', 'never')).err).toBe('');
});

test('who looks up sees a length along the stem aslant', async () => {
  const { run } = await folder();
  const record = ['--tree', '14', '--defect', 'B', '--field', 'length', '--from', '40 ft'];
  const { out } = await run('measure', 'photos/14-a.jpg', ...POINTS, ...record);
  expect(out).toContain('turned by 49 deg at most');
  expect(out).toContain('+    photo photos/14-a.jpg, from 40 ft\n');
});

test.each([
  [['photos/14-a.jpg', '--points', '1,2', '--from', '1m'], '--points "1,2" is not two points: write it as'],
  [['photos/14-a.jpg', ...POINTS], 'needs the distance to the subject, or a known length'],
  [['photos/14-a.jpg', ...POINTS, '--from', '10'], '--from "10" is not a length: write 20ft'],
  [['photos/14-a.jpg', ...POINTS, '--from', 'unseen'], '"unseen" is not allowed here'],
  [['photos/14-a.jpg', ...POINTS, '--from', '0ft'], 'a subject at 0 m from the camera'],
  [
    ['photos/14-a.jpg', '--points', '1,2', '9000,2', '--from', '9ft'],
    'the point 9000, 2 outside of the picture',
  ],
  [['photos/bare.jpg', ...POINTS, '--from', '9ft'], 'its file does not state the lens: state the lens'],
  [['photos/empty.jpg', ...POINTS, '--from', '9ft'], 'does not state its width and height in pixels'],
  [['photos/none.jpg', ...POINTS, '--from', '9ft'], 'photos/none.jpg does not exist.'],
  [['trees.wood', ...POINTS, '--from', '9ft'], 'is not that of a photograph'],
  [['photos/14-a.jpg', ...POINTS, '--from', '9ft', '--write'], '--write needs the record'],
  [['photos/14-a.jpg', ...POINTS, '--from', '9ft', '--tree', '14'], 'a record needs all three'],
  [
    ['photos/14-a.jpg', ...POINTS, '--from', '9ft', '--tree', '14', '--defect', 'C', '--field', 'width'],
    'tree 14 has no defect C; it has A, B.',
  ],
])('%s', async (args, message) => {
  const { run, file } = await folder();
  const { code, out, err } = await run('measure', ...args);
  expect(err).toContain(message);
  expect([code, out]).toEqual([2, '']);
  expect(await readFile(file('trees.wood'), 'utf8')).toBe(TREE);
});
