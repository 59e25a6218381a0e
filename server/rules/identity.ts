/** What makes two findings the same one over edits: the site, the tree, the rule and the subject, never the line. */

import { siteOf, type Workspace } from '../facts/workspace.ts';
import type { Finding } from './check.ts';

/**
 * The identity of a finding. All mistakes of one kind have one subject; of those the message tells what was written.
 * A tree that is itself the subject goes by the name that it is known under.
 * @param site name of the site
 * @param tree the tag under which the tree is known, where that is not the one of today
 */
export const identityOf = (finding: Finding, site: string | undefined, tree = finding.tree): string =>
  JSON.stringify([
    site ?? '',
    tree ?? '',
    finding.rule,
    finding.grade === 'syntax' ? finding.message : finding.subject === finding.tree ? tree : finding.subject,
  ]);

/** The name of the site that a file belongs to. */
export const siteNameOf = (workspace: Workspace, file: string): string | undefined =>
  siteOf(workspace, file)?.name.value;

/** Tells findings of one identity apart: the second gets the number 2. */
export function numbered(identities: readonly string[]): readonly string[] {
  const seen = new Map<string, number>();
  return identities.map(identity => {
    const count = (seen.get(identity) ?? 0) + 1;
    seen.set(identity, count);
    return count === 1 ? identity : `${identity} ${count}`;
  });
}
