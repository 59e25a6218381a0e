import { readdir, readFile } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { bearingTo, EARTH_RADIUS } from '../../server/base/distance.ts';
import type { PhotoRecord } from '../../server/facts/photos.ts';
import { photo, tagsOf } from '../mechanics/exif-file.ts';
import { folderWith, ON } from './folder.ts';

const DEGREE = (EARTH_RADIUS * Math.PI) / 180;
const HERE = { latitude: 44.3127, longitude: -122.8714 };
const at = (east: number, north: number) => ({
  latitude: HERE.latitude + north / DEGREE,
  longitude: HERE.longitude + east / DEGREE / Math.cos((HERE.latitude * Math.PI) / 180),
});
const degrees = ({ latitude, longitude }: ReturnType<typeof at>) =>
  `${latitude.toFixed(5)}, ${longitude.toFixed(5)}`;

function picture(time: string, record: PhotoRecord = {}): Uint8Array {
  const { exif, gps } = tagsOf({ takenAt: `2026-03-14T${time}`, focalLength35: 0.026, ...record });
  return photo(exif, gps);
}
const from = (east: number, north: number, subject: readonly [number, number]): PhotoRecord => ({
  ...at(east, north),
  positionError: 4,
  facing: bearingTo(at(east, north), at(...subject)),
});

const TREES = `person RV "Ruth Varga"

tree 7
  species    Quercus alba
  position   ${degrees(at(0, 0))}
  height     60 ft

  inspection 2026-03-14 from ground
    by       RV

tree 8
  species    Acer rubrum
  position   ${degrees(at(80, 0))}
  height     18 m
`;

const PICTURES = {
  'photos/IMG_1.jpg': picture('10:00:00', from(0, -20, [0, 0])),
  'photos/IMG_2.jpg': picture('10:01:00', from(-22, 0, [0, 0])),
  'photos/IMG_3.jpg': picture('10:20:00', from(80, 25, [80, 0])),
  // A copy.
  'photos/IMG_4.jpg': picture('10:20:00', from(80, 25, [80, 0])),
  'photos/IMG_5.jpg': picture('18:00:00', from(5000, 0, [5001, 0])),
  'photos/IMG_6.jpg': picture('19:00:00'),
  'photos/damaged.jpg': Uint8Array.of(0xff, 0xd8, 0xff, 0xe1, 0xff, 0xff, 1, 2, 3),
};

test('proposes inspections with their photographs, and writes after a yes', async () => {
  const { run, talk, file } = await folderWith({ 'trees.wood': TREES, ...PICTURES });
  const proposed = await run('import', 'photos', '--by', 'RV');
  expect(proposed).toEqual({
    code: 0,
    out: `7 pictures; 3 of 2 trees.
A copy: photos/IMG_4.jpg has the same content as photos/IMG_3.jpg and is left out.
Another place: photos/IMG_5.jpg was taken 4920 m from everything in the inventory and is left out.
No position: photos/IMG_6.jpg does not record where it was taken and is left out.
No position: photos/damaged.jpg does not record where it was taken and is left out.

Tree 7, in trees.wood:
+    photo photos/IMG_1.jpg, from 19..112 ft
+    photo photos/IMG_2.jpg, from 26..119 ft

Tree 8, in trees.wood:
+
+  inspection 2026-03-14 from ground
+    by RV
+    photo photos/IMG_3.jpg, from 10..39 m
Nothing was written. Use --yes to write without asking.
`,
    err: '',
  });
  expect((await talk(['no'], 'import', 'photos')).out).toContain('Nothing was written.');
  expect(await readFile(file('trees.wood'), 'utf8')).toBe(TREES);
  expect((await talk(['yes'], 'import', 'photos', '--by', 'RV')).code).toBe(0);
  const text = await readFile(file('trees.wood'), 'utf8');
  expect(text.match(/photo photos/g)).toHaveLength(3);
  expect(text.match(/inspection 2026-03-14 from ground/g)).toHaveLength(2);
  const { err, out } = await run('check', '--on', ON, '--reject', 'never');
  expect(err).toBe('');
  expect(out).not.toMatch(/photo-/);
  // Nothing is named twice.
  expect((await run('import', 'photos', '--yes')).out).toContain('Already on record: 3.');
  expect(await readFile(file('trees.wood'), 'utf8')).toBe(text);
});

