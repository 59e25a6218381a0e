/** Effect of prescriptions on views. */

import { exact, type Interval } from '../base/interval.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Prescription, Tree, View } from '../facts/types.ts';
import type { Crown } from '../mechanics/crown.ts';
import { hiddenShareBounds, type SightLine } from '../mechanics/sight.ts';
import { crownReduction } from './crowns.ts';
import { crownOf } from './load.ts';
import { fellsTree } from './prescriptions.ts';

/** A view as a sight line, and whether it is to be screened or opened. */
export interface SightedView {
  readonly view: View;
  readonly wish: 'hide' | 'open';
  readonly lines: SightLine<Interval>;
}

export interface ViewShare extends SightedView {
  /** Share of the object that the crown hides. */
  readonly before: Interval;
  /** The same under the prescription; undefined if it does not change the crown. */
  readonly after: Interval | undefined;
}

/** Views with enough data for a sight line. */
export function sightedViews({ views }: Tree, settings: Settings): readonly SightedView[] {
  return views.flatMap((view): SightedView[] => {
    const what = view.hide ?? view.open;
    if (!view.eye || !view.away || !what) return [];
    const object = valuesOf(what.object.value, settings);
    const lines = {
      eye: valuesOf(view.eye.value, settings),
      distance: valuesOf(view.away.value, settings),
      bottom: exact(object.low),
      top: exact(object.high),
      beyond: valuesOf(what.beyond.value, settings),
    };
    const drawn =
      object.high > object.low &&
      object.low >= 0 &&
      lines.eye.low >= 0 &&
      lines.distance.low > 0 &&
      lines.beyond.low >= 0 &&
      Object.values(lines).every(({ high }) => Number.isFinite(high));
    return drawn ? [{ view, wish: view.hide ? 'hide' : 'open', lines }] : [];
  });
}

/** Share of the object that a crown hides, with opaque foliage; 0 without a crown. */
export function hiddenBy({ lines }: SightedView, crown: Crown<Interval>): Interval {
  return crown.base.low < crown.top.high ? hiddenShareBounds(lines, crown) : exact(0);
}

/** Hidden share of each view, before and under a prescription. */
export function viewsUnder(
  tree: Tree,
  prescription: Prescription | undefined,
  settings: Settings,
): readonly ViewShare[] {
  if (tree.views.length === 0) return [];
  const crown = crownOf(tree, settings);
  if (!crown) return [];
  const after = prescription && crownUnder(tree, prescription, crown, settings);
  return sightedViews(tree, settings).map(sighted => ({
    ...sighted,
    before: hiddenBy(sighted, crown),
    after: after === 'none' ? exact(0) : after && hiddenBy(sighted, after),
  }));
}

function crownUnder(
  tree: Tree,
  prescription: Prescription,
  crown: Crown<Interval>,
  settings: Settings,
): Crown<Interval> | 'none' | undefined {
  if (fellsTree(prescription)) return 'none';
  const reduction = crownReduction(tree, prescription, settings);
  return (
    reduction && {
      base: reduction.change.base ?? crown.base,
      top: reduction.change.top ?? crown.top,
      spread: reduction.change.spread ?? crown.spread,
    }
  );
}
