/** The page is kept for use without a network; a newer version waits until somebody asks for it. */

/** Asks the service worker that waits to take over. */
export const TAKE_OVER = 'take over';

/** @param offer hears that a newer version waits, and how to load it */
export async function keepPage(offer: (load: () => void) => void): Promise<void> {
  if (!('serviceWorker' in navigator)) return;
  const { serviceWorker } = navigator;
  const registration = await serviceWorker.register('service-worker.js');
  const reload = () => location.reload();
  const tell = (waiting: ServiceWorker) => {
    // The first one has nothing to take over from.
    if (!serviceWorker.controller) return;
    offer(() => {
      serviceWorker.addEventListener('controllerchange', reload, { once: true });
      waiting.postMessage(TAKE_OVER);
    });
  };
  if (registration.waiting) tell(registration.waiting);
  registration.addEventListener('updatefound', () => {
    const { installing } = registration;
    installing?.addEventListener('statechange', () => {
      if (installing.state === 'installed') tell(installing);
    });
  });
  // Another tab loaded the newer version: parts of this one are no longer kept.
  let wasControlled = serviceWorker.controller !== null;
  serviceWorker.addEventListener('controllerchange', () => {
    if (wasControlled) offer(reload);
    wasControlled = true;
  });
}