test('what two trees could claim is asked, of a person or of a file', async () => {
  const near = TREES.replace(degrees(at(80, 0)), degrees(at(6, 0)));
  const files = {
    'trees.wood': near,
    'p/a.jpg': picture('10:00:00', from(-10, 0, [0, 0])),
    'answers.txt': '# mine\na.jpg 8\n',
    'wrong.txt': 'a.jpg 99\n',
  };
  const { run, talk, file } = await folderWith(files);
  const open = await run('import', 'p', '--yes');
  expect(open.code).toBe(1);
  expect(open.out).toContain(
    'Open: Which tree does a.jpg (2026-03-14 10:00) show: 7 (19..46 ft away), 8 (12..21 m away), none? (more than one tree is within the error of the receiver)\n',
  );
  expect(await readFile(file('trees.wood'), 'utf8')).toBe(near);
  const text = await run('import', 'p', '--as-text', '--answers', 'answers.txt');
  expect(text.out).toBe(
    `# 1 picture; 1 of 1 tree.\n\ntree 8\n  inspection 2026-03-14 from ground\n    photo p/a.jpg, from 2..31 m\n`,
  );
  const wrong = await run('import', 'p', '--answers', 'wrong.txt');
  expect([wrong.code, wrong.err]).toEqual([
    2,
    'soundwood: wrong.txt: there is no tree 99; give the tag of a tree, or none.\n',
  ]);
  expect((await talk(['77', 'none'], 'import', 'p')).out).toContain('There is no tree 77.\n');
  expect((await talk(['7', 'yes'], 'import', 'p')).code).toBe(0);
  expect(await readFile(file('trees.wood'), 'utf8')).toContain('    photo p/a.jpg, from < 79 ft\n');
});

test('trees without a position get their pictures in the order of the walk, and a position where views cross', async () => {
  const { talk, file, run } = await folderWith({
    'trees.wood': 'tree 1\n  species Quercus alba\n\ntree 2\n  species Acer rubrum\n',
    'p/IMG_1.jpg': picture('10:00:00', from(0, -20, [0, 0])),
    'p/IMG_2.jpg': picture('10:01:00', from(-20, -2, [0, 0])),
    'p/IMG_3.jpg': picture('10:20:00', from(100, -20, [100, 0])),
  });
  const { code, out } = await talk(['yes'], 'import', 'p');
  expect(code).toBe(0);
  expect(out).toContain('3 pictures; 3 of 2 trees.');
  const text = await readFile(file('trees.wood'), 'utf8');
  expect(text).toMatch(/^tree 1\n {2}position 44\.3127, -122\.8714\n/);
  expect(text).toContain('photo p/IMG_3.jpg\n');
  expect((await run('check', '--on', ON, '--reject', 'never')).out).not.toContain('photo-position');
});

test('the order of a walk is one yes, or each place is asked about', async () => {
  const files = {
    'trees.wood': 'tree 1\n  species Quercus alba\n\ntree 2\n  species Acer rubrum\n',
    'p/IMG_1.jpg': picture('10:00:00', from(0, -20, [0, 0])),
    'p/IMG_2.jpg': picture('10:20:00', from(100, -20, [100, 0])),
    'order.txt': 'order yes\n',
  };
  const { run, talk, file } = await folderWith(files);
  const open = await run('import', 'p', '--yes');
  expect([open.code, open.out]).toEqual([
    1,
    expect.stringContaining('in the order of the tags (1: IMG_1.jpg; 2: IMG_2.jpg)'),
  ]);
  expect((await talk(['no'], 'import', 'p')).out).toContain('Nothing was written.\n');
  expect(await readFile(file('trees.wood'), 'utf8')).toBe(files['trees.wood']);
  const text = await run('import', 'p', '--as-text', '--answers', 'order.txt');
  expect([text.code, text.out]).toEqual([
    0,
    expect.stringMatching(/tree 1\n.*\n.*IMG_1\.jpg[\s\S]*tree 2\n.*\n.*IMG_2\.jpg/),
  ]);
  const each = await talk(['each', '2', 'none', 'yes'], 'import', 'p');
  expect(each.code).toBe(0);
  expect(each.out).toContain('No matching tree: IMG_2.jpg; left out.');
  const written = await readFile(file('trees.wood'), 'utf8');
  expect(written.slice(written.indexOf('tree 2'))).toContain('photo p/IMG_1.jpg');
  expect(written).not.toContain('IMG_2.jpg');
});

