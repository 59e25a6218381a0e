/** What the program writes of an inventory, for clients without the program; see requests.ts. */

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
  const paper = async (params: PaperParams): Promise<Paper | null> => {
    const { uri, kind } = params;
    const root = store.find(uri)?.root ?? store.all().find(({ folder }) => folder === normalizeUri(uri));
    const known = FILES[kind];
    if (!root || !known) return null;
    const { writePaper } = await import('./paper.ts');
    const [name, mediaType] = known;
    return {
      name,
      mediaType,
      ...(await writePaper(snapshotOf(session, root), store.filesOf(root), params)),
    };
  };
  connection.onRequest(PAPER, answering(session, PAPER, paper, 'whole'));
}
