/** Names of hollows in findings. */

import { showQuantity } from '../base/quantity.ts';
import type { Hollow } from './hollows.ts';

/** `Cavity A (18 ft up)`. */
export function showHollow({ defect: { id, kind, height } }: Hollow): string {
  const name = `${kind.value.charAt(0).toUpperCase()}${kind.value.slice(1)} ${id.value}`;
  return height ? `${name} (${showQuantity(height.value)} up)` : name;
}