test('the field sample: from the notes and the folder of the camera to an inventory, its pictures by one yes', async () => {
  const contents = async (folder: string, names: readonly string[]) =>
    Object.fromEntries(
      await Promise.all(
        names.map(async name => [name, await readFile(`samples/field/${folder}${name}`)] as const),
      ),
    );
  const pictures = (await readdir('samples/field/camera')).filter(name => name.endsWith('.jpg'));
  const { talk, run, file } = await folderWith({
    ...(await contents('', ['notes.txt', 'answers.json', 'site.wood'])),
    ...(await contents(
      '',
      pictures.map(name => `camera/${name}`),
    )),
  });
  const noted = await run(
    'fix',
    '--from',
    'notes.txt',
    '--answers',
    'answers.json',
    '--output',
    'trees.wood',
  );
  expect(noted.err).toBe('');
  const { code, out } = await talk(['yes'], 'import', 'camera', '--by', 'TB');
  expect(code).toBe(0);
  expect(out).toContain('31 pictures; 28 of 15 trees.\nA copy: camera/IMG_0413 (1).jpg');
  expect(out.match(/^Another place: /gm)).toHaveLength(1);
  expect(out.match(/^No position: /gm)).toHaveLength(1);
  expect(out.match(/^\+ +position /gm)!.length).toBeGreaterThanOrEqual(5);
  // The opening of tree 1 was drawn 9 in wide, 14 in tall, as from 9.85 m.
  const points = ['--points', '227,180', '252,180', '--from', '9.85m', '--oblique', '0deg'];
  const record = ['--tree', '1', '--defect', 'A', '--field', 'opening-width', '--write'];
  const { out: size } = await run('measure', 'camera/IMG_0413.jpg', ...points, ...record);
  const [, low, high] = /^([\d.]+)\.\.([\d.]+) cm/.exec(size)!.map(Number);
  expect(low).toBeLessThan(9 * 2.54);
  expect(high).toBeGreaterThan(9 * 2.54);
  expect(await readFile(file('trees.wood'), 'utf8')).toContain(`opening ${low}..${high} cm wide, 14 in tall`);
  const { out: findings, err } = await run('check', '--on', '2026-03-20', '--reject', 'never');
  expect(err).toBe('');
  // Mistakes of writing and disagreements of the pictures have rules of their own.
  expect(findings).not.toMatch(/\[(photo-|unknown-|not-in-notation|syntax)/);
  expect(findings).toContain('15 trees in 2 files');
});

test('names of files can harm neither the terminal nor the record', async () => {
  const names = ['a\u001b[31m.jpg', 'b"\ntree 9\n.jpg', "c # 'x'.jpg", 'd, from 3 ft.jpg', '-e.jpg'];
  const pictures = names.map(
    (name, i) => [`p/${name}`, picture(`10:0${i}:00`, from(0, -20 - i, [0, 0]))] as const,
  );
  const { run, file } = await folderWith({ 'trees.wood': TREES, ...Object.fromEntries(pictures) });
  const { out, err, code } = await run('import', 'p', '--yes');
  expect(code).toBe(2);
  expect(out + err).not.toContain('\u001b');
  const text = await readFile(file('trees.wood'), 'utf8');
  expect(text.match(/^tree /gm)).toHaveLength(2);
  // What cannot be written in one line is left out and said.
  expect(err.match(/cannot be used in a record/g)).toHaveLength(2);
  const { out: findings } = await run('check', '--on', ON, '--reject', 'never');
  expect(findings).not.toMatch(/photo-missing|syntax/);
  expect(findings).toContain('0 errors');
});

test('says what is wrong', async () => {
  const { run } = await folderWith({ 'trees.wood': TREES, 'none/x.txt': 'x', 'bare/y.wood': 'site "x"\n' });
  expect((await run('import', 'none')).err).toBe(
    'soundwood: none contains no pictures (JPEG, HEIC, PNG, WebP or TIFF).\n',
  );
  expect((await run('import', 'none', '--into', 'bare')).err).toContain(
    'there are no trees to match the pictures to',
  );
  expect((await run('import', '..')).err).toContain('is outside the inventory');
});
