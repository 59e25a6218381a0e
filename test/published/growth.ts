/** Trees measured again and again: the middle of our range of rates is the mean of the published measurements. */

import { growthRates } from '../../server/assess/growth.ts';
import { middle } from '../../server/base/interval.ts';
import { dayContext } from '../assess/inventory.ts';
import type { PublishedCheck } from './published-check.ts';

/** Of an inventory with a size on two days. */
function rate(field: string, from: string, to: string): number | undefined {
  const { tree, site, settings } = dayContext(
    `tree 1\n  inspection ${from} from ground\n    ${field.split('|')[0]}\n  inspection ${to} from ground\n    ${field.split('|')[1]}\n`,
  );
  const [growth] = growthRates(tree, site, settings);
  return growth && middle(growth.rate);
}

/** Circumference of five orange trees, mm, after 118 and 1582 days from the end of 1968. */
const ORANGES = [
  [1, 30, 145],
  [2, 33, 203],
  [3, 30, 140],
  [4, 32, 214],
  [5, 30, 177],
] as const;

/** Heights of loblolly pines, ft, at 10 and 25 years. */
const PINES = [['301', 28.72, 60.92]] as const;

export const growthChecks: readonly PublishedCheck[] = [
  ...ORANGES.map(
    ([tree, from, to]): PublishedCheck => ({
      name: `Orange tree ${tree}, circumference ${from} mm, 1464 days later ${to} mm: diameter growth a year`,
      source: 'Draper and Smith 1998, exercise 24.N, in a copy of the data',
      expected: ((to - from) / Math.PI / 1464) * 365.2425,
      tolerance: 0.01,
      unit: 'mm',
      compute: () => {
        const found = rate(`girth ${from} mm|girth ${to} mm`, '1969-04-28', '1973-05-01');
        return found === undefined ? undefined : 1000 * found;
      },
    }),
  ),
  ...PINES.map(
    ([seed, from, to]): PublishedCheck => ({
      name: `Loblolly pine of seed ${seed}, ${from} ft at 10 years, ${to} ft at 25: height growth a year`,
      source: 'Kung 1986, from memory',
      expected: (to - from) / 15,
      tolerance: 0.001,
      unit: 'ft',
      compute: () => {
        const found = rate(`height ${from} ft|height ${to} ft`, '2001-04-01', '2016-04-01');
        return found === undefined ? undefined : found / 0.3048;
      },
    }),
  ),
];
