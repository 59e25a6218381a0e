/** Every feature that an editor asks for, at a place of a file: the stretches that their answers speak of. */

import type { DatedWorkspace, FileSnapshot } from '../../server/facts/workspace.ts';
import { completions } from '../../server/language/completion.ts';
import { fixes } from '../../server/language/fixes.ts';
import { formatted, formattedOnLineEnd } from '../../server/language/formatting.ts';
import { hints } from '../../server/language/hints.ts';
import { hover } from '../../server/language/hover.ts';
import { lenses } from '../../server/language/lenses.ts';
import { definitions, highlights, references } from '../../server/language/names.ts';
import { photoLinks } from '../../server/language/photos.ts';
import { selections } from '../../server/language/ranges.ts';
import { renamable, rename } from '../../server/language/rename.ts';
import { semanticTokens } from '../../server/language/semantic-tokens';
import { outline } from '../../server/language/symbols.ts';

export interface Stretch {
  readonly start: number;
  readonly end: number;
}

export function everything(snapshot: DatedWorkspace, file: FileSnapshot, offset: number): readonly Stretch[] {
  const { workspace } = snapshot;
  const at = { start: offset, end: offset };
  const found = hover(snapshot, file, offset);
  const name = renamable(workspace, file, offset);
  const renaming = rename(workspace, file, offset, 'Z9');
  return [
    ...(found ? [found] : []),
    ...(name ? [name] : []),
    ...('edits' in renaming ? renaming.edits.filter(({ path }) => path === file.path) : []),
    ...completions(snapshot, file, offset).items,
    ...fixes(snapshot, file, at).flatMap(({ edits }) => edits),
    ...highlights(workspace, file, offset),
    ...definitions(workspace, file, offset).filter(({ path }) => path === file.path),
    ...references(workspace, file, offset, true).filter(({ path }) => path === file.path),
    ...selections(file, offset),
    ...formattedOnLineEnd(file, offset),
    ...[...hints(snapshot, file, { start: offset, end: offset + 200 })].flat().map(({ at }) => ({
      start: at,
      end: at,
    })),
  ];
}

export const wholeFile = (file: FileSnapshot): readonly Stretch[] => [
  ...semanticTokens(file, { start: 0, end: file.text.length }),
  ...formatted(file),
  ...lenses(file),
  ...photoLinks(file),
  ...outline(file).flatMap(symbol => [symbol, symbol.head, ...symbol.children]),
];
