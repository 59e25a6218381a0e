/** Reads photographs as inventories name them, and publishes the findings about them. */

import type { Publisher } from './diagnostics.ts';
import { reasonOf, type Session } from './session.ts';

/** Pause in typing, ms, before the paths in an edited file are looked up. */
const REST = 300;

/** Reads the photographs not read yet; whether anything changed. */
export async function lookUpPhotos({ store, host: { files } }: Session): Promise<boolean> {
  let changed = false;
  if (files.photos)
    for (const { root, paths } of store.photosWanted()) {
      const found = await files.photos(root.base, paths);
      changed = store.photosRead(root.folder, found) || changed;
    }
  return changed;
}

/** Wraps the publisher so that it also reads the photographs named by each change. */
export function withPhotosRead(session: Session, publisher: Publisher): Publisher {
  if (!session.host.files.photos) return publisher;
  const look = async (): Promise<void> => {
    await session.whole;
    if (await lookUpPhotos(session)) publisher.changed(undefined);
  };

  let waiting: ReturnType<typeof setTimeout> | undefined;
  return {
    seen: uri => publisher.seen(uri),
    changed(uri) {
      publisher.changed(uri);
      clearTimeout(waiting);
      waiting = setTimeout(
        () => look().catch(error => session.connection.console.error(`photographs: ${reasonOf(error)}`)),
        uri === undefined ? 0 : REST,
      );
    },
  };
}
