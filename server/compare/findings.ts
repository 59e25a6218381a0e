/** Findings that came and went between two states, told apart by what they are about, never by their lines. */

import type { Workspace } from '../facts/workspace.ts';
import type { Finding } from '../rules/check.ts';
import { identityOf, siteNameOf } from '../rules/identity.ts';
import { type Pairing, treeKey } from './pairs.ts';

/** How much a finding weighs: one that is accepted least of all. */
const WEIGHT = { note: 1, warning: 2, error: 3 } as const;
const weightOf = ({ accepted, level }: Finding): number => (accepted ? 0 : WEIGHT[level]);

/** For each identity the findings that bear it, the gravest first. */
export type FindingsByIdentity = ReadonlyMap<string, readonly Finding[]>;

/** The findings of a state under the names of its own trees. */
export const byIdentity = (workspace: Workspace, findings: readonly Finding[]): FindingsByIdentity =>
  grouped(findings, finding => identityOf(finding, siteNameOf(workspace, finding.file)));

/** The findings of a later state under the names that the trees had in the earlier one. */
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
  return grouped(findings, finding => {
    const site = siteNameOf(workspace, finding.file);
    const tree = finding.tree === undefined ? undefined : former.get(treeKey(site, finding.tree));
    return tree ? identityOf(finding, tree.site, tree.tag) : identityOf(finding, site);
  });
}

function grouped(findings: readonly Finding[], identity: (finding: Finding) => string): FindingsByIdentity {
  const groups = new Map<string, Finding[]>();
  for (const finding of findings) {
    const key = identity(finding);
    const group = groups.get(key);
    if (group) group.push(finding);
    else groups.set(key, [finding]);
  }
  for (const group of groups.values()) group.sort((a, b) => weightOf(b) - weightOf(a));
  return groups;
}

/**
 * The findings of `now` that `known` does not have, or has only at a lower level or as accepted: what was a
 * warning and is an error now is new. Called the other way round, those that went.
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
