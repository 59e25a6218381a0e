/** Words for facts of a record that `weigh` and the report share. */

import { formatDate } from '../base/dates.ts';
import { type Quantity, showQuantity } from '../base/quantity.ts';
import type { Placed, Tree } from '../facts/types.ts';

/** The quantity as its writer wrote it; undefined if it is not recorded. */
export const quantityText = (quantity: Placed<Quantity> | undefined): string | undefined =>
  quantity && showQuantity(quantity.value);

/** The quantity within a phrase, as one item; no item if it is not recorded. */
export const phrase = (
  quantity: Placed<Quantity> | undefined,
  words: (value: string) => string,
): readonly string[] => (quantity ? [words(showQuantity(quantity.value))] : []);

/**
 * `dbh 41 in`, `height 52 ft`, `crown from 14 ft and 58 ft wide`, `mature`, `vigor fair`.
 * @param and between several diameters and between the measures of the crown
 */
export function sizeItems(
  { diameters, height, crownBase, crownSpread, planted, felled, age, vigor, stressed }: Tree,
  and: string,
): readonly string[] {
  const crown = [
    ...phrase(crownBase, value => `from ${value}`),
    ...phrase(crownSpread, value => `${value} wide`),
  ];
  return [
    diameters.length > 0 ? `dbh ${diameters.map(quantityText).join(and)}` : 'dbh not measured',
    height ? `height ${quantityText(height)}` : 'height not measured',
    crown.length > 0 ? `crown ${crown.join(and)}` : 'crown not measured',
    ...(planted ? [`planted ${formatDate(planted.value)}`] : []),
    ...(felled ? [`felled ${formatDate(felled.value)}`] : []),
    ...(age ? [age.value] : []),
    ...(vigor ? [`vigor ${vigor.value}`] : []),
    ...(stressed ? [`stressed by ${stressed.cause}`] : []),
  ];
}
