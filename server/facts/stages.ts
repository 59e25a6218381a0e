/** The stages of a prescription, and which of them are done. */

import type { Prescription, Tree } from './types.ts';

/** Number of seasons, 1 by default. */
export const stagesOf = ({ stages }: Prescription): number =>
  stages === undefined || !(stages.value.low > 1) ? 1 : Math.floor(stages.value.low);

/** Stages without recorded work that finished them. */
export const stagesLeft = ({ works }: Pick<Tree, 'works'>, prescription: Prescription): number =>
  Math.max(
    0,
    stagesOf(prescription) -
      works.filter(
        ({ prescription: { value }, unfinished }) => !unfinished && value === prescription.id.value,
      ).length,
  );
