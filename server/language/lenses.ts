/** Code lenses above each tree: its findings and the command to weigh it. */

import type { Span } from '../../grammar/text.ts';
import { blockAt } from '../facts/file.ts';
import type { DatedWorkspace, FileSnapshot } from '../facts/workspace.ts';
import { checkBlock, type Finding } from '../rules/check.ts';

export interface Lens extends Span {
  readonly shows: 'findings' | 'weigh';
}

/** Where they stand. What they say is looked up for those that are seen. */
export const lenses = ({ trees }: FileSnapshot): readonly Lens[] =>
  trees.flatMap(({ start, fact }) => {
    const span = { start: start + fact.at.start, end: start + fact.at.end };
    return [
      { ...span, shows: 'findings' as const },
      { ...span, shows: 'weigh' as const },
    ];
  });

export interface LensText {
  /** Of the tree. */
  readonly tag: string;
  readonly findings: string;
}

/** What the lenses of the tree at an offset say. */
export function lensText(
  { workspace, today }: DatedWorkspace,
  file: FileSnapshot,
  offset: number,
): LensText | undefined {
  const i = blockAt(file, offset);
  const fact = file.nodes[i]!.fact;
  return fact?.kind === 'tree'
    ? { tag: fact.tag.value, findings: countText(checkBlock(workspace, file, i, today)) }
    : undefined;
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
