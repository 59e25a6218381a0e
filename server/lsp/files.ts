/** The server's access to files, injected by its entry points. */

import type { PhotoIndex } from '../facts/photos.ts';
import type { SourceText } from './requests.ts';

export interface FolderContent {
  /** URI of the folder that paths are relative to: the requested one, or the topmost one above it with inventories. */
  readonly base: string;
  /** The inventories at any depth, and those directly in the folders above. */
  readonly files: readonly SourceText[];
  /** What could not be read and why, for the log. */
  readonly problems: readonly string[];
}

export interface FileAccess {
  folder(uri: string): Promise<FolderContent>;
  /** Undefined if the file does not exist or is not text. */
  read(uri: string): Promise<string | undefined>;
  /** The state of photographs by their paths in the folder; absent if the host has no access to them. */
  photos?(folder: string, paths: readonly string[]): Promise<PhotoIndex>;
  /** The paths of the photographs and measured files in a folder, at most MOST_NAMED; absent if the host can't list them. */
  namedPaths?(folder: string): Promise<readonly string[]>;
  /** The address of a picture of a photograph, to show in a hover; undefined if there is none to show. */
  photoPicture?(folder: string, path: string): Promise<string | undefined>;
}
