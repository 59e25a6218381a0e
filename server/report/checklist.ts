/** The crew's checks before the first cut, from the record of the tree and the work. */

import { conductorName } from '../assess/conductors.ts';
import { showCount } from '../assess/days.ts';
import { isOpen } from '../assess/evidence.ts';
import { permitFor } from '../assess/permits.ts';
import { meetsRoosts, roostFeatures } from '../assess/roosts.ts';
import { formatDate } from '../base/dates.ts';
import { capital, quoted } from '../base/words.ts';
import { quantityText } from '../show/words.ts';
import type { WorkOrder } from './data.ts';
import { defectName, positionWords, speciesOf } from './words.ts';

export function checklistOf({ entry: { tree, site, settings }, prescription }: WorkOrder): readonly string[] {
  const { exclusion, piece, methods, cutDiameter } = prescription;
  const permit = permitFor(tree, prescription);
  const position = tree.position ?? site?.position;
  const validity = Math.floor(settings.limit('nest-check-validity').value);
  const roosts = meetsRoosts(prescription, roostFeatures(tree));
  const weak = tree.parts.filter(({ union }) => union && union.value !== 'sound');
  const defects = tree.defects.filter(isOpen);
  const targets = tree.targets.map(({ name }) => quoted(name.value)).join(', ');
  return [
    `This is tree ${tree.tag.value}, ${speciesOf(tree)}.`,
    `Everyone knows the address for an emergency call${position ? `: ${positionWords(position)}` : ''}, who calls, and who can climb to rescue.`,
    `Checked for nests today, in this tree and those beside it; in the nesting season a check by a qualified person is at most ${showCount(validity)} old.`,
    ...(roosts ? ['Hollows and loose bark checked for bats.'] : []),
    ...(tree.protection || permit
      ? [
          permit && permit.number.value !== 'none'
            ? `Permit ${permit.number.value} is here and covers this work today${permit.until === undefined ? '' : ` (it ends ${formatDate(permit.until)})`}.`
            : 'A permit for this protected tree is here and covers this work today.',
        ]
      : []),
    ...defects.map(defect => `${defectName(defect)} examined: no worse than recorded.`),
    ...weak.map(
      ({ name, union }) =>
        `${capital(`union of ${name.value}`)} (${union!.value}) examined before anyone climbs or ties in above it.`,
    ),
    ...tree.conductors.map(
      conductor =>
        `${capital(`overhead power line ${conductorName(conductor)}`)}: ${conductor.dead ? 'its owner has confirmed today that it is de-energized and grounded' : 'treated as energized'}; distances kept.`,
    ),
    exclusion
      ? `Everyone is kept ${quantityText(exclusion)} from the trunk${targets === '' ? '' : `; ${targets} closed or empty`}.`
      : `The area where wood may fall is closed${targets === '' ? '' : `; ${targets} closed or empty`}.`,
    ...(piece ? ['Rope, anchor and crane are rated for the heaviest piece, shock load included.'] : []),
    ...(cutDiameter
      ? [
          `No cut over ${quantityText(cutDiameter)}${methods.length > 0 ? `; ${methods.map(({ value }) => value).join(', ')}` : ''}.`,
        ]
      : []),
    'Wind, light and wet wood allow the work.',
  ];
}
