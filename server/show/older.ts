/** What of a record is from readings before its newest one, in words. */

import { formatDate } from '../base/dates.ts';
import { listed } from '../base/words.ts';
import { SCHEMA_OF } from '../facts/schema.ts';
import type { DayOf, Inspection, ReadAgainFact, Tree } from '../facts/types.ts';

/** Words of the notation that say nothing by themselves. */
const READ_AS: Readonly<Record<string, string>> = { on: 'place', from: 'origin', runs: 'course' };

/** The lines that state these members, by the day they are from, the latest first: `diameter and bark of 2021-05-04`. */
function linesByDay(days: DayOf, head: string): readonly string[] {
  const words = new Map<number | undefined, Set<string>>();
  for (const { name, field } of SCHEMA_OF.get(head)!.members) {
    if (!days.has(name)) continue;
    const day = days.get(name);
    const known = words.get(day) ?? new Set();
    words.set(day, known.add(READ_AS[field?.word ?? ''] ?? field?.word ?? name));
  }
  return [...words]
    .sort(([a], [b]) => (b ?? Number.NEGATIVE_INFINITY) - (a ?? Number.NEGATIVE_INFINITY))
    .map(
      ([day, fields]) =>
        `${listed([...fields])} ${day === undefined ? 'without a day' : `of ${formatDate(day)}`}`,
    );
}

/** `diameter and bark of 2021-05-04`; undefined where all was read again. */
export const olderWords = ({ older }: ReadAgainFact, head: string): string | undefined =>
  older && linesByDay(older, head).join('; ');

/** What was last said of a tree before its last inspection, by an inspection or by work. */
export function olderTreeWords({ dated, inspections }: Tree): string | undefined {
  if (!dated || dated.size === 0) return undefined;
  const last = inspections.reduce(
    (day, { date }: Inspection) => Math.max(day, date.value),
    Number.NEGATIVE_INFINITY,
  );
  const before = new Map([...dated].filter(([, day]) => day !== undefined && day < last));
  return before.size === 0 ? undefined : linesByDay(before, 'tree').join('; ');
}
