/** Which inspection of a tree a record belongs to, where that is not the one above it. */

import { HEADS } from '../../grammar/fields.ts';
import { membersOf } from './schema.ts';
import type { Inspection, WrittenTree } from './types.ts';

/** The lists whose facts belong to an inspection, and the member that has its day. */
const INSPECTED = [
  ...new Map(
    [...HEADS.values()].flatMap(({ list, fields }) => {
      const day = [...fields.values()].find(({ inspected }) => inspected);
      return day ? [[list!, membersOf(day)[0]!.name] as const] : [];
    }),
  ),
];

/** A fact that states its day belongs to the inspection of that day, wherever that is in the text. */
export function assignInspections(tree: WrittenTree): void {
  for (const [list, day] of INSPECTED) {
    const facts = tree[list as keyof WrittenTree] as unknown as readonly Record<string, unknown>[];
    for (const fact of facts) {
      const { inspection } = fact as { readonly inspection?: Inspection };
      if (fact[day] !== inspection?.date.value)
        fact.inspection = tree.inspections.findLast(({ date }) => date.value === fact[day]);
    }
  }
}
