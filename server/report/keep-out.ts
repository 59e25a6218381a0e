/** Who must be kept out of which area today. */

import { isRatedExtreme } from '../assess/emergency.ts';
import { holdsPeople, reachOf } from '../assess/reach.ts';
import { isMoving } from '../assess/standing.ts';
import { listed, quoted } from '../base/words.ts';
import type { ReportTree } from './data.ts';

/** Undefined where nothing is failing, no risk is rated extreme, or everybody is kept out already. */
export function keepOut(
  { tree, assessment: { signs }, settings }: ReportTree,
  on: number,
): { readonly where: string; readonly why: string } | undefined {
  const moving = signs.filter(isMoving);
  const extreme = isRatedExtreme(tree);
  if (tree.felled || (moving.length === 0 && !extreme)) return undefined;
  const open = reachOf(tree, settings, on).open.filter(holdsPeople);
  if (open.length === 0 && tree.targets.length > 0) return undefined;
  return {
    where: open.length > 0 ? listed(open.map(({ name }) => quoted(name.value))) : 'its reach',
    why: listed([
      ...moving.map(({ name, why }) => `${name}, ${why}`),
      ...(extreme ? ['a risk rated extreme'] : []),
    ]),
  };
}
