/** The first bytes of a photograph or a drill trace → what is known of it. Apart from photos.ts for the weight of the reader. */

import { readTrace } from '../mechanics/drill-trace.ts';
import { type PhotoRecord, readPhotoRecord } from '../mechanics/exif.ts';
import type { PictureSize } from '../mechanics/measure.ts';
import { pictureSize } from '../mechanics/picture-size.ts';

export { readPhotoRecord, readThumbnail } from '../mechanics/exif.ts';

import type { PhotoFile } from './photos.ts';

/**
 * A camera's record stands at the head of the file: an Exif segment has 64 kB at most, what may precede it likewise. A
 * trace of a meter and a half with a point at every tenth of a millimeter fits as well.
 */
export const PHOTO_HEAD_BYTES = 256 * 1024;

/** Files that are read as tables. */
const TABLE = /\.(csv|tsv|txt)$/i;

export async function photoFileOf(path: string, head: Uint8Array): Promise<PhotoFile> {
  if (TABLE.test(path))
    return {
      state: 'read',
      trace:
        head.length < PHOTO_HEAD_BYTES
          ? readTrace(new TextDecoder().decode(head))
          : { damaged: `has ${PHOTO_HEAD_BYTES / 1024} kB or more, too long for a trace` },
    };
  const record = await readPhotoRecord(head);
  return record ? { state: 'read', record } : { state: 'read' };
}

/** What a picture says of its camera, and its size as its pixels are stored. */
export interface PictureFacts {
  readonly record: PhotoRecord | undefined;
  readonly stored: PictureSize | undefined;
}

export const pictureFacts = async (head: Uint8Array): Promise<PictureFacts> => ({
  record: await readPhotoRecord(head),
  stored: pictureSize(head),
});
