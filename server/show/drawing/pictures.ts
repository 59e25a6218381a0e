/** Drawings of a tree's facts: the section at a defect, and the tree in elevation. */

import { crownOf } from '../../assess/load.ts';
import { lengthLike, openWork } from '../../assess/prescriptions.ts';
import { weakestBearing } from '../../assess/section-words.ts';
import { sightedViews } from '../../assess/sightlines.ts';
import { type DefectStrength, lossAt, type Strength } from '../../assess/strength.ts';
import { middle } from '../../base/interval.ts';
import { showQuantity } from '../../base/quantity.ts';
import { valuesOf } from '../../facts/interval.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Prescription, Tree } from '../../facts/types.ts';
import { sectionOutlines } from '../../mechanics/outlines.ts';
import { sectionFigures } from '../../mechanics/section.ts';
import { equivalentDiameter } from '../../mechanics/stem.ts';
import { lossText } from '../figures.ts';
import { type CrownShape, drawElevation } from './elevation.ts';
import { drawSection } from './section.ts';
import { simplifyOutlines } from './simplify.ts';

export interface Picture {
  readonly svg: string;
  readonly description: string;
}

/** The section at its worst; undefined if the readings leave no wood to draw. */
export function sectionPicture(tree: Tree, defect: DefectStrength, strength: Strength): Picture | undefined {
  const { hollow, figures } = defect;
  const name = hollow.defect.id.value;
  try {
    const worst = sectionFigures(figures.worst);
    const { thinnestWall } = worst;
    const axis = weakestBearing(defect);
    const loss = lossText(lossAt(defect, strength));
    const title = `Tree ${tree.tag.value}, ${hollow.defect.kind.value} ${name}`;
    const svg = drawSection({
      title,
      outlines: simplifyOutlines(sectionOutlines(figures.worst)),
      cavities: [{ name, facing: hollow.defect.facing ?? 0 }],
      ...(thinnestWall
        ? {
            thinnestWall: {
              bearing: thinnestWall.bearing,
              text: lengthLike(thinnestWall.thickness, hollow.defect.diameter?.value),
            },
          }
        : {}),
      ...(axis === undefined ? {} : { worstBearing: axis }),
      lossText: loss,
      caption: 'drawn at the worst that the readings allow',
    });
    return { svg, description: `${title}: strength loss ${loss}` };
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

/** The tree before and after the first open prescription; undefined if no crown is recorded. */
export function elevationPicture(tree: Tree, settings: Settings): Picture | undefined {
  const crown = crownOf(tree, settings);
  if (!crown) return undefined;
  const before: CrownShape = {
    base: middle(crown.base),
    top: middle(crown.top),
    spread: middle(crown.spread),
  };
  const prescription = openWork(tree).find(({ height, spread, base }) => height ?? spread ?? base);
  const title = tree.name ? `Tree ${tree.tag.value}, ${tree.name.value}` : `Tree ${tree.tag.value}`;
  const caption = prescription
    ? `shaded: crown now; broken line: after ${prescription.kind.value} ${prescription.id.value}`
    : 'shaded: crown';
  const svg = drawElevation({
    title,
    crown: before,
    ...(prescription ? { after: shapeAfter(before, prescription, settings) } : {}),
    stemDiameter: stemDiameter(tree, settings),
    defects: tree.defects.flatMap(({ id, height, facing, closed }) => {
      if (!height || closed) return [];
      const at = middle(valuesOf(height.value, settings));
      if (!Number.isFinite(at)) return [];
      return [{ name: id.value, height: at, ...(facing === undefined ? {} : { facing }) }];
    }),
    views: sightedViews(tree, settings).map(({ view, lines }) => ({
      name: view.name.value,
      eye: middle(lines.eye),
      away: middle(lines.distance),
      bottom: lines.bottom.low,
      top: lines.top.high,
      beyond: middle(lines.beyond),
    })),
    heightText: metres => lengthLike(metres, tree.height!.value),
    caption,
  });
  return { svg, description: `${title}, ${showQuantity(tree.height!.value)} high` };
}

function shapeAfter(
  before: CrownShape,
  { height, spread, base }: Prescription,
  settings: Settings,
): CrownShape {
  const to = (change: Prescription['height'], was: number) => {
    const value = change ? middle(valuesOf(change.to.value, settings)) : was;
    return Number.isFinite(value) ? value : was;
  };
  return {
    base: to(base, before.base),
    top: to(height, before.top),
    spread: to(spread, before.spread),
  };
}

function stemDiameter({ diameters }: Tree, settings: Settings): number {
  if (diameters.length === 0) return 0;
  const value = middle(equivalentDiameter(diameters.map(({ value }) => valuesOf(value, settings))));
  return Number.isFinite(value) ? value : 0;
}
