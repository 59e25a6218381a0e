/** Flights with a drone, as inspections and nest checks record them. */

import type { Span } from '../../grammar/text.ts';
import type { Quantity } from '../base/quantity.ts';
import type { Settings } from '../facts/settings.ts';
import type { Inspection, Placed, Tree } from '../facts/types.ts';

type Flown = NonNullable<Inspection['flown']>;

/** An inspection from a drone; where its flight was not written down only the head stands. */
export interface Flight {
  readonly inspection: Inspection;
  readonly flown?: Flown;
  /** The flight's line, else the head of the inspection. */
  readonly at: Span;
}

export const flights = ({ inspections }: Tree): readonly Flight[] =>
  inspections.flatMap((inspection): Flight[] => {
    const { from, flown } = inspection;
    if (from.value !== 'drone' && !flown) return [];
    return [{ inspection, at: flown ?? inspection.at, ...(flown ? { flown } : {}) }];
  });

/** A time at which a drone was near the crown, and how near it came. */
export interface Approach {
  readonly at: Span;
  readonly day: number;
  readonly standOff?: Placed<Quantity>;
}

/**
 * Inspections and nest checks from a drone. Of an inspection and a nest check on one day that one is left out
 * whose stand-off nobody wrote: they are one flight.
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

/** 14 CFR Part 107 is the law of the United States; elsewhere what it forbids is a caution. */
export function flightLaw({ region, regionApplied }: Settings): {
  readonly level?: 'warning';
  readonly where: string;
} {
  const unitedStates = regionApplied === 'unstated' || /^US(?:-|$)/.test(region.code);
  return unitedStates ? { where: '' } : { level: 'warning', where: ', the law of the United States' };
}
