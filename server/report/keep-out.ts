/** Who must be kept out of which area today. */

import { isRatedExtreme } from '../assess/emergency.ts';
import { imminentParts } from '../assess/likelihood.ts';
import { lengthUp } from '../assess/prescriptions.ts';
import { firstClosureEnd, holdsPeople, reachOf, targetsInReach } from '../assess/reach.ts';
import { isMoving } from '../assess/standing.ts';
import { formatDate } from '../base/dates.ts';
import { listed, quoted } from '../base/words.ts';
import type { Tree } from '../facts/types.ts';
import type { ReportTree } from './data.ts';

/** Undefined where nothing is failing or about to and no risk is rated extreme, or no target is in reach. */
export function keepOut(
  { tree, site, assessment: { signs }, settings }: ReportTree,
  on: number,
): { readonly where: string; readonly why: string } | undefined {
  const moving = signs.filter(isMoving);
  const imminent = imminentParts({ tree, site, settings }).flatMap(({ sign }) =>
    sign && !moving.includes(sign) ? [sign] : [],
  );
  const extreme = isRatedExtreme(tree);
  if (tree.felled || (moving.length + imminent.length === 0 && !extreme)) return undefined;
  const { targets, open: reached } = reachOf(tree, settings, on);
  if (targets === 'out of reach') return undefined;
  const near = targets === 'closed' ? targetsInReach(tree, settings) : [];
  const end = firstClosureEnd(near);
  // A power line or a wall on record does not say that nobody passes.
  const open = reached.filter(holdsPeople);
  return {
    where:
      [...open, ...near].length > 0
        ? listed([...open, ...near].map(({ name }) => quoted(name.value)))
        : reachWords(tree),
    why: `${[
      ...moving.map(({ name, why }) => `${name}, ${why}`),
      ...imminent.map(({ name }) => `${name}, failure imminent`),
      ...(extreme ? ['a risk rated extreme'] : []),
    ].join(
      '; ',
    )}${near.length > 0 ? `. Closed already${end < Infinity ? ` until ${formatDate(end)}` : ''}: keep it closed until the danger is gone` : ''}`,
  };
}

/** Pieces roll and slide farther than the tree is tall. */
function reachWords({ height }: Tree): string {
  const most = height && lengthUp(height.value.high, height.value);
  return most === undefined ? 'its reach' : `its reach, at least ${most} all round`;
}
