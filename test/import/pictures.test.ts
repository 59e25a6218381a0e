import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatDate } from '../../server/base/dates.ts';
import { bearingTo, distanceBetween, EARTH_RADIUS } from '../../server/base/distance.ts';
import type { PhotoRecord } from '../../server/facts/photos.ts';
import { pictureDay } from '../../server/import/picture-day.ts';
import { crossingOf, groupPictures, type Shot, shotOf } from '../../server/import/pictures.ts';

const DEGREE = (EARTH_RADIUS * Math.PI) / 180;
const HERE = { latitude: 44.3, longitude: -122.9 };
const at = (east: number, north: number) => ({
  latitude: HERE.latitude + north / DEGREE,
  longitude: HERE.longitude + east / DEGREE / Math.cos((HERE.latitude * Math.PI) / 180),
});

const clock = (minutes: number) =>
  new Date(Date.UTC(2026, 2, 14, 10) + minutes * 60_000).toISOString().slice(0, 19);

const shot = (path: string, minutes: number, record: PhotoRecord = {}): Shot =>
  shotOf({ path, record: { takenAt: clock(minutes), ...record } });

/** From that far east and north of here, looking at a place. */
const view = (east: number, north: number, subject?: readonly [number, number]): PhotoRecord => {
  const position = at(east, north);
  const facing = subject && bearingTo(position, at(...subject));
  return { ...position, positionError: 3, focalLength35: 0.026, ...(facing === undefined ? {} : { facing }) };
};

const tree = (tag: string, east: number, north: number) => ({ tag, position: at(east, north) });
const group = (shots: readonly Shot[], trees: Parameters<typeof groupPictures>[1], treeError = 2) =>
  groupPictures(shots, trees, { treeError });

const said = ({ groups }: ReturnType<typeof group>) =>
  groups.map(({ shots, candidates, doubt }) => [
    shots.map(({ path }) => path).join(' '),
    candidates.map(({ tag }) => tag).join(' '),
    doubt !== undefined,
  ]);

