/** The report on a folder and the pages on rules, limits and words, see requests.ts. */

import type { CancellationToken } from 'vscode-languageserver';
import { photosOf } from '../facts/photos.ts';
import { namedThings, pageOn } from '../language/explained.ts';
import { NAMES, PAGE, type PageParams, REPORT } from './requests.ts';
import { answering, cancelled, Pace, type Session, snapshotOf } from './session.ts';
import type { Root } from './store.ts';
import { normalizeUri } from './uris.ts';

export function registerReport(session: Session): void {
  const { connection, store } = session;
  const rootOf = (uri: string): Root | undefined =>
    store.find(uri)?.root ?? store.all().find(({ folder }) => folder === normalizeUri(uri));
  const report = async ({ uri }: { readonly uri: string }, token: CancellationToken) => {
    const root = rootOf(uri);
    if (!root) return null;
    // Loaded where somebody asks for it.
    const [{ READERS }, { reportPage }] = await Promise.all([
      import('../report/data.ts'),
      import('../report/inventory-report.ts'),
    ]);
    const { page, left } = await Pace.inFront(pace =>
      reportPage(snapshotOf(session, root), {
        files: store.filesOf(root),
        readers: READERS,
        unread: [],
        shown: path => path,
        photosOf: async tree =>
          [...new Set(photosOf(tree).map(({ path }) => path))].map(path => ({
            path,
            image: { missing: 'is not shown in the editor' },
          })),
        weighed: async () => {
          await pace.pause();
          if (token.isCancellationRequested) throw cancelled();
        },
      }),
    );
    for (const { file, message } of left) connection.console.error(`${REPORT}: ${file} ${message}`);
    return page;
  };
  connection.onRequest(REPORT, answering(session, REPORT, report, 'whole'));
  connection.onRequest(
    PAGE,
    answering(session, PAGE, ({ name }: PageParams) => pageOn(name) ?? null),
  );
  connection.onRequest(NAMES, answering(session, NAMES, namedThings));
}
