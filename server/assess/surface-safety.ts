/** The stem in the design wind at a canker, a wound or a crack: its section without the wood that is lost there. */

import { clip, type Interval, interval } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, Site, Tree } from '../facts/types.ts';
import { SPLIT } from '../mechanics/lost-sector.ts';
import type { OuterEdge } from '../mechanics/section-types.ts';
import { BUTT_HEIGHT, outerWoodLoss } from './defect-verdict.ts';
import { isDead } from './doses.ts';
import { openDefects } from './evidence.ts';
import { hollowOf } from './hollows.ts';
import { isOnLimb } from './load.ts';
import { weightDoubt } from './own-weight.ts';
import type { PartSafety } from './part-safety.ts';
import type { SignContext } from './standing.ts';
import { sectionSafety, stemEvidence } from './stem-section.ts';

const NONE: readonly PartSafety[] = [];

/** Where height, diameter and loss are known; none for most trees. */
export const surfaceParts = memo(
  (tree: Tree, site: Site | undefined, settings: Settings): readonly PartSafety[] => {
    const context = { tree, site, settings };
    const lost = openDefects(tree).flatMap(defect => {
      const loss = isOnLimb(tree, defect) ? undefined : lossOf(defect, context);
      return loss ? [{ defect, loss }] : [];
    });
    if (lost.length === 0) return NONE;
    const evidence = stemEvidence(tree, site, settings);
    if (!evidence?.wind || isDead(tree)) return NONE;
    return lost.flatMap(({ defect, loss }): readonly PartSafety[] => {
      const height = defect.height && valuesOf(defect.height.value, settings);
      const edge = edgeOf(defect, context);
      if (!height || !edge || !(height.low >= 0 && height.high < evidence.crown.top.low)) return [];
      const stem = tree.parts.find(({ kind, name }) => kind === 'stem' && name.value === defect.part?.value);
      const section = sectionSafety(tree, evidence, edge, height, settings, stem !== undefined);
      const factors = section.factors(clip(loss, interval(0, 1)));
      if (!factors) return [];
      const { judged, criticalWind, weak } = factors;
      const doubt = weightDoubt(tree, defect.part?.value, settings);
      return [
        {
          part: 'stem',
          subject: defect.id.value,
          factor: judged.value,
          criticalWind,
          judgedBy: 'the stem in the design wind',
          weak,
          ...(doubt ? { notJudged: doubt } : {}),
        },
      ];
    });
  },
);

/** A crack parts the section only if it runs right through. */
function lossOf(defect: Defect, context: SignContext): Interval | undefined {
  if (defect.kind.value !== 'crack') return outerWoodLoss(defect, context)?.loss;
  return defect.runs?.course === 'through' ? interval(1 - SPLIT.high, 1 - SPLIT.low) : undefined;
}

/** The diameter there, else near the ground that at breast height. */
function edgeOf(defect: Defect, { tree, settings }: SignContext): OuterEdge<Interval> | undefined {
  const own = hollowOf(defect, tree, settings)?.outer;
  if (own) return own;
  const [dbh, ...others] = tree.diameters;
  const isLow = defect.height !== undefined && valuesOf(defect.height.value, settings).high <= BUTT_HEIGHT;
  if (!dbh || others.length > 0 || !isLow) return undefined;
  return hollowOf({ ...defect, diameter: dbh }, tree, settings)?.outer;
}
