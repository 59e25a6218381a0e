/**
 * What the place changes: seasons, laws, disease windows, the height at which stems are measured. Law and
 * custom are kept apart: a season is custom unless its citation is a statute. Local ordinances and permits
 * come on top and are the writer's to state.
 */

import type { RegionPack } from './region-pack.ts';
import { defaultPack, otherPacks } from './regions-other.ts';
import { unitedStatesPacks } from './regions-us.ts';

/** Every pack but the default, by code; each is whole, what it does not change is its country's. */
export const regionPacks: readonly RegionPack[] = [...unitedStatesPacks, ...otherPacks];

const byCode = new Map(regionPacks.map(pack => [pack.code, pack]));

export interface AppliedRegion {
  readonly requested: string | undefined;
  readonly pack: RegionPack;
  /** `exact`, or what stood in: the country for a subdivision without a pack, or the default. */
  readonly applied: 'exact' | 'country' | 'default';
}

/**
 * The pack for an ISO 3166 code: of the subdivision (`US-OR`), else of its country (`US`), else the default.
 * Case does not matter; an unknown code is no error here.
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

/** The windows of a pack that close to a genus. */
export const pruningWindowsFor = (pack: RegionPack, genus: string) =>
  pack.pruning.filter(({ genera }) => genera.includes(genus));
