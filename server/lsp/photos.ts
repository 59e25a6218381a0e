/** Keeps what is known of photographs abreast of what the inventories name; findings follow when it is read. */

import type { Publisher } from './diagnostics.ts';
import { reasonOf, type Session } from './session.ts';

/** How long, in ms, the hand on the keyboard has rested before names in a half-written line are looked up. */
const REST = 300;

/** The publisher, which from now on also has the photographs looked up that changes name. */
export function withPhotosRead(session: Session, publisher: Publisher): Publisher {
  const { connection, store, surroundings } = session;
  const read = surroundings.files.photos?.bind(surroundings.files);
  if (!read) return publisher;

  const look = async (): Promise<void> => {
    await session.ready;
    let isNews = false;
    for (const { root, paths } of store.photosWanted()) {
      const found = await read(root.base, paths);
      isNews = store.photosRead(root.folder, found) || isNews;
    }
    if (isNews) publisher.changed(undefined);
  };

  let waiting: ReturnType<typeof setTimeout> | undefined;
  return {
    changed(uri) {
      publisher.changed(uri);
      clearTimeout(waiting);
      waiting = setTimeout(
        () => look().catch(error => connection.console.error(`photographs: ${reasonOf(error)}`)),
        uri === undefined ? 0 : REST,
      );
    },
  };
}
