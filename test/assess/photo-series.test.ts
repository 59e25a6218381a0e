import { describe, expect, test } from 'vitest';
import { photoSeries, type TreePhoto, treePhotos } from '../../server/assess/photo-series.ts';
import { formatDate } from '../../server/base/dates.ts';
import type { PhotoFile, PhotoRecord } from '../../server/facts/photos.ts';
import { treeIn } from './inventory.ts';

const nothing = () => undefined;

/** `cavity A: 2020-05-04 a.jpg | reduce R1 | 2021-05-04 b.jpg` for each series. */
function told(text: string, files: Readonly<Record<string, PhotoRecord>> = {}): readonly string[] {
  const { tree } = treeIn(`tree 1\n${text}`);
  const fileOf = (path: string): PhotoFile | undefined =>
    files[path] && { state: 'read', record: files[path] };
  return photoSeries(treePhotos(tree, fileOf), tree.works).map(({ subject, photos }) =>
    [
      `${subject}:`,
      ...photos.flatMap(({ photo, before }) => [
        `${formatDate(photo.day)} ${photo.path}`,
        ...before.map(({ prescription, date }) => `| ${prescription.value} ${formatDate(date.value)} |`),
      ]),
    ].join(' '),
  );
}

const looked = (day: string, ...photos: readonly string[]): string =>
  `  inspection ${day} from ground\n${photos.map(photo => `    photo ${photo}\n`).join('')}`;
const REDUCE = '  prescription R1 reduce\n    height 20 m to 17 m\n';
const work = (day: string, ...lines: readonly string[]): string =>
  `  work R1 ${day}\n${lines.map(line => `    ${line}\n`).join('')}`;

describe('photographs side by side', () => {
  test('the last one before work and the first one after it, with the first and the last of all', () => {
    const visits = ['2019', '2020', '2021', '2023', '2024', '2025'].map(year =>
      looked(`${year}-05-04`, `${year}.jpg, toward N`),
    );
    expect(told(`${visits.join('')}${REDUCE}${work('2022-01-10')}`)).toEqual([
      'the whole tree: 2019-05-04 2019.jpg 2021-05-04 2021.jpg | R1 2022-01-10 | 2023-05-04 2023.jpg 2025-05-04 2025.jpg',
    ]);
  });

  test('without work the first and the last; one day alone is no series', () => {
    const [a, b, c] = ['2019', '2022', '2025'].map(year => looked(`${year}-05-04`, `${year}.jpg`));
    expect(told(`${a}${b}${c}`)).toEqual(['the whole tree: 2019-05-04 2019.jpg 2025-05-04 2025.jpg']);
    expect(told(looked('2019-05-04', 'a.jpg', 'b.jpg'))).toEqual([]);
  });

  test('only of one side: within 45 degrees, also across north', () => {
    const pair = (one: string, other: string) =>
      told(
        `${looked('2020-05-04', `a.jpg, toward ${one}`)}${looked('2024-05-04', `b.jpg, toward ${other}`)}`,
      );
    expect(pair('NNW', 'NNE')).toHaveLength(1);
    expect(pair('N', 'NE')).toHaveLength(1);
    expect(pair('N', 'ENE')).toEqual([]);
    expect(pair('N', 'S')).toEqual([]);
  });

  test('a direction that is not known is not taken for the same', () => {
    expect(told(`${looked('2020-05-04', 'a.jpg, toward N')}${looked('2024-05-04', 'b.jpg')}`)).toEqual([]);
    // The file of the camera knows it.
    expect(
      told(`${looked('2020-05-04', 'a.jpg, toward N')}${looked('2024-05-04', 'b.jpg')}`, {
        'b.jpg': { facing: 350 },
      }),
    ).toHaveLength(1);
  });

  test('a view of the foot is not beside one of the whole tree', () => {
    expect(
      told(`${looked('2020-05-04', 'a.jpg, from 20 m')}${looked('2024-05-04', 'b.jpg, from 3 m')}`),
    ).toEqual([]);
    expect(
      told(`${looked('2020-05-04', 'a.jpg, from 20 m')}${looked('2024-05-04', 'b.jpg, from 12 m')}`),
    ).toHaveLength(1);
  });

  test('each defect for itself, over its readings', () => {
    const seen = (day: string, year: string) =>
      `${looked(day)}  defect A cavity\n    photo ${year}-a.jpg\n  defect B wound\n    photo ${year}-b.jpg\n`;
    expect(told(`${seen('2020-05-04', '20')}${seen('2024-05-04', '24')}`)).toEqual([
      'cavity A: 2020-05-04 20-a.jpg 2024-05-04 24-a.jpg',
      'wound B: 2020-05-04 20-b.jpg 2024-05-04 24-b.jpg',
    ]);
  });

  test('on the day of work only its own photograph is from after it', () => {
    const text = `${looked('2020-05-04', 'a.jpg')}${looked('2022-01-10', 'morning.jpg')}${REDUCE}`;
    expect(told(`${text}${work('2022-01-10')}`)).toEqual([
      'the whole tree: 2020-05-04 a.jpg 2022-01-10 morning.jpg',
    ]);
    expect(told(`${text}${work('2022-01-10', 'photo done.jpg')}`)).toEqual([
      'the whole tree: 2020-05-04 a.jpg | R1 2022-01-10 | 2022-01-10 done.jpg',
    ]);
  });

  test('one without a day on record has that of its file, or stays out', () => {
    const text = `  photo whole.jpg\n${looked('2024-05-04', 'b.jpg')}`;
    expect(told(text)).toEqual([]);
    expect(told(text, { 'whole.jpg': { takenAt: '2020-05-04T10:00:00' } })).toEqual([
      'the whole tree: 2020-05-04 whole.jpg 2024-05-04 b.jpg',
    ]);
  });

  test('the order of the records says nothing', () => {
    const { tree } = treeIn(
      `tree 1\n${['2019', '2021', '2023'].map(year => looked(`${year}-05-04`, `${year}.jpg`)).join('')}${REDUCE}${work('2022-01-10')}`,
    );
    const photos = treePhotos(tree, nothing);
    const paths = (some: readonly TreePhoto[]) =>
      photoSeries(some, tree.works).map(one => one.photos.map(({ photo }) => photo.path));
    expect(paths(photos.toReversed())).toEqual(paths(photos));
  });
});
