/** Drone flights recorded by inspections and nest checks. */

import type { Span } from '../../grammar/text.ts';
import type { Quantity } from '../base/quantity.ts';
import type { Settings } from '../facts/settings.ts';
import type { Inspection, Placed, Tree } from '../facts/types.ts';
import type { LawRow } from '../practice/law/law-row.ts';
import type { RegionPack } from '../practice/region-pack.ts';
import { regionPack } from '../practice/regions.ts';

type Flown = NonNullable<Inspection['flown']>;

/** An inspection from a drone. */
export interface Flight {
  readonly inspection: Inspection;
  readonly flown?: Flown;
  /** Position of the flight, else of the head of the inspection. */
  readonly at: Span;
}

export const flights = ({ inspections }: Tree): readonly Flight[] =>
  inspections.flatMap((inspection): Flight[] => {
    const { from, flown } = inspection;
    if (from.value !== 'drone' && !flown) return [];
    return [{ inspection, at: flown ?? inspection.at, ...(flown ? { flown } : {}) }];
  });

/** A flight near the crown, and its distance. */
export interface Approach {
  readonly at: Span;
  readonly day: number;
  readonly standOff?: Placed<Quantity>;
}

/**
 * Inspections and nest checks from a drone. An inspection and a nest check on one day are one flight, so the one
 * without stand-off is omitted.
 */
export function dronesNearCrown(tree: Tree): readonly Approach[] {
  const checks = tree.nestChecks
    .filter(({ from }) => from.value === 'drone')
    .map(({ at, date, standOff }) => near(at, date.value, standOff));
  const inspections = flights(tree).map(({ at, inspection, flown }) =>
    near(at, inspection.date.value, flown?.standOff),
  );
  const stated = [...inspections, ...checks].filter(({ standOff }) => standOff);
  const unstated = [...checks, ...inspections].filter(
    ({ day, standOff }, i, all) =>
      !standOff &&
      !stated.some(other => other.day === day) &&
      all.findIndex(other => other.day === day) === i,
  );
  return [...stated, ...unstated];
}

const near = (at: Span, day: number, standOff: Placed<Quantity> | undefined): Approach => ({
  at: standOff ?? at,
  day,
  ...(standOff ? { standOff } : {}),
});

/** Whether the law of the United States holds: there, and where no region is stated. */
export const isUnderPart107 = ({ region, regionApplied }: Settings): boolean =>
  regionApplied === 'unstated' || /^US(?:-|$)/.test(region.code);

/** What the place says of one field of the rules on drones; undefined without a row. */
export function droneLaw<Field extends keyof RegionPack['drone']>(
  settings: Settings,
  field: Field,
):
  | {
      readonly value: NonNullable<RegionPack['drone'][Field]>['value'];
      readonly authority: string;
      readonly level?: 'warning';
    }
  | undefined {
  const pack =
    isUnderPart107(settings) && settings.regionApplied === 'unstated'
      ? regionPack('US').pack
      : settings.region;
  const found = pack.drone[field];
  if (!found) return undefined;
  const { row, value } = found;
  const { words, level } = certainty(row);
  return { value, authority: `${row.source}${words}`, ...(level ? { level } : {}) };
}

/** What was not read, or only in part, is never an error. */
export function certainty({ read, doubt }: LawRow): { readonly words: string; readonly level?: 'warning' } {
  if (read === 'text' || read === 'older text') return { words: '' };
  return {
    words: `, ${read === 'in part' ? (doubt ?? 'in part from memory') : 'from memory'}`,
    level: 'warning',
  };
}
