/** Inventories as text with a mark: `‸` is the cursor; lines `--- path` begin a file, the first one open. */

import { parseDate } from '../../server/base/dates.ts';
import type { DatedWorkspace } from '../../server/facts/workspace.ts';
import { buildWorkspace, type FileSnapshot, readFile } from '../../server/facts/workspace.ts';
import type { Edit, PlacedEdit } from '../../server/language/snapshot.ts';

export interface Fixture {
  readonly snapshot: DatedWorkspace;
  /** The file with the cursor, else the first one. */
  readonly file: FileSnapshot;
  readonly offset: number;
  /** The whole of the file. */
  readonly all: { readonly start: number; readonly end: number };
}

const MARK = '‸';

export function fixture(source: string, on = '2026-06-01'): Fixture {
  const parts = source.startsWith('--- ') ? source.split(/^--- /m).slice(1) : [`a.wood\n${source}`];
  const files = parts.map(part => {
    const [path, ...lines] = part.split('\n');
    return { path: path!.trim(), text: lines.join('\n') };
  });
  const open = files.find(({ text }) => text.includes(MARK)) ?? files[0]!;
  const offset = Math.max(0, open.text.indexOf(MARK));
  const workspace = buildWorkspace(files.map(({ path, text }) => readFile(path, text.replace(MARK, ''))));
  const file = workspace.files.get(open.path)!;
  return {
    snapshot: { workspace, today: parseDate(on)! },
    file,
    offset,
    all: { start: 0, end: file.text.length },
  };
}

/** The text after these edits, which do not overlap. */
export function edited(text: string, edits: readonly Edit[]): string {
  return edits
    .toSorted((a, b) => b.start - a.start || b.end - a.end)
    .reduce((now, edit) => now.slice(0, edit.start) + edit.text + now.slice(edit.end), text);
}

/** Every file that the edits change, by path. */
export function editedFiles({ snapshot }: Fixture, edits: readonly PlacedEdit[]): Record<string, string> {
  const paths = [...new Set(edits.map(({ path }) => path))];
  return Object.fromEntries(
    paths.map(path => {
      const { text } = snapshot.workspace.files.get(path)!;
      return [
        path,
        edited(
          text,
          edits.filter(edit => edit.path === path),
        ),
      ];
    }),
  );
}

/** What stands at a stretch. */
export const slice = ({ file }: Fixture, { start, end }: { start: number; end: number }): string =>
  file.text.slice(start, end);
