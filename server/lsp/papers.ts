/** What the program writes of an inventory, for clients without the program; see requests.ts. */

import { type LocatedItem, showSound } from '../assess/not-computed.ts';
import { settingsFor, siteOf } from '../facts/workspace.ts';
import { showCalendar } from '../show/calendar.ts';
import { treesCsv } from '../show/export-csv.ts';
import { treesGeoJson } from '../show/export-geojson.ts';
import { factsJsonLines } from '../show/export-jsonl.ts';
import { showHistories } from '../show/history.ts';
import { calendarTrees, histories, treesIn, weighedTrees } from '../show/papers.ts';
import { allRows } from '../show/row-form.ts';
import { plain } from '../show/terminal.ts';
import { showWeighed } from '../show/weigh.ts';
import { PAPER, type Paper, type PaperKind, type PaperParams } from './requests.ts';
import { answering, type Session, snapshotOf } from './session.ts';
import { normalizeUri } from './uris.ts';

const FILES: Record<PaperKind, readonly [name: string, mediaType: string]> = {
  weigh: ['options.txt', 'text/plain'],
  history: ['history.txt', 'text/plain'],
  calendar: ['calendar.ics', 'text/calendar'],
  csv: ['trees.csv', 'text/csv'],
  geojson: ['trees.geojson', 'application/geo+json'],
  jsonl: ['facts.jsonl', 'application/jsonl'],
};

export function registerPapers(session: Session): void {
  const { connection, store } = session;
  const paper = async ({ uri, kind, tag }: PaperParams): Promise<Paper | null> => {
    const root = store.find(uri)?.root ?? store.all().find(({ folder }) => folder === normalizeUri(uri));
    const known = FILES[kind];
    if (!root || !known) return null;
    const snapshot = snapshotOf(session, root);
    const { workspace, today } = snapshot;
    const files = store.filesOf(root);
    const asked = treesIn(files, today).filter(({ tree }) => tag === undefined || tree.tag.value === tag);
    const nameOf = (path: string) => path;
    const written = async <T>(
      items: readonly LocatedItem<T>[],
      faulty: readonly { readonly what: string; readonly message: string }[],
      show: (some: readonly T[]) => string,
    ): Promise<Paper> => {
      const { shown, left } = await showSound(items, show);
      const [name, mediaType] = known;
      const problems = [...faulty, ...left].map(({ what, message }) => `${what}: ${message}`);
      return { name, mediaType, text: shown, problems };
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
      case 'csv':
      case 'geojson': {
        const rows = asked.map(({ path, placed, line, tree }) => ({
          place: { file: path, line, what: `tree ${tree.tag.value}` },
          of: { placed, file: path, site: siteOf(workspace, path), settings: settingsFor(workspace, path) },
        }));
        return written(rows, [], some => allRows(kind === 'csv' ? treesCsv : treesGeoJson, some));
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
  };
  connection.onRequest(PAPER, answering(session, PAPER, paper, 'whole'));
}
