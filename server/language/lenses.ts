/** Code lenses above each tree: its findings and the command to weigh it. */

import type { Span } from '../../grammar/text.ts';
import { factAt } from '../facts/file.ts';
import type { DatedWorkspace, FileSnapshot } from '../facts/workspace.ts';
import type { Finding } from '../rules/check.ts';
import { findingsOf } from './snapshot.ts';

export interface Lens extends Span {
  readonly title: string;
  /** Tag of the tree to weigh; absent if the lens has no command. */
  readonly weigh?: string;
}

export function lenses(snapshot: DatedWorkspace, file: FileSnapshot): readonly Lens[] {
  const byTree = new Map<number, Finding[]>();
  for (const finding of findingsOf(snapshot, file)) {
    const placed = factAt(file, finding.start);
    if (placed?.fact.kind !== 'tree') continue;
    const list = byTree.get(placed.start);
    if (list) list.push(finding);
    else byTree.set(placed.start, [finding]);
  }
  return file.trees.flatMap(({ start, fact }) => {
    const span = { start: start + fact.at.start, end: start + fact.at.end };
    return [
      { ...span, title: countText(byTree.get(start) ?? []) },
      { ...span, title: 'weigh', weigh: fact.tag.value },
    ];
  });
}

/** `2 errors, 1 note, 1 accepted`. */
function countText(findings: readonly Finding[]): string {
  const open = findings.filter(({ accepted }) => !accepted);
  const count = (level: Finding['level']) => {
    const number = open.filter(finding => finding.level === level).length;
    return number === 0 ? [] : [`${number} ${level}${number === 1 ? '' : 's'}`];
  };
  const accepted = findings.length - open.length;
  const parts = [
    ...count('error'),
    ...count('warning'),
    ...count('note'),
    ...(accepted > 0 ? [`${accepted} accepted`] : []),
  ];
  return parts.length > 0 ? parts.join(', ') : 'no findings';
}
