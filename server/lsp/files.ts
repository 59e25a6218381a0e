/** How the server reaches files. Whoever starts it says how; the server itself knows no disk. */

import type { PhotoIndex } from '../facts/photos.ts';
import type { SourceText } from './requests.ts';

export interface FolderContent {
  /** The folder that paths are relative to: the one asked for, or one above it that applies to it. */
  readonly base: string;
  /** Its inventories at any depth, and those of the folders above that apply to them. */
  readonly files: readonly SourceText[];
  /** What could not be read, for the log. */
  readonly problems: readonly string[];
}

export interface FileAccess {
  folder(uri: string): Promise<FolderContent>;
  /** Undefined where there is no such file, or it holds no text. */
  read(uri: string): Promise<string | undefined>;
  /** What is known of photographs in a folder, by their paths in it; left out where the host shows no such files. */
  photos?(folder: string, paths: readonly string[]): Promise<PhotoIndex>;
}
