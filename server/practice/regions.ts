/**
 * Regional data: seasons, laws, disease windows, breast height. A season is custom unless its citation is a statute.
 * Local ordinances and permits are additional and must be stated in the inventory.
 */

import type { RegionPack } from './region-pack.ts';
import { defaultPack, otherPacks } from './regions-other.ts';
import { unitedStatesPacks } from './regions-us.ts';

/** All packs except the default. Each is complete: what a subdivision does not change is copied from its country. */
export const regionPacks: readonly RegionPack[] = [...unitedStatesPacks, ...otherPacks];

const byCode = new Map(regionPacks.map(pack => [pack.code, pack]));

export interface AppliedRegion {
  readonly requested: string | undefined;
  readonly pack: RegionPack;
  /** `country` for a subdivision without a pack of its own. */
  readonly applied: 'exact' | 'country' | 'default';
}

/**
 * The pack for an ISO 3166 code: of the subdivision (`US-OR`), else of its country (`US`), else the default, also for
 * an unknown code. Case-insensitive.
 */
export function regionPack(code: string | undefined): AppliedRegion {
  const wanted = code?.toUpperCase();
  const exact = wanted === undefined ? undefined : byCode.get(wanted);
  if (exact) return { requested: code, pack: exact, applied: 'exact' };
  const country = byCode.get(wanted?.split('-')[0] ?? '');
  return country
    ? { requested: code, pack: country, applied: 'country' }
    : { requested: code, pack: defaultPack, applied: 'default' };
}
