/** The files of photographs that an example speaks of: for the runner, and in words. */

import { inUnit, plainNumber, unitOf } from '../base/quantity.ts';
import type { PhotoFile, PhotoIndex, PhotoRecord } from '../facts/photos.ts';
import { readTrace } from '../mechanics/drill-trace.ts';
import type { Example } from './rule.ts';

type ExamplePhoto = NonNullable<Example['photos']>[string];

/** Undefined if the example has no photographs: they were not looked up. */
export const examplePhotos = ({ photos, traces }: Example): PhotoIndex | undefined =>
  photos || traces
    ? new Map<string, PhotoFile>([
        ...Object.entries(photos ?? {}).map(([path, photo]) => [path, fileOf(photo)] as const),
        ...Object.entries(traces ?? {}).map(
          ([path, text]) => [path, { state: 'read', trace: readTrace(text) } as const] as const,
        ),
      ])
    : undefined;

const fileOf = (photo: ExamplePhoto): PhotoFile =>
  photo === 'missing'
    ? { state: 'missing' }
    : photo === 'unreadable'
      ? { state: 'unreadable', reason: 'may not be read: permission denied' }
      : { state: 'read', record: photo };

/** One sentence for each file. */
export const photoSentences = ({ photos = {}, traces = {} }: Example): readonly string[] => [
  ...Object.entries(photos).map(([path, told]) =>
    typeof told === 'string'
      ? `The file ${path} ${told === 'missing' ? 'is missing' : 'can not be read'}.`
      : `The camera recorded in ${path}: ${recordWords(told)}.`,
  ),
  ...Object.entries(traces).map(
    ([path, text]) =>
      `The file ${path} has ${text.trimEnd().split('\n').length} lines, the first: ${text.split('\n')[0]}.`,
  ),
];

function recordWords(record: PhotoRecord): string {
  const { takenAt, latitude, longitude, focalLength35, imageWidth, imageHeight } = record;
  return [
    ...(takenAt === undefined ? [] : [takenAt.replace('T', ' ')]),
    ...(latitude === undefined || longitude === undefined ? [] : [`${latitude}, ${longitude}`]),
    ...(focalLength35 === undefined ? [] : [`a lens of ${inUnit(focalLength35, unitOf('mm')!, 0)}`]),
    ...(imageWidth === undefined || imageHeight === undefined
      ? []
      : [`${plainNumber(imageWidth, 0)} by ${plainNumber(imageHeight, 0)} pixels`]),
  ].join('; ');
}
