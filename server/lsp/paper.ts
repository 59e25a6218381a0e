/** What the program writes of an inventory; loaded where somebody asks for it. */

import { type LocatedItem, showSound } from '../assess/not-computed.ts';
import { grouped } from '../base/grouped.ts';
import { type DatedWorkspace, type FileSnapshot, settingsFor, siteOf } from '../facts/workspace.ts';
import { checkFile } from '../rules/check.ts';
import { showCalendar } from '../show/calendar.ts';
import { treesCsv } from '../show/export-csv.ts';
import { treesGeoJson } from '../show/export-geojson.ts';
import { factsJsonLines } from '../show/export-jsonl.ts';
import { showHistories } from '../show/history.ts';
import { calendarTrees, histories, judgedTreesOf, treesIn, weighedTrees } from '../show/papers.ts';
import { allRows } from '../show/row-form.ts';
import { plain } from '../show/terminal.ts';
import { showWeighed } from '../show/weigh.ts';
import type { Paper, PaperParams } from './requests.ts';

export async function writePaper(
  snapshot: DatedWorkspace,
  files: readonly FileSnapshot[],
  { kind, tag }: Pick<PaperParams, 'kind' | 'tag'>,
): Promise<Pick<Paper, 'text' | 'problems'>> {
  const { workspace, today } = snapshot;
  const asked = treesIn(files, today).filter(({ tree }) => tag === undefined || tree.tag.value === tag);
  const nameOf = (path: string) => path;
  const written = async <T>(
    items: readonly LocatedItem<T>[],
    faulty: readonly { readonly what: string; readonly message: string }[],
    show: (some: readonly T[]) => string,
  ) => {
    const { shown, left } = await showSound(items, show);
    return { text: shown, problems: [...faulty, ...left].map(({ what, message }) => `${what}: ${message}`) };
  };
  switch (kind) {
    case 'weigh': {
      const { items, faulty } = weighedTrees(snapshot, asked, nameOf, tag !== undefined);
      return written(items, faulty, some => (some.length > 0 ? showWeighed(some, plain) : ''));
    }
    case 'history': {
      const { items, faulty } = histories(snapshot, asked, nameOf);
      return written(items, faulty, some => (some.length > 0 ? showHistories(some, plain) : ''));
    }
    case 'calendar': {
      const { trees, faulty } = calendarTrees(snapshot, files, nameOf);
      return written([], faulty, () => showCalendar(trees, today));
    }
    case 'csv': {
      const rows = asked.map(({ path, placed, line, tree }) => ({
        place: { file: path, line, what: `tree ${tree.tag.value}` },
        of: { placed, file: path, site: siteOf(workspace, path), settings: settingsFor(workspace, path) },
      }));
      return written(rows, [], some => allRows(treesCsv, some));
    }
    case 'geojson': {
      const rows = files.flatMap(file => {
        const { path } = file;
        const rowOf = judgedTreesOf(snapshot, path, path);
        const found = grouped(checkFile(workspace, file, today), ({ tree }) => tree);
        return asked
          .filter(one => one.path === path)
          .map(({ placed, line, tree: { tag: own } }) => ({
            place: { file: path, line, what: `tree ${own.value}` },
            of: rowOf(placed, found.get(own.value) ?? []),
          }));
      });
      return written(rows, [], some => allRows(treesGeoJson, some));
    }
    case 'jsonl': {
      const facts = files.flatMap(({ path, facts }) =>
        facts.map(placed => ({
          place: { file: path, line: placed.firstLine + 1, what: placed.fact.kind },
          of: { placed, file: path, settings: settingsFor(workspace, path) },
        })),
      );
      return written(facts, [], some => allRows(factsJsonLines, some));
    }
  }
}
