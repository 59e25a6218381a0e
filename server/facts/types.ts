/** The types of facts: what the text says, typed and without judgement. Printed from the tables, with short names. */

import type {
  Crew,
  Defect,
  Inspection,
  Person,
  Practice,
  Prescription,
  Site,
  Tree,
} from './facts.generated.ts';
import type { Unread } from './placed.ts';

export type * from './facts.generated.ts';
export type * from './placed.ts';

/** What a block states. */
export type Fact = Site | Person | Crew | Practice | Tree;

/** Sizes of a tree; diameters at breast height, one for each stem, from `girth` divided by π where that was taped. */
export type Sizes = Pick<Tree, 'diameters' | 'measuredAt' | 'height'>;
export type GeoPosition = NonNullable<Tree['position']>;
export type Photo = Inspection['photos'][number];
export type SizeChange = NonNullable<Prescription['height']>;
export type DefectKind = Exclude<Defect['kind']['value'], Unread>;
export type PrescriptionKind = Exclude<Prescription['kind']['value'], Unread>;
