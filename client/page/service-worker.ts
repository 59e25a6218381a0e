/** Keeps the page for use without a network. */

import { cleanupOutdatedCaches, precacheAndRoute } from 'workbox-precaching';

/** The library of types for pages has none of service workers. */
interface Worker {
  skipWaiting(): Promise<void>;
  readonly clients: { claim(): Promise<void> };
  addEventListener(
    type: 'install' | 'activate',
    listener: (event: { waitUntil(what: Promise<void>): void }) => void,
  ): void;
}
const self = globalThis as unknown as Worker;
/** Put in by the build: the files of the page, each with the hash of its content. */
declare const FILES_OF_PAGE: { readonly url: string; readonly revision: string }[];

self.addEventListener('install', event => event.waitUntil(self.skipWaiting()));
self.addEventListener('activate', event => event.waitUntil(self.clients.claim()));
cleanupOutdatedCaches();
precacheAndRoute(FILES_OF_PAGE, { directoryIndex: 'index.html', ignoreURLParametersMatching: [/^on$/] });
