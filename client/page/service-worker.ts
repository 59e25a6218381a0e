/** Keeps the page for use without a network. */

import { cleanupOutdatedCaches, precacheAndRoute } from 'workbox-precaching';
import { TAKE_OVER } from './update.ts';

/** The library of types for pages has none of service workers. */
interface Worker {
  skipWaiting(): Promise<void>;
  readonly clients: { claim(): Promise<void> };
  addEventListener(
    type: 'activate',
    listener: (event: { waitUntil(what: Promise<void>): void }) => void,
  ): void;
  addEventListener(type: 'message', listener: (event: { readonly data: unknown }) => void): void;
}
const self = globalThis as unknown as Worker;
/** Put in by the build: the files of the page, each with the hash of its content. */
declare const FILES_OF_PAGE: { readonly url: string; readonly revision: string }[];

// The page that is open goes on with the version that it was loaded from.
self.addEventListener('message', ({ data }) => {
  if (data === TAKE_OVER) void self.skipWaiting();
});
self.addEventListener('activate', event => event.waitUntil(self.clients.claim()));
cleanupOutdatedCaches();
precacheAndRoute(FILES_OF_PAGE, { directoryIndex: 'index.html', ignoreURLParametersMatching: [/^on$/] });
