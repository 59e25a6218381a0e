/** What nobody recorded of a line, as the end of a remedy. */

import type { Conductor } from '../facts/types.ts';
import type { ApproachRule } from '../practice/law/law-row.ts';

/** What is missing to tell the distance by these tables; more where it would decide the standing. */
export function missingReadings(
  { voltage, reference, distance, aside, phases }: Conductor,
  rules: readonly ApproachRule[],
  standing: 'exceeds' | 'may exceed' | 'within',
  isAltitudeStated = true,
): string {
  const decides = standing === 'may exceed';
  const missing = [
    ...(voltage && Number.isFinite(voltage.value.high) ? [] : ['ask the line’s owner for the voltage']),
    ...(distance && Number.isFinite(distance.value.high)
      ? []
      : ['have the distance measured from the ground']),
    ...(decides && voltage && !reference ? ['say whether the voltage is between phases or to ground'] : []),
    ...(decides && !aside && rules.some(({ shape }) => shape === 'column')
      ? ['say how far the work is to the side of the line (aside)']
      : []),
    ...(decides && !phases && rules.some(({ betweenPhases }) => betweenPhases)
      ? ['say how many phases are within reach (phases)']
      : []),
    ...(decides && !isAltitudeStated && rules.some(({ altitude }) => altitude)
      ? ['state the altitude of the site']
      : []),
  ];
  return missing.length > 0 ? `; ${missing.join(', and ')}` : '';
}
