/** Computed figures of a tree, by name, for comparison before and after. */

import { anchorageLeft } from '../assess/anchorage-left.ts';
import { loadUnder } from '../assess/load.ts';
import { lossAt, strengthOf } from '../assess/strength.ts';
import type { Interval } from '../base/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Site, Tree } from '../facts/types.ts';

export interface TreeFigure {
  readonly what: 'strength loss' | 'stress ratio' | 'anchorage left';
  /** `defect A`, `defect A under R1`. */
  readonly at: string;
  /** Share of one. */
  readonly value: Interval;
}

/** Figures by `what at`; none for withdrawn prescriptions. */
export function figuresOf(
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
): ReadonlyMap<string, TreeFigure> {
  const figures = new Map<string, TreeFigure>();
  const add = (figure: TreeFigure) => figures.set(`${figure.what} ${figure.at}`, figure);
  const strength = strengthOf(tree, settings);
  for (const defect of strength.defects) {
    const at = `defect ${defect.hollow.defect.id.value}`;
    add({ what: 'strength loss', at, value: lossAt(defect, strength) });
  }
  const left = anchorageLeft(tree, site, settings)?.share;
  if (left) add({ what: 'anchorage left', at: 'of the roots', value: left });
  for (const prescription of tree.prescriptions) {
    if (prescription.withdrawn) continue;
    for (const { defect, stressRatio } of loadUnder(tree, prescription, strength, site, settings)?.sections ??
      []) {
      const at = `defect ${defect.hollow.defect.id.value} under ${prescription.id.value}`;
      add({ what: 'stress ratio', at, value: stressRatio });
    }
  }
  return figures;
}
