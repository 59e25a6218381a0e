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
import type { DayOf, Headed, StateMark, Unread } from './placed.ts';

export type * from './facts.generated.ts';
export type * from './placed.ts';

/** A tree as a block states it; assessments look at its state on a day, see state.ts. */
export type WrittenTree = Omit<Tree, StateMark>;

/** What a block states. */
export type Fact = Site | Person | Crew | Practice | WrittenTree;

/** The members of a tree that list the facts of heads inside it. */
export type TreeList = {
  [Name in keyof Tree]: Tree[Name] extends readonly Headed[] ? Name : never;
}[keyof Tree];
/** Those of them whose facts may have notes. */
export type NotedList = {
  [Name in TreeList]: Tree[Name][number] extends { readonly notes: unknown } ? Name : never;
}[TreeList];

/** Those of them whose facts are read again. */
export type ReadAgainList = {
  [Name in TreeList]: Tree[Name][number] extends { readonly older: DayOf | undefined } ? Name : never;
}[TreeList];
export type ReadAgainFact = Tree[ReadAgainList][number];

/** Sizes of a tree; diameters at breast height, one for each stem, from `girth` divided by π where that was taped. */
export type Sizes = Pick<Tree, 'diameters' | 'measuredAt' | 'height'>;
export type GeoPosition = NonNullable<Tree['position']>;
export type Photo = Inspection['photos'][number];
export type SizeChange = NonNullable<Prescription['height']>;
export type DefectKind = Exclude<Defect['kind']['value'], Unread>;
