/** Views under open prescriptions, and shared wording of their rules. */

import { showQuantity } from '../base/quantity.ts';
import type { Settings } from '../facts/settings.ts';
import type { Prescription, Tree } from '../facts/types.ts';
import { openPrescriptions } from './jobs.ts';
import { type ViewShare, viewsUnder } from './sightlines.ts';

export interface ViewChange extends ViewShare {
  readonly prescription: Prescription;
  readonly after: NonNullable<ViewShare['after']>;
}

/** Every view to be screened, or opened, under every open prescription that changes the crown. */
export function viewChanges(tree: Tree, wish: ViewShare['wish'], settings: Settings): readonly ViewChange[] {
  if (!tree.views.some(view => view[wish] !== undefined) || tree.prescriptions.length === 0) return [];
  return openPrescriptions(tree).flatMap(prescription =>
    viewsUnder(tree, prescription, settings).flatMap(share =>
      share.wish === wish && share.after ? [{ ...share, after: share.after, prescription }] : [],
    ),
  );
}

/** `0..24 ft, 140 ft beyond`. */
export function whatIsSeen({ view, wish }: ViewShare): string {
  const { object, beyond } = view[wish]!;
  return `${showQuantity(object.value)}, ${showQuantity(beyond.value)} beyond`;
}

export const VIEW_CAUTION =
  'The foliage is assumed to be closed, and the crown wide enough. Check gaps, leaf fall and other trees from the viewpoint.';
