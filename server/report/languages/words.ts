/** Words of the notation that the part for the crew shows. */

import type { RiggedElement } from '../../assess/rigging.ts';
import type { SignStanding } from '../../assess/standing.ts';
import type { BatCheck, Defect, NestCheck, Prescription, Target, Tree, Unread } from '../../facts/types.ts';

type ValueOf<Field> = NonNullable<Field> extends { readonly value: infer Value } ? Value : never;

/** A word with one meaning wherever it stands; of an unread head there is none. */
export type CrewWord = Exclude<
  | ValueOf<Prescription['kind']>
  | ValueOf<Prescription['methods'][number]>
  | ValueOf<Prescription['priority']>
  | NonNullable<Prescription['rigged']>['how']
  | NonNullable<Prescription['wood']>['where']
  | ValueOf<Defect['kind']>
  | ValueOf<Tree['parts'][number]['union']>
  | ValueOf<NestCheck['from']>
  | NestCheck['found'][number]['use']
  | BatCheck['found'][number]['use']
  | ValueOf<Target['occupied']>
  | ValueOf<Tree['age']>
  | ValueOf<Tree['vigor']>
  | NonNullable<NonNullable<Tree['stressed']>['cause']>
  | NonNullable<NonNullable<Tree['protection']>['scope']>
  | RiggedElement['name']
  | SignStanding,
  Unread
>;
