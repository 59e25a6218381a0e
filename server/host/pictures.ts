/** Reads what pictures say of themselves: camera, place, time and size. */

import { type FileHandle, open } from 'node:fs/promises';
import { PHOTO_HEAD_BYTES, type PictureFacts, pictureFacts, readPhotoRecord } from '../facts/read-photo.ts';
import { NotAFile } from './folders.ts';

export interface PictureOnDisk extends PictureFacts {
  readonly bytes: number;
}

/** Only the parts of the file that tell of it are read. @throws NotAFile, and what the system throws */
export async function readPicture(path: string): Promise<PictureOnDisk> {
  const { constants } = await import('node:fs');
  // Non-blocking, in case it is a pipe without a writer.
  const handle = await open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  try {
    const status = await handle.stat();
    if (!status.isFile()) throw new NotAFile('is not a file');
    const head = Buffer.alloc(Math.min(PHOTO_HEAD_BYTES, status.size));
    const { bytesRead } = await handle.read(head, 0, head.length, 0);
    const facts = await pictureFacts(head.subarray(0, bytesRead));
    if (facts.record) return { ...facts, bytes: status.size };
    const record = isWebp(head)
      ? await webpRecord(handle, status.size)
      : // Some formats have it anywhere.
        status.size > head.length
        ? await readPhotoRecord(path)
        : undefined;
    return { ...facts, record, bytes: status.size };
  } finally {
    await handle.close();
  }
}

const isWebp = (head: Buffer): boolean =>
  head.toString('latin1', 0, 4) === 'RIFF' && head.toString('latin1', 8, 12) === 'WEBP';

/** Chunks of a picture; more are an animation or damage. */
const MOST_CHUNKS = 64;
/** Nobody's record is longer. */
const MOST_RECORD = 1 << 20;

/** The Exif chunk of a WebP (RFC 9649), which stands behind the image. */
async function webpRecord(file: FileHandle, size: number) {
  const header = Buffer.alloc(8);
  let at = 12;
  for (let i = 0; i < MOST_CHUNKS && at + header.length <= size; i++) {
    await file.read(header, 0, header.length, at);
    const length = header.readUInt32LE(4);
    if (header.toString('latin1', 0, 4) === 'EXIF') {
      const record = Buffer.alloc(Math.min(length, MOST_RECORD, size - at - 8));
      await file.read(record, 0, record.length, at + 8);
      return readPhotoRecord(record.toString('latin1', 0, 6) === 'Exif\0\0' ? record.subarray(6) : record);
    }
    // Chunks begin at even offsets.
    at += 8 + length + (length % 2);
  }
  return undefined;
}
