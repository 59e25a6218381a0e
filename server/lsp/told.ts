/** What was told of each file last, so that only what differs is told again. */

import type { Finding, Gravest } from '../rules/check.ts';

export class Told {
  private readonly last = new Map<string, { readonly found: Gravest; readonly id: string }>();
  private count = 0;

  /** Names a list of findings: the same list, the same name. */
  idOf(uri: string, found: Gravest): string {
    const before = this.last.get(uri);
    if (before && before.found.all === found.all && same(before.found.findings, found.findings))
      return before.id;
    const id = String(++this.count);
    this.last.set(uri, { found, id });
    return id;
  }
}

/**
 * Findings of trees that did not change share their texts, so that comparing them costs next to nothing; what
 * they point at elsewhere is compared by its place.
 */
const same = (a: readonly Finding[], b: readonly Finding[]): boolean =>
  a === b ||
  (a.length === b.length &&
    a.every((one, i) => {
      const other = b[i]!;
      return (
        one.line === other.line &&
        one.column === other.column &&
        one.endLine === other.endLine &&
        one.endColumn === other.endColumn &&
        one.rule === other.rule &&
        one.level === other.level &&
        one.message === other.message &&
        one.remedy === other.remedy &&
        one.accepted?.by === other.accepted?.by &&
        one.accepted?.because === other.accepted?.because &&
        sameRelated(one.related ?? [], other.related ?? [])
      );
    }));

const sameRelated = (a: NonNullable<Finding['related']>, b: NonNullable<Finding['related']>): boolean =>
  a.length === b.length &&
  a.every(({ file, line, column, message }, i) => {
    const other = b[i]!;
    return file === other.file && line === other.line && column === other.column && message === other.message;
  });