describe('pictures by tree', () => {
  const [one, two] = [tree('1', 0, 0), tree('2', 48, 0)];

  test('one tree within the error of the receiver: no question', () => {
    const found = group(
      [shot('a', 0, view(0, -10)), shot('b', 1, view(-8, 0)), shot('c', 9, view(48, 9))],
      [one, two],
    );
    // The other tree is the background.
    expect(said(found)).toEqual([
      ['a b', '1', false],
      ['c', '2', false],
    ]);
    const looking = group(
      [
        shot('a', 0, view(0, -10, [0, 0])),
        shot('b', 1, view(-8, 0, [0, 0])),
        shot('c', 9, view(48, 9, [48, 0])),
      ],
      [one, two],
    );
    expect(said(looking)).toEqual([
      ['a b', '1', false],
      ['c', '2', false],
    ]);
  });

  test('two trees beyond each other are a question', () => {
    const found = group([shot('a', 0, view(-10, 0, [0, 0]))], [one, tree('2', 12, 0)]);
    expect(said(found)).toEqual([['a', '1 2', true]]);
  });

  test('a second direction of view settles it', () => {
    const next = tree('2', 14, 0);
    const found = group(
      [shot('a', 0, view(-10, 0, [0, 0])), shot('b', 1, view(0, -12, [-12, 0]))],
      [one, next],
    );
    expect(said(found)).toEqual([['a b', '1', false]]);
  });

  test('a name with the tag is an answer; a name that the position belies is a question', () => {
    const found = group(
      [shot('2-north.jpg', 0, view(-10, 0)), shot('IMG_1.jpg', 30, view(44, 9, [48, 0]))],
      [one, two],
    );
    expect(said(found)).toEqual([
      ['2-north.jpg', '2 1', false],
      ['IMG_1.jpg', '2', false],
    ]);
    const far = group([shot('1_a.jpg', 0, view(900, 0))], [one, two]);
    expect(said(far)).toEqual([['1_a.jpg', '1', true]]);
  });

  test('without a position: after others of one tree a question, alone unplaced', () => {
    const found = group([shot('a', 0, view(0, -10, [0, 0])), shot('b', 1), shot('c', 60)], [one, two]);
    expect(said(found)).toEqual([['a b', '1', true]]);
    expect(found.unplaced.map(({ path }) => path)).toEqual(['c']);
  });

  test('other places, and places of trees that have no position', () => {
    const shots = [
      shot('a', 0, view(200, 0)),
      shot('b', 1, view(206, 0)),
      shot('c', 2, view(260, 0)),
      shot('far', 300, view(9000, 0)),
    ];
    const all = group(shots, [one]);
    expect(all.spots).toEqual([]);
    expect(
      all.elsewhere.map(({ shot: { path }, distance }) => [path, Math.round(distance / 10) * 10]),
    ).toEqual([
      ['a', 200],
      ['b', 210],
      ['c', 260],
      ['far', 9000],
    ]);
    const withBare = group(shots, [one, { tag: '2' }, { tag: '3' }]);
    expect(withBare.spots.map(spot => spot.map(({ path }) => path))).toEqual([['a', 'b'], ['c']]);
    expect(withBare.elsewhere.map(({ shot: { path } }) => path)).toEqual(['far']);
  });

  test('zeros of a receiver without a fix are no position', () => {
    expect(shotOf({ path: 'a', record: { latitude: 0, longitude: 0 } }).position).toBeUndefined();
  });

  test('every picture is somewhere, once, and the tree that was photographed is ruled out only as the background of another', () => {
    const trees = [tree('1', 0, 0), tree('2', 11, 3), tree('3', 30, -8), tree('4', 31, 20)];
    const away = (one: Shot, tag: string) =>
      distanceBetween(one.position!, trees.find(each => each.tag === tag)!.position);
    const isShown = (one: Shot, claimed: { readonly tag: string }, subject: string) =>
      claimed.tag === subject || away(one, subject) - 5 > 2 * (away(one, claimed.tag) + 5);
    const camera = fc.record({
      subject: fc.nat(3),
      bearing: fc.double({ min: 0, max: 360, noNaN: true }),
      away: fc.double({ min: 2, max: 50, noNaN: true }),
      off: fc.tuple(fc.double({ min: -3, max: 3, noNaN: true }), fc.double({ min: -3, max: 3, noNaN: true })),
      turned: fc.double({ min: -20, max: 20, noNaN: true }),
      minutes: fc.double({ min: 0, max: 200, noNaN: true }),
      knows: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(camera, { minLength: 1, maxLength: 12 }), cameras => {
        const subjects = new Map<string, string>();
        const shots = cameras.map(({ subject, bearing, away, off, turned, minutes, knows }, i) => {
          const there = trees[subject]!.position;
          const angle = (bearing * Math.PI) / 180;
          const east =
            (there.longitude - HERE.longitude) * DEGREE * Math.cos((HERE.latitude * Math.PI) / 180);
          const north = (there.latitude - HERE.latitude) * DEGREE;
          const true_ = at(east + away * Math.sin(angle), north + away * Math.cos(angle));
          const read = at(
            east + away * Math.sin(angle) + off[0] * 0.7,
            north + away * Math.cos(angle) + off[1] * 0.7,
          );
          subjects.set(String(i), trees[subject]!.tag);
          const facing = (bearingTo(true_, there) + turned + 360) % 360;
          return shot(String(i), minutes, {
            ...read,
            positionError: 3,
            focalLength35: 0.026,
            ...(knows ? { facing } : {}),
          });
        });
        const { groups, elsewhere, unplaced, spots } = group(shots, trees);
        const all = [
          ...groups.flatMap(one => one.shots),
          ...elsewhere.map(one => one.shot),
          ...unplaced,
          ...spots.flat(),
        ];
        expect(all.map(({ path }) => path).sort()).toEqual(shots.map(({ path }) => path).sort());
        for (const one of groups)
          if (one.doubt === undefined && one.shots.length === 1)
            expect(isShown(one.shots[0]!, one.candidates[0]!, subjects.get(one.shots[0]!.path)!)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});

test('where views cross stands the tree', () => {
  const shots = [
    shot('a', 0, view(-10, 0, [3, 4])),
    shot('b', 1, view(5, -14, [3, 4])),
    shot('c', 2, view(12, 20, [3, 4])),
  ];
  expect(distanceBetween(crossingOf(shots)!, at(3, 4))).toBeLessThan(0.05);
  expect(crossingOf(shots.slice(0, 1))).toBeUndefined();
  expect(crossingOf([shots[0]!, shot('d', 1, view(-20, 0.5, [3, 4]))])).toBeUndefined();
});

describe('the day at the place', () => {
  const day = (record: PhotoRecord) => {
    const read = pictureDay(record);
    return [read.day === undefined ? undefined : formatDate(read.day), read.doubt !== undefined];
  };
  const oregon = { longitude: -122.9 };

  test.each<[string, PhotoRecord, (string | boolean | undefined)[]]>([
    ['the clock alone', { takenAt: '2026-03-14T23:50:00' }, ['2026-03-14', false]],
    [
      'a zone of the place',
      { ...oregon, takenAt: '2026-03-14T23:50:00', clockOffset: -420 },
      ['2026-03-14', false],
    ],
    [
      'satellites that agree',
      { ...oregon, takenAt: '2026-03-14T23:50:00', satelliteTime: '2026-03-15T06:50:00' },
      ['2026-03-14', false],
    ],
    [
      'a clock left in Europe, in the afternoon',
      { ...oregon, takenAt: '2026-03-15T00:10:00', clockOffset: 60 },
      ['2026-03-14', false],
    ],
    [
      'a clock left in Europe, near midnight',
      { ...oregon, takenAt: '2026-03-15T08:10:00', clockOffset: 60 },
      ['2026-03-14', true],
    ],
    ['only satellites', { ...oregon, satelliteTime: '2026-03-15T02:00:00' }, ['2026-03-14', false]],
    ['nothing', oregon, [undefined, false]],
  ])('%s', (_, record, expected) => {
    expect(day(record)).toEqual(expected);
  });
});
