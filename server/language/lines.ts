/** Where the lines of a file begin, computed once for each state of it. */

import { lineStarts } from '../../grammar/text.ts';
import type { FileSnapshot } from '../facts/workspace.ts';

export type LineStarts = readonly number[];

const known = new WeakMap<FileSnapshot, LineStarts>();

export function startsOf(file: FileSnapshot): LineStarts {
  let starts = known.get(file);
  if (!starts) known.set(file, (starts = lineStarts(file.text)));
  return starts;
}
