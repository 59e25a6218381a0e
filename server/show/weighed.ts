/** A tree to be weighed, and the sections of what is said of it. */

import type { Assessment } from '../assess/assessment.ts';
import type { StemSafety } from '../assess/safety.ts';
import type { DefectStrength } from '../assess/strength.ts';
import type { Settings } from '../facts/settings.ts';
import type { Site, Tree } from '../facts/types.ts';
import { quantityText } from './words.ts';

export interface Weighed {
  readonly tree: Tree;
  /** Path as shown to the reader. */
  readonly file: string;
  readonly site?: Site | undefined;
  readonly settings: Settings;
  readonly assessment: Assessment;
  /** Present if species and design wind are known. */
  readonly safety?: StemSafety | undefined;
}

/** A table, with a head if its columns have names, then paragraphs. */
export interface WeighSection {
  readonly heading: string;
  readonly head?: readonly string[];
  readonly rows?: readonly (readonly string[])[];
  readonly lines?: readonly string[];
}

export const NOTHING = '–';

/** `A decay, 3 ft`. */
export const placeOf = ({ hollow: { defect } }: DefectStrength): string => {
  const { id, kind, height, part } = defect;
  const where = [part && part.value !== 'trunk' ? part.value : undefined, quantityText(height)].filter(
    Boolean,
  );
  return `${id.value} ${kind.value}${where.length > 0 ? `, ${where.join(' ')}` : ''}`;
};
