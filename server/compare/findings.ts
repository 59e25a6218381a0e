/** Findings that appeared or ended between two states, identified by their subject, never by their line. */

import { grouped } from '../base/grouped.ts';
import type { Workspace } from '../facts/workspace.ts';
import type { Finding } from '../rules/check.ts';
import { identityOf, siteNameOf } from '../rules/identity.ts';
import { type Pairing, treeKey } from './pairs.ts';

/** Rank of a finding's level; accepted findings rank lowest. */
const WEIGHT = { note: 1, warning: 2, error: 3 } as const;
const weightOf = ({ accepted, level }: Finding): number => (accepted ? 0 : WEIGHT[level]);

/** Findings by identity, the most severe first. */
export type FindingsByIdentity = ReadonlyMap<string, readonly Finding[]>;

/** Findings identified by the tags of their own state. */
export const byIdentity = (workspace: Workspace, findings: readonly Finding[]): FindingsByIdentity =>
  byWeight(findings, finding => identityOf(finding, siteNameOf(workspace, finding.file)));

/** Findings of a later state, identified by the tags of the earlier one. */
export function byFormerIdentity(
  workspace: Workspace,
  findings: readonly Finding[],
  { pairs }: Pairing,
): FindingsByIdentity {
  const former = new Map(
    pairs.map(({ before, after }) => [
      treeKey(after.site, after.placed.fact.tag.value),
      { site: before.site, tag: before.placed.fact.tag.value },
    ]),
  );
  return byWeight(findings, finding => {
    const site = siteNameOf(workspace, finding.file);
    const tree = finding.tree === undefined ? undefined : former.get(treeKey(site, finding.tree));
    return tree ? identityOf(finding, tree.site, tree.tag) : identityOf(finding, site);
  });
}

const byWeight = (findings: readonly Finding[], identity: (finding: Finding) => string): FindingsByIdentity =>
  new Map(
    [...grouped(findings, identity)].map(([key, group]) => [
      key,
      group.toSorted((a, b) => weightOf(b) - weightOf(a)),
    ]),
  );

/**
 * Findings of `now` that are missing in `known`, or there only at a lower level or accepted: a warning that
 * became an error is new. With the arguments swapped, the findings that ended.
 */
export function notAmong(now: FindingsByIdentity, known: FindingsByIdentity): ReadonlySet<Finding> {
  const news = new Set<Finding>();
  for (const [identity, findings] of now) {
    const before = known.get(identity) ?? [];
    findings.forEach((finding, i) => {
      const same = before[i];
      if (!same || weightOf(same) < weightOf(finding)) news.add(finding);
    });
  }
  return news;
}
