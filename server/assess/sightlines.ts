/** Does a view stay closed, or open, under a prescription? */

import { interval as reading } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Prescription, Tree, View } from '../facts/types.ts';
import { exact, type Interval } from '../mechanics/interval.ts';
import { hiddenShareBounds } from '../mechanics/sight.ts';
import { crownReduction } from './crowns.ts';
import { crownOf } from './load.ts';
import { fellsTree } from './prescriptions.ts';

export interface ViewShare {
  readonly view: View;
  readonly wish: 'hide' | 'open';
  /** Share of what the view names that the crown hides. */
  readonly before: Interval;
  /** Under each prescription asked about. */
  readonly after: Interval | undefined;
}

/** How much each complete view shows before and after; foliage is taken as closed. */
export function viewsUnder(
  tree: Tree,
  prescription: Prescription | undefined,
  settings: Settings,
): readonly ViewShare[] {
  const crown = crownOf(tree, settings);
  if (!crown) return [];
  return tree.views.flatMap((view): ViewShare[] => {
    const wish = view.hide ? 'hide' : 'open';
    const what = view.hide ?? view.open;
    if (!view.eye || !view.away || !what) return [];
    const object = reading(what.object.value, settings);
    const lines = {
      eye: reading(view.eye.value, settings),
      distance: reading(view.away.value, settings),
      bottom: exact(object.low),
      top: exact(object.high),
      beyond: reading(what.beyond.value, settings),
    };
    if (!(object.high > object.low) || !Number.isFinite(object.high) || !(lines.distance.low > 0)) return [];
    const share = (of: typeof crown) => hiddenShareBounds(lines, of);
    let after: Interval | undefined;
    if (prescription && fellsTree(prescription)) after = exact(0);
    else if (prescription) {
      const reduction = crownReduction(tree, prescription, settings);
      if (reduction) {
        after = share({
          base: reduction.change.base ?? crown.base,
          top: reduction.change.top ?? crown.top,
          spread: reduction.change.spread ?? crown.spread,
        });
      }
    }
    return [{ view, wish, before: share(crown), after }];
  });
}
