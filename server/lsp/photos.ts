/** Keeps what is known of photographs abreast of what the inventories name; findings follow when it is read. */

import type { Publisher } from './diagnostics.ts';
import { reasonOf, type Session } from './session.ts';

/** How long, in ms, the hand on the keyboard has rested before names in a half-written line are looked up. */
const REST = 300;

/** Looks up the photographs that nobody looked up yet; whether that brought news. */
export async function lookUpPhotos({ store, host: { files } }: Session): Promise<boolean> {
  let isNews = false;
  if (files.photos)
    for (const { root, paths } of store.photosWanted()) {
      const found = await files.photos(root.base, paths);
      isNews = store.photosRead(root.folder, found) || isNews;
    }
  return isNews;
}

/** The publisher, which from now on also has the photographs looked up that changes name. */
export function withPhotosRead(session: Session, publisher: Publisher): Publisher {
  if (!session.host.files.photos) return publisher;
  const look = async (): Promise<void> => {
    await session.ready;
    if (await lookUpPhotos(session)) publisher.changed(undefined);
  };

  let waiting: ReturnType<typeof setTimeout> | undefined;
  return {
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
