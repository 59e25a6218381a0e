/** How long a tree may go without an inspection. */

import type { Interval } from '../base/interval.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Site } from '../facts/types.ts';

/** Of a tree without a defect, days: a practice block overrides the site, which overrides the table. */
export function soundInterval(site: Site | undefined, settings: Settings): Interval {
  const { value, origin } = settings.limit('inspection-interval-sound');
  const ofSite = origin.from === 'practice' ? undefined : site?.interval;
  const stated = ofSite && valuesOf(ofSite.value, settings);
  return stated && Number.isFinite(stated.high) ? stated : { low: value, high: value };
}

/** Of one with an open defect, or with a sign that is not within its limits, days. */
export const defectInterval = (site: Site | undefined, settings: Settings): number =>
  Math.min(soundInterval(site, settings).low, settings.limit('inspection-interval').value);
