/** The first bytes of a photograph's file → what is known of it. Apart from photos.ts for the weight of the reader. */

import { readPhotoRecord } from '../mechanics/exif.ts';

export { readThumbnail } from '../mechanics/exif.ts';

import type { PhotoFile } from './photos.ts';

/** A camera's record stands at the head of the file: an Exif segment has 64 kB at most, what may precede it likewise. */
export const PHOTO_HEAD_BYTES = 256 * 1024;

export async function photoFileOf(head: Uint8Array): Promise<PhotoFile> {
  const record = await readPhotoRecord(head);
  return record ? { state: 'read', record } : { state: 'read' };
}
