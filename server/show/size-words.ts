/** The sizes of a tree, its age and its vigor, in words. */

import { formatDate } from '../base/dates.ts';
import { type Quantity, showQuantity } from '../base/quantity.ts';
import type { Placed, Tree } from '../facts/types.ts';

const say = ({ value }: Placed<Quantity>): string => showQuantity(value);

/**
 * `dbh 41 in`, `height 52 ft`, `crown from 14 ft, 58 ft wide`, `mature`, `vigor fair`.
 * @param and what is between the diameters of several stems, and between base and spread of the crown
 */
export function sizeWords(tree: Tree, and: ', ' | ' and '): readonly string[] {
  const { diameters, height, crownBase, crownSpread, planted, age, vigor, stressed } = tree;
  const crown = [
    ...(crownBase ? [`from ${say(crownBase)}`] : []),
    ...(crownSpread ? [`${say(crownSpread)} wide`] : []),
  ];
  return [
    diameters.length > 0 ? `dbh ${diameters.map(say).join(and)}` : 'dbh not measured',
    height ? `height ${say(height)}` : 'height not measured',
    crown.length > 0 ? `crown ${crown.join(and)}` : 'crown not measured',
    ...(planted ? [`planted ${formatDate(planted.value)}`] : []),
    ...(age ? [age.value] : []),
    ...(vigor ? [`vigor ${vigor.value}`] : []),
    ...(stressed ? [`stressed by ${stressed.cause}`] : []),
  ];
}
